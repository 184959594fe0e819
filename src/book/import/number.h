#pragma once

#include <optional>
#include <string_view>

namespace book {

inline bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// Spaces, tabs, and no-break spaces off both ends.
std::string_view trimmed(std::string_view field);

// Whether a field is one of the marks by which loggers and spreadsheets say "no value": empty, -,
// --,
// ---, NA, N/A, #N/A, NaN, null, none, nil, OL, error, ERR, missing, -999, -9999 and their like.
// Case does not count.
bool is_missing(std::string_view field);

// A decimal number with an optional sign and exponent, '.' or ',' before its fraction as `decimal`
// says. None for anything else: nan, inf, hexadecimal, digit grouping, and what a double cannot
// hold.
std::optional<double> read_number(std::string_view field, char decimal);

}  // namespace book
