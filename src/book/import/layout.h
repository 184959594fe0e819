#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "book/import/time.h"

namespace book {

// What the values of a column look like.
enum class Looks { kNothing, kMoment, kDate, kClock, kNumber, kUnit, kText };

struct LayoutColumn {
  std::string name;  // of the header, fit for a terminal; "col3" where the file has none
  std::string unit;  // the symbol that the header names; empty: none
  Looks looks = Looks::kNothing;
  std::vector<TimeOrder> orders;  // of a moment or a date: those in which every value is one
  std::vector<std::string> few;   // the different values, where it is text and there are few (400)
};

// What can be told of a delimited file by its first rows.
struct Layout {
  bool json = false;  // one JSON object a line; then nothing below counts
  char delimiter = ',';
  char decimal = '.';
  bool has_header = false;
  bool backward = false;      // the newest row comes first
  std::size_t data_from = 0;  // where the first row begins, in the text that was given
  std::size_t lines_before = 0;
  std::vector<LayoutColumn> columns;             // empty: no table was found
  std::vector<std::vector<std::string>> sample;  // the first three rows
};

// `head`: the first part of the file as UTF-8; `at_end`: it is all of it. Lines before the table
// (its preamble) are passed over: the table begins with the first row that has as many fields as
// most and a moment in one of them (or a date and a time of day in two).
Layout find_layout(std::string_view head, bool at_end);

// The unit that a column's header names, as its symbol, or empty: "Core (°F)", "T [degC]", "Temp
// °C", "temp_F".
std::string unit_in_header(std::string_view header);

}  // namespace book
