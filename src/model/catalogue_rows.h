#pragma once

#include <cstddef>
#include <span>
#include <string_view>

#include "model/material.h"

// The tables of schema/ as the build embeds them.
namespace model {

struct MaterialRow {
  std::string_view name, group;
  std::string_view aliases, flags;  // separated by ';'
  std::string_view meaning;
};

struct FigureRow {
  std::size_t material;  // index into material_rows()
  Property property;
  double value;  // in stored units
  std::string_view source;
};

std::span<const MaterialRow> material_rows();
std::span<const FigureRow> figure_rows();  // in the order of the materials

}  // namespace model
