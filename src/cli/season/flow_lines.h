#pragma once

#include <string>
#include <vector>

#include "cli/season/tables.h"
#include "render/csv.h"
#include "render/json.h"

// What became of everything, for machines: balances, the loop, the greenhouse account.
namespace cli {

// Adds "balances", "loop" and "findings".
void add_flow_json(const Season& season, const Desk& desk, render::Json& into);

// A table as a file, and what its columns mean.
struct CsvFile {
  std::string name, what;
  std::vector<render::CsvColumn> columns;
  std::string content;
};
std::vector<CsvFile> flow_csv(const Season& season);

}  // namespace cli
