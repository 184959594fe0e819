#include <doctest/doctest.h>

#include "measure/text.h"
#include "render/text.h"

namespace table_test {

using render::columns;
using render::cut;
using render::padded;
using render::Table;
using render::wrapped;

namespace {

const std::string kFamily = "👨\u200d👩\u200d👧";

std::size_t widest(const std::string& text) {
  std::size_t most = 0;
  for (const std::string& line : measure::split(text, '\n')) most = std::max(most, columns(line));
  return most;
}

}  // namespace

// Unicode Standard Annex #11 (East Asian Width): W and F take two columns, N, Na and H one;
// combining marks (general category Mn) take none. The letters after each check are the property in
// EastAsianWidth.txt.
TEST_CASE("columns, not bytes and not code points") {
  CHECK(columns("") == 0);
  CHECK(columns("148 F") == 5);
  CHECK(columns("148 °F") == 6);
  CHECK(columns("½") == 1);
  CHECK(columns("堆肥") == 4);            // W W
  CHECK(columns("ｆ") == 2);              // F, full-width f
  CHECK(columns("ﾀ") == 1);               // H, half-width ta
  CHECK(columns("한") == 2);              // W
  CHECK(columns("🌱") == 2);               // W
  CHECK(columns("e\u0301") == 1);         // e and a combining acute
  CHECK(columns("\u00e9") == 1);          // the same, composed
  CHECK(columns("o\u0308\u0304n") == 2);  // two marks on one letter
  CHECK(columns("a\u200bb") == 2);        // zero-width space
  CHECK(columns("█▁┄…") == 4);
  CHECK(columns("\xFF") == 1);  // a byte that is no text shows as one replacement
  CHECK(columns("a\xC3") == 2);
}

TEST_CASE("filling to a width") {
  CHECK(padded("ab", 4) == "ab  ");
  CHECK(padded("ab", 4, true) == "  ab");
  CHECK(padded("abcd", 4) == "abcd");
  CHECK(padded("abcde", 4) == "abcde");
  CHECK(padded("堆肥", 6) == "堆肥  ");
  CHECK(padded("e\u0301", 3, true) == "  e\u0301");
}

TEST_CASE("cutting to a width") {
  CHECK(cut("abcdef", 6) == "abcdef");
  CHECK(cut("abcdef", 5) == "abcd…");
  CHECK(cut("abcdef", 1) == "…");
  CHECK(cut("堆肥堆肥", 8) == "堆肥堆肥");
  CHECK(cut("堆肥堆肥", 7) == "堆肥堆…");
  CHECK(cut("堆肥堆肥", 6) == "堆肥…");  // half a character does not fit
  // A mark stays with its letter.
  CHECK(cut("ae\u0301iou", 3) == "ae\u0301…");
  CHECK(cut("", 0) == "");
  for (const std::string& text : {std::string("堆肥 heap e\u0301\u0308 🌱🌱 \xFF\xFE"), kFamily}) {
    for (std::size_t width = 1; width < 30; ++width) CHECK(columns(cut(text, width)) <= width);
  }
}

TEST_CASE("wrapping at spaces") {
  CHECK(wrapped("", 10, 2) == "");
  CHECK(wrapped("one two", 10, 2) == "one two");
  CHECK(wrapped("one two three", 7, 2) == "one two\n  three");
  CHECK(wrapped("  one two three", 7, 4) == "  one\n    two\n    three");
  CHECK(wrapped("incomprehensibilities a b", 10, 2) == "incomprehensibilities\n  a b");
  CHECK(wrapped("a incomprehensibilities b", 10, 0) == "a\nincomprehensibilities\nb");
  CHECK(wrapped("堆肥 堆肥 堆肥", 9, 0) == "堆肥 堆肥\n堆肥");
  const std::string text =
      "heap-3: its core is too hot: 165 °F, above 160 °F; turn it or open it, and water it 堆肥 "
      "if it is dry e\u0301 e\u0301 e\u0301";
  for (std::size_t width = 12; width < 130; ++width) {
    const std::string made = wrapped(text, width, 4);
    CHECK(widest(made) <= width);
    // Nothing is lost: with line breaks and indents made spaces again, it is the same text.
    CHECK(measure::folded(made) == measure::folded(text));
  }
}

TEST_CASE("a table's columns stand under one another, whatever is in them") {
  Table table({{"batch"}, {"mass", true}, {"what"}});
  CHECK(table.empty());
  table.add({"heap-3", "1,250 lb", "leaves"});
  table.add({"堆肥", "40 lb", "é"});
  table.add({"e\u0301", "½ lb", ""});
  CHECK_FALSE(table.empty());
  CHECK(table.text(80) ==
        "batch       mass  what\n"
        "heap-3  1,250 lb  leaves\n"
        "堆肥       40 lb  é\n"
        "e\u0301           ½ lb\n");
  CHECK(table.text(80, 2).starts_with("  batch       mass  what\n  heap-3"));
}

TEST_CASE("a table without any header has no header line") {
  Table table({{""}, {"", true}});
  table.add({"peak", "70 °C"});
  CHECK(table.text(80) == "peak  70 °C\n");
}

TEST_CASE("the last column of text gives way to the width") {
  Table table({{"a"}, {"b"}});
  table.add({"heap-3", "一二三四五六七八九十 and so on to the end of a long line"});
  for (std::size_t width = 20; width <= 60; ++width) CHECK(widest(table.text(width)) <= width);
  CHECK(table.text(20) == "a       b\nheap-3  一二三四五…\n");
}

TEST_CASE("bar: eighths of a column, within its width") {
  CHECK(render::bar(0, 4).empty());
  CHECK(render::bar(0.5, 4) == "██");
  CHECK(render::bar(17.0 / 32, 4) == "██▏");
  CHECK(render::bar(31.0 / 32, 4) == "███▉");
  CHECK(render::bar(1, 4) == "████");
  CHECK(render::bar(1.5, 4) == "████");
  CHECK(render::bar(-1, 4).empty());
}

}  // namespace table_test
