#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/file/tables.h"

// Inside this layer: cells as the text of an exported package, and back.
namespace book {

// The cell as it stands in CSV. A text that a spreadsheet would run as a formula (or that begins
// with an apostrophe) gets an apostrophe in front; so has the empty text where a column may have
// none.
std::string csv_cell(const ColumnInfo& column, const Cell& cell);
// None where the text is none that csv_cell makes for that column.
std::optional<Cell> cell_of(const ColumnInfo& column, std::string_view text);

std::string json_text(std::string_view text);  // in quotes
std::string json_cell(const ColumnInfo& column, const Cell& cell);

// The records of a CSV text; a quoted cell may hold line breaks. None where a quote is not closed.
std::optional<std::vector<std::vector<std::string>>> csv_records(std::string_view text);

}  // namespace book
