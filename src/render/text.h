#pragma once

#include <string>
#include <string_view>
#include <vector>

// Text for a terminal: measured in columns, not in bytes.
namespace render {

// The columns that a terminal gives the text (wide characters 2, combining ones 0).
std::size_t columns(std::string_view text);

// The text filled with spaces to a width; longer text is left as it is.
std::string padded(std::string_view text, std::size_t width, bool right = false);

// The text cut to a width, with "…" where it was cut.
std::string cut(std::string_view text, std::size_t width);

// Broken at spaces into lines of at most `width` columns; the second line and on begin with
// `indent` spaces; spaces that lead the text are kept. A word longer than a line stands alone.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent);

// A bar of `width` columns at most, in eighths of a column; a share of 0 to 1.
std::string bar(double share, std::size_t width);

// Rows in aligned columns. The last column takes what is left of the width and is wrapped or cut.
class Table {
 public:
  struct Column {
    std::string header;
    bool right = false;
  };
  explicit Table(std::vector<Column> columns) : columns_(std::move(columns)) {}
  void add(std::vector<std::string> row) { rows_.push_back(std::move(row)); }
  bool empty() const { return rows_.empty(); }
  std::string text(std::size_t width, std::size_t indent = 0) const;

 private:
  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace render
