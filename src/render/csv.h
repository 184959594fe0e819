#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace render {

// One CSV table after RFC 4180: comma, CRLF, quotes where they are needed, a header row, UTF-8. A
// cell of text that a spreadsheet would run as a formula (it begins with = + - @ or a tab) gets an
// apostrophe in front; numbers are written as they are.
class Csv {
 public:
  explicit Csv(const std::vector<std::string>& header);
  Csv& text(std::string_view cell);
  Csv& number(double cell);
  Csv& whole(long long cell);
  Csv& empty();
  void end_row();
  const std::string& str() const { return out_; }

 private:
  void raw(std::string_view cell);
  std::string out_;
  bool first_ = true;
};

// A column of a table and what it holds, for the README beside the files.
struct CsvColumn {
  std::string_view name;
  std::string_view meaning;
  std::string_view type = "string";  // of Table Schema: "number", "integer", "date", "datetime"
};
// Their names: a header row.
std::vector<std::string> names(const std::vector<CsvColumn>& columns);

}  // namespace render
