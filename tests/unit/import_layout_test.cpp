#include <doctest/doctest.h>

#include "book/import/json.h"
#include "book/import/layout.h"
#include "book/import/mapping.h"
#include "book/import/marks.h"
#include "book/import/number.h"
#include "book/import/records.h"
#include "book/import/text.h"

namespace import_layout_test {

using namespace std::string_literals;
using book::Encoding;
using book::find_layout;
using book::Looks;
using book::Mark;
using book::Role;
using book::TimeOrder;

namespace {

std::vector<std::string> fields(const char* text, char delimiter = ',') {
  book::Records records(delimiter, 1000);
  records.next(text, true);
  return {records.fields().begin(), records.fields().end()};
}

using Strings = std::vector<std::string>;

}  // namespace

TEST_CASE("import: encodings, by mark and without") {
  CHECK(book::sniff_encoding("a,b\n1,2\n") == Encoding::kUtf8);
  CHECK(book::sniff_encoding("\xEF\xBB\xBF"
                             "a") == Encoding::kUtf8);
  CHECK(book::sniff_encoding("\xFF\xFE"
                             "a\0"s) == Encoding::kUtf16Little);
  CHECK(book::sniff_encoding("\xFE\xFF\0a"s) == Encoding::kUtf16Big);
  CHECK(book::sniff_encoding("a\0,\0b\0\n\0"s) == Encoding::kUtf16Little);
  CHECK(book::sniff_encoding("\0a\0,\0b\0\n"s) == Encoding::kUtf16Big);
  CHECK(book::sniff_encoding("T \xB0"
                             "C;1\n") == Encoding::kLatin1);
  CHECK(book::sniff_encoding("T °C;1\n") == Encoding::kUtf8);
  CHECK(book::sniff_encoding("T \xC2") == Encoding::kUtf8);  // cut within a character
  std::string out;
  book::append_utf8("\xB0\x80\xE9", Encoding::kLatin1, out);
  CHECK(out == "°€é");
  out.clear();
  // U+1F331 as a pair, and half a character that waits for its rest.
  CHECK(book::append_utf8("\x3C\xD8\x31\xDF"
                          "a"s,
                          Encoding::kUtf16Little, out) == 4);
  CHECK(out == "🌱");
}

TEST_CASE("import: records as in RFC 4180, section 2") {
  CHECK(fields("aaa,bbb,ccc\r\n") == Strings{"aaa", "bbb", "ccc"});
  CHECK(fields("\"aaa\",\"b \r\nbb\",\"ccc\"\r\n") == Strings{"aaa", "b \r\nbb", "ccc"});
  CHECK(fields("\"aaa\",\"b\"\"bb\",\"ccc\"") == Strings{"aaa", "b\"bb", "ccc"});
  CHECK(fields("\"a,b\",,") == Strings{"a,b", "", ""});
  CHECK(fields("5\" probe,1\n") == Strings{"5\" probe", "1"});
  book::Records records(',', 1000);
  CHECK(records.next("a,b", false) == 0);
  CHECK(records.next("\"a\nb", false) == 0);
  CHECK(records.next("\"a\nb\",c\nd", false) == 8);
  CHECK(records.lines() == 2);
  // A stray quote takes its own line and no other.
  CHECK(records.next("\"a\nb", true) == 3);
  CHECK(records.unclosed());
  CHECK(records.next("\"a", true) == 2);
  CHECK(records.unclosed());
  book::Records strict(',', 0);
  CHECK(strict.next("1,\"a\n2,b\n3,\"c\n", false) == 5);
  CHECK(strict.unclosed());
  CHECK(strict.lines() == 1);
  CHECK(strict.next("2,\"b\"\n", false) == 6);
  CHECK_FALSE(strict.unclosed());
}

TEST_CASE("import: numbers and marks for none") {
  CHECK(book::read_number("64,4", ',') == 64.4);
  CHECK(book::read_number(" +64.4 ", '.') == 64.4);
  CHECK(book::read_number("-1e-3", '.') == -1e-3);
  for (const char* text : {"", "-", "nan", "inf", "0x10", "1.234,5", "64.4C", "1e999", "--3"}) {
    CAPTURE(text);
    CHECK_FALSE(book::read_number(text, ','));
    CHECK_FALSE(book::read_number(text, '.'));
  }
  for (const char* text : {"", " ", "NA", "n/a", "--", "NaN", "-999", "#N/A", "OL", "null"}) {
    CAPTURE(text);
    CHECK(book::is_missing(text));
  }
  CHECK_FALSE(book::is_missing("0"));
}

TEST_CASE("import: delimiter, decimal, header, preamble and units") {
  auto layout = find_layout(
      "Logger 7\n\nWhen;T [degC];pH\n1.2.2027 07:15;64,4;7\n13.2.2027 07:15;64;7,1\n", true);
  CHECK(layout.delimiter == ';');
  CHECK(layout.decimal == ',');
  CHECK(layout.lines_before == 3);
  REQUIRE(layout.columns.size() == 3);
  CHECK(layout.columns[1].unit == "°C");
  CHECK(layout.columns[1].looks == Looks::kNumber);
  CHECK(layout.columns[0].orders == std::vector{TimeOrder::kDayFirst});
  // Names, then units in a row of their own; a slip in a column does not change what it is.
  layout = find_layout(
      "t,core\n,deg F\n2027-05-01 07:15,140\n2027-05-01 08:15,141\n"
      "2027-05-01 09:15,warm\n2027-05-01 10:15,1\n2027-05-01 11:15,2\n",
      true);
  CHECK(layout.columns[1].name == "core");
  CHECK(layout.columns[1].looks == Looks::kNumber);
  // No header, tabs, the newest row first.
  layout = find_layout("2027-05-02 07:15\t1\n2027-05-01 07:15\t2\n", true);
  CHECK_FALSE(layout.has_header);
  CHECK(layout.backward);
  CHECK(layout.columns[1].name == "col2");
  CHECK(find_layout("03/04/2027 07:15,1\n04/04/2027 07:15,2\n", true).columns[0].orders.size() ==
        2);
  CHECK(find_layout("no table\nhere\n", true).columns.empty());
  CHECK(find_layout(" {\"at\": 1}\n", true).json);
  CHECK(book::unit_in_header("Core (°F)") == "°F");
  CHECK(book::unit_in_header("temp_c") == "°C");
  CHECK(book::unit_in_header("probe C") == "");
}

TEST_CASE("import: a mapping is read back as it was written") {
  const auto layout = find_layout("time\tprobe\tvalue\n2027-05-02 07:15\ta\t1\n", true);
  book::Mapping mapping = book::first_guess(layout);
  CHECK(mapping.of(Role::kProbe)->name == "probe");
  CHECK(mapping.of(Role::kValue)->name == "value");
  mapping.zone = "-08:00";
  mapping.probes.push_back({"a", "heap-1.core", "°F"});
  const auto again = book::read_mapping(book::written(mapping));
  REQUIRE(again);
  CHECK(book::written(*again) == book::written(mapping));
  CHECK(again->delimiter == '\t');
  CHECK_FALSE(book::read_mapping("nonsense"));
}

TEST_CASE("import: JSON lines") {
  book::JsonLine line;
  REQUIRE(line.read(
      R"( {"unit":null,"value":-1.5e1,"x":[{"a":"}"},2],"series":"h\u00f6\ud83c\udf31\"","at":"t"} )"));
  CHECK(line.fields()[0] == "t");
  CHECK(line.fields()[1] == "hö🌱\"");
  CHECK(line.fields()[2] == "-1.5e1");
  CHECK(line.fields()[3] == "");
  for (const char* text :
       {"", "[]", "{", "{\"a\"}", "{\"a\":1} x", "{\"a\":b}", "{\"a\":\"b}", "{a:1}"}) {
    CAPTURE(text);
    CHECK_FALSE(line.read(text));
  }
}

