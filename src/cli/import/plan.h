#pragma once

#include "book/import/rows.h"
#include "cli/import/targets.h"
#include "cli/shell/command.h"

namespace cli {

// What the person said of a file on the command line, before anything is asked.
struct ImportWords {
  std::vector<std::pair<std::string, std::string>> said;  // column or probe, and what it is
  std::optional<book::TimeOrder> order;
  std::optional<std::string> zone;
};
measure::Result<ImportWords> read_import_words(const Arguments& arguments);

// A mapping, and what it still needs.
struct ImportDraft {
  book::Mapping mapping;
  book::Layout layout;
  std::vector<book::TimeOrder> orders;  // more than one: which, cannot be told from the dates
  std::string date;                     // a date that can be read in each of them
};

// The mapping that the layout, then the names of columns and probes, then the words give; over
// `kept`, where the mapping has been kept before.
measure::Result<ImportDraft> draft_import(const Desk& desk, const book::Layout& layout,
                                          const std::optional<book::Mapping>& kept,
                                          const ImportWords& words);

// The mapping with everything found: columns in this file, series in the logbook.
measure::Result<book::RowReader::Plan> plan_import(const Desk& desk, const ImportDraft& draft);

}  // namespace cli
