#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/season_tables.h"
#include "render/json.h"

// What became of everything, for machines: balances, the loop, the greenhouse account.
namespace cli {

// Adds "balances", "loop" and "findings".
void add_flow_json(const Season& season, const Desk& desk, render::Json& into);

// Their tables, and for each what its columns mean.
struct DescribedCsv {
  std::string file, what, content;
  std::vector<std::pair<std::string, std::string>> columns;
};
std::vector<DescribedCsv> flow_csv(const Season& season);

}  // namespace cli
