#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "measure/scalar.h"
#include "science/soil/nutrients.h"

// What a harvest takes from the soil, for the crops whose printed figures could be checked.
namespace science {

struct CropRemoval {
  std::string_view crop{};  // in lower case, one word: "cabbage"
  std::string_view part{};  // what the figures are of
  OxideContent content{};   // kg in a tonne of the fresh harvest (dry beans: as sold)
  std::string_view source{};
};

// By the exact name of the crop. Nothing for a crop that is not in the table: ask for its figures.
std::optional<CropRemoval> find_crop_removal(std::string_view crop);

// Taken off by this harvest, in the elements. The same for any figures of that form.
NutrientMass removed_by_harvest(measure::Kilograms harvest, const OxideContent& content);

}  // namespace science
