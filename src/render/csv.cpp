#include "render/csv.h"

#include <fmt/format.h>

namespace render {

Csv::Csv(const std::vector<std::string>& header) {
  for (const std::string& name : header) raw(name);
  end_row();
}

void Csv::raw(std::string_view cell) {
  if (!first_) out_ += ',';
  first_ = false;
  out_ += cell;
}

Csv& Csv::text(std::string_view cell) {
  std::string safe;
  if (!cell.empty() && std::string_view("=+-@\t").find(cell.front()) != std::string_view::npos) {
    safe = "'";
  }
  safe += cell;
  if (safe.find_first_of(",\"\r\n") == std::string::npos) {
    raw(safe);
    return *this;
  }
  std::string quoted = "\"";
  for (const char c : safe) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  raw(quoted + "\"");
  return *this;
}

Csv& Csv::number(double cell) {
  // The shortest text that gives the same number back, whatever the locale.
  raw(fmt::format("{}", cell));
  return *this;
}

Csv& Csv::whole(long long cell) {
  raw(fmt::format("{}", cell));
  return *this;
}

Csv& Csv::empty() {
  raw("");
  return *this;
}

void Csv::end_row() {
  out_ += "\r\n";
  first_ = true;
}

std::vector<std::string> names(const std::vector<CsvColumn>& columns) {
  std::vector<std::string> all;
  for (const CsvColumn& column : columns) all.emplace_back(column.name);
  return all;
}

}  // namespace render
