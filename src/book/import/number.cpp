#include "book/import/number.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "measure/text.h"

namespace book {
namespace {

constexpr std::string_view kNoBreakSpace = "\u00A0";

constexpr std::array<std::string_view, 24> kMissing{
    "-",    "--",    "---",    "na",      "n/a",   "#n/a",  "nan",     "null",
    "none", "nil",   "ol",     "error",   "err",   "fault", "missing", "no data",
    "-999", "-9999", "-999.0", "-9999.0", "-99.9", "*",     "**",      "***"};

}  // namespace

std::string_view trimmed(std::string_view field) {
  for (bool again = true; again;) {
    again = false;
    while (!field.empty() && (field.front() == ' ' || field.front() == '\t')) {
      field.remove_prefix(1);
    }
    while (!field.empty() &&
           (field.back() == ' ' || field.back() == '\t' || field.back() == '\r')) {
      field.remove_suffix(1);
    }
    if (field.starts_with(kNoBreakSpace)) field.remove_prefix(2), again = true;
    if (field.ends_with(kNoBreakSpace)) field.remove_suffix(2), again = true;
  }
  return field;
}

bool is_missing(std::string_view field) {
  const std::string_view plain = trimmed(field);
  if (plain.empty()) return true;
  if (plain.size() > 8) return false;
  return std::find(kMissing.begin(), kMissing.end(), measure::folded(plain)) != kMissing.end();
}

std::optional<double> read_number(std::string_view field, char decimal) {
  field = trimmed(field);
  if (field.starts_with('+')) field.remove_prefix(1);
  if (field.empty() || field.size() > 64) return std::nullopt;
  const std::size_t first = field[0] == '-' ? 1 : 0;
  // from_chars would take "nan" and "inf".
  if (first == field.size() || !(is_digit(field[first]) || field[first] == decimal)) {
    return std::nullopt;
  }
  std::array<char, 64> copy;
  const char* begin = field.data();
  if (decimal == ',') {
    if (field.find('.') != std::string_view::npos) return std::nullopt;
    const auto end = std::replace_copy(field.begin(), field.end(), copy.begin(), ',', '.');
    (void)end;
    begin = copy.data();
  }
  double number{};
  const auto [end, error] = std::from_chars(begin, begin + field.size(), number);
  if (error != std::errc{} || end != begin + field.size() || !std::isfinite(number)) {
    return std::nullopt;
  }
  return number;
}

}  // namespace book