TEST_CASE("import: implausible, jumping and stuck values") {
  book::Marker marker(-30, 95, 15);
  marker.begin(std::nullopt, 0);
  const auto hour = [](int h) { return std::int64_t{1800000000} + h * 3600; };
  CHECK(marker.judge(hour(0), 60) == Mark::kNone);
  CHECK(marker.judge(hour(1), 75) == Mark::kNone);  // 15 in an hour is allowed
  CHECK(marker.judge(hour(2), 20) == Mark::kJump);
  CHECK(marker.judge(hour(3), 95.5) == Mark::kImplausible);
  CHECK(marker.judge(hour(4), 30) == Mark::kNone);  // 45 in the three hours since 75
  int stuck = 0;
  for (int h = 5; h <= 30; ++h) stuck += marker.judge(hour(h), 31) == Mark::kStuck ? 1 : 0;
  CHECK(stuck == 2);  // from 24 hours after the first of them on
  CHECK(marker.judge(hour(31), 32) == Mark::kNone);
  // What may stand still (slurry under ground) is not stuck.
  book::Marker still(-5, 65, 3, true);
  still.begin(std::nullopt, 0);
  for (int h = 0; h <= 60; ++h) CHECK(still.judge(hour(h), 20.5) == Mark::kNone);
  CHECK(still.judge(hour(61), 30) == Mark::kJump);
  book::Marker any(0, 1, 0);  // nothing is known of how fast it changes
  any.begin(hour(0), 0);
  for (int h = 1; h <= 100; ++h) CHECK(any.judge(hour(h), 1) == Mark::kNone);
}

}  // namespace import_layout_test
