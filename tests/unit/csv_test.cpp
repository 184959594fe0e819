#include "render/csv.h"

#include <doctest/doctest.h>

#include <charconv>
#include <limits>
#include <utility>

namespace csv_test {

using render::Csv;

namespace {

// One cell of text as it is written.
std::string cell(std::string_view text) {
  Csv csv({});
  const std::size_t start = csv.str().size();
  csv.text(text);
  return csv.str().substr(start);
}

// A reader after RFC 4180, section 2, to see that what is written reads back.
std::vector<std::vector<std::string>> read(std::string_view text) {
  std::vector<std::vector<std::string>> rows(1);
  std::string cell;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
      cell += text[++i];
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && (c == ',' || c == '\n')) {
      rows.back().push_back(std::exchange(cell, {}));
      if (c == '\n') rows.emplace_back();
    } else if (quoted || c != '\r') {
      cell += c;
    }
  }
  rows.pop_back();
  return rows;
}

}  // namespace

// RFC 4180, section 2, rules 1 to 7.
TEST_CASE("rows end with CRLF, cells part with commas, the header is a row") {
  Csv csv({"batch", "mass_kg"});
  csv.text("heap-3").number(40).end_row();
  csv.text("bin-a").empty().end_row();
  csv.empty().whole(-3).end_row();
  CHECK(csv.str() == "batch,mass_kg\r\nheap-3,40\r\nbin-a,\r\n,-3\r\n");
}

TEST_CASE("cells are quoted where they must be") {
  CHECK(cell("aaa") == "aaa");
  CHECK(cell("b\"bb") == "\"b\"\"bb\"");  // RFC 4180's own example
  CHECK(cell("b\r\nbb") == "\"b\r\nbb\"");
  CHECK(cell("a,b") == "\"a,b\"");
  CHECK(cell("\"") == "\"\"\"\"");
  CHECK(cell("") == "");
  CHECK(cell("two words") == "two words");
  CHECK(cell("½ Eimer, 堆肥") == "\"½ Eimer, 堆肥\"");
}

// OWASP, CSV Injection: = + - @ and tab begin a formula in a spreadsheet.
TEST_CASE("text that a spreadsheet would run is made text") {
  CHECK(cell("=1+1") == "'=1+1");
  CHECK(cell("+1") == "'+1");
  CHECK(cell("-2d") == "'-2d");
  CHECK(cell("@SUM(A1)") == "'@SUM(A1)");
  CHECK(cell("\t=1") == "'\t=1");
  CHECK(cell("=HYPERLINK(\"http://x\",\"y\")") == "\"'=HYPERLINK(\"\"http://x\"\",\"\"y\"\")\"");
  CHECK(cell("a=1") == "a=1");
}

TEST_CASE("numbers are plain, and read back to the last bit") {
  const double numbers[] = {0,
                            -5.5,
                            0.1,
                            1.0 / 3,
                            64.44444444444444,
                            1e-12,
                            1e300,
                            123456789.125,
                            std::numeric_limits<double>::denorm_min()};
  Csv csv({"n"});
  for (const double one : numbers) csv.number(one).end_row();
  const auto rows = read(csv.str());
  REQUIRE(rows.size() == std::size(numbers) + 1);
  for (std::size_t i = 0; i < std::size(numbers); ++i) {
    const std::string& text = rows[i + 1][0];
    double back{};
    CHECK(std::from_chars(text.data(), text.data() + text.size(), back).ec == std::errc{});
    CHECK(back == numbers[i]);
    CHECK(text.find_first_not_of("0123456789.-+e") == std::string::npos);
  }
}

TEST_CASE("whatever is written reads back") {
  const std::vector<std::string> cells{"",     "plain", "a,b",    "say \"hot\"", "line\nbreak",
                                       "\"\"", ",,,",   "\r\n\"", "ümläut ½",    "end\""};
  Csv csv({"a", "b"});
  for (const std::string& one : cells) csv.text(one).text("x").end_row();
  const auto rows = read(csv.str());
  REQUIRE(rows.size() == cells.size() + 1);
  CHECK(rows[0] == std::vector<std::string>{"a", "b"});
  for (std::size_t i = 0; i < cells.size(); ++i) {
    CHECK(rows[i + 1] == std::vector<std::string>{cells[i], "x"});
  }
}

}  // namespace csv_test
