#include "book/keep/package_text.h"

#include <date/date.h>
#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <limits>

#include "measure/moment.h"
#include "measure/text.h"

namespace book {
namespace {

std::string instant_text(std::int64_t seconds) {
  const measure::Instant at{std::chrono::seconds{seconds}};
  const auto day = date::floor<date::days>(at);
  const date::hh_mm_ss<std::chrono::seconds> time{at - day};
  const date::year_month_day civil{day};
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", static_cast<int>(civil.year()),
                     static_cast<unsigned>(civil.month()), static_cast<unsigned>(civil.day()),
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

std::optional<std::int64_t> number_in(std::string_view text) {
  std::int64_t number{};
  const auto parsed = std::from_chars(text.data(), text.data() + text.size(), number);
  if (parsed.ec != std::errc{} || parsed.ptr != text.data() + text.size()) return std::nullopt;
  return number;
}

// "2027-05-03T14:15:00Z" and nothing else: what instant_text makes.
std::optional<std::int64_t> seconds_in(std::string_view text) {
  if (text.size() != 20 || text[10] != 'T' || text[13] != ':' || text[16] != ':' || text[19] != 'Z')
    return std::nullopt;
  const auto day = measure::parse_iso_date(text.substr(0, 10));
  const auto hours = number_in(text.substr(11, 2));
  const auto minutes = number_in(text.substr(14, 2));
  const auto seconds = number_in(text.substr(17, 2));
  if (!day || !hours || !minutes || !seconds) return std::nullopt;
  const std::int64_t found = std::int64_t{day->time_since_epoch().count()} * 86400 + *hours * 3600 +
                             *minutes * 60 + *seconds;
  return instant_text(found) == text ? std::optional(found) : std::nullopt;
}

// A file made elsewhere may hold what moves a cursor.
std::string fit_to_show(const ColumnInfo& column, std::string_view text) {
  return column.is_lines() ? measure::inert_lines(text) : measure::inert(text);
}

bool needs_apostrophe(std::string_view text) {
  return !text.empty() && std::string_view("=+-@'").find(text[0]) != std::string_view::npos;
}

}  // namespace

std::string csv_cell(const ColumnInfo& column, const Cell& cell) {
  if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
    if (column.is_instant()) return instant_text(*whole);
    if (column.is_day())
      return measure::iso_date(measure::Day{date::days{static_cast<int>(*whole)}});
    return fmt::format("{}", *whole);
  }
  if (const auto* real = std::get_if<double>(&cell)) {
    // As Table Schema of Frictionless Data writes what is no number of digits.
    return std::isfinite(*real) ? fmt::format("{}", *real) : *real > 0 ? "INF" : "-INF";
  }
  if (const auto* text = std::get_if<std::string>(&cell)) {
    std::string out = fit_to_show(column, *text);
    if (needs_apostrophe(out) || (out.empty() && !column.required)) out = "'" + out;
    if (out.find_first_of(",\"\r\n") == std::string::npos) return out;
    std::string in_quotes = "\"";
    for (const char c : out) in_quotes += c == '"' ? std::string("\"\"") : std::string(1, c);
    return in_quotes + "\"";
  }
  return {};
}

std::optional<Cell> cell_of(const ColumnInfo& column, std::string_view text) {
  if (text.empty() && !column.required) return Cell{};
  if (column.type == "TEXT") {
    if (text.starts_with('\'')) text.remove_prefix(1);
    const bool clean =
        column.is_lines() ? measure::is_clean_lines(text) : measure::is_clean_text(text);
    if (!clean) return std::nullopt;
    return Cell{std::string(text)};
  }
  if (column.type == "REAL") {
    constexpr double kInfinite = std::numeric_limits<double>::infinity();
    if (text == "INF" || text == "-INF") return Cell{text == "INF" ? kInfinite : -kInfinite};
    double number{};
    const auto parsed = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool whole = parsed.ec == std::errc{} && parsed.ptr == text.data() + text.size();
    return whole && std::isfinite(number) ? std::optional(Cell{number}) : std::nullopt;
  }
  if (column.is_instant()) {
    const auto seconds = seconds_in(text);
    return seconds ? std::optional(Cell{*seconds}) : std::nullopt;
  }
  if (column.is_day()) {
    const auto day = measure::parse_iso_date(text);
    if (!day) return std::nullopt;
    return Cell{static_cast<std::int64_t>(day->time_since_epoch().count())};
  }
  const auto number = number_in(text);
  return number ? std::optional(Cell{*number}) : std::nullopt;
}

std::string json_text(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '\n' || c == '\t') {
      out += c == '\n' ? "\\n" : "\\t";
      continue;
    }
    if (static_cast<unsigned char>(c) < 0x20) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned char>(c));
      continue;
    }
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string json_cell(const ColumnInfo& column, const Cell& cell) {
  if (const auto* text = std::get_if<std::string>(&cell)) {
    return json_text(fit_to_show(column, *text));
  }
  if (std::holds_alternative<std::monostate>(cell)) return "null";
  const auto* real = std::get_if<double>(&cell);
  const bool infinite = real != nullptr && !std::isfinite(*real);  // JSON has no such number
  const bool is_text = column.is_instant() || column.is_day() || infinite;
  return is_text ? json_text(csv_cell(column, cell)) : csv_cell(column, cell);
}

std::optional<std::vector<std::vector<std::string>>> csv_records(std::string_view text) {
  std::vector<std::vector<std::string>> records;
  std::vector<std::string> record;
  std::string cell;
  bool in_quotes = false;
  const auto end_record = [&] {
    record.push_back(std::move(cell));
    cell.clear();
    records.push_back(std::move(record));
    record.clear();
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_quotes) {
      if (c != '"') {
        cell += c;
      } else if (i + 1 < text.size() && text[i + 1] == '"') {
        cell += '"';
        ++i;
      } else {
        in_quotes = false;
      }
    } else if (c == '"') {
      in_quotes = true;
    } else if (c == ',') {
      record.push_back(std::move(cell));
      cell.clear();
    } else if (c == '\n') {
      end_record();
    } else if (c != '\r') {
      cell += c;
    }
  }
  if (in_quotes) return std::nullopt;
  if (!cell.empty() || !record.empty()) end_record();
  return records;
}

}  // namespace book
