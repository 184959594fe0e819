#include "measure/amount.h"

#include <doctest/doctest.h>

#include "measure/text.h"

namespace amount_test {

using namespace std::string_literals;
using measure::Amount;
using measure::Container;
using measure::Dimension;
using measure::parse_amount_then;
using measure::parse_number;
using measure::parse_value;
using measure::unit;

namespace {

const std::vector<Container> kContainers{
    {"bucket", measure::Litres{18.92705892}},  // 5 gal: 5 x 3.785411784 L (NIST SP 811)
    {"box", measure::Litres{40}},
    {"barrow", measure::Litres{85}},
};

double number(std::string_view text) {
  const auto read = parse_number(text);
  REQUIRE_MESSAGE(read.ok(), text);
  return *read;
}

// What is refused must say so in clean words, short enough for a terminal, and name the word.
void check_refused(const measure::Mistake& mistake) {
  CHECK(measure::is_clean_text(mistake.why));
  CHECK(mistake.why.size() > 20);
  CHECK(mistake.why.size() < 700);
}

}  // namespace

TEST_CASE("numbers as people type them") {
  CHECK(number("148") == 148);
  CHECK(number("64.4") == 64.4);
  CHECK(number("-5") == -5);
  CHECK(number("+5") == 5);
  CHECK(number(" 7 ") == 7);
  CHECK(number("007") == 7);
  CHECK(number(".5") == 0.5);
  CHECK(number("-.5") == -0.5);
  CHECK(number("5.") == 5);
  CHECK(number("0") == 0);
  CHECK(number("1/2") == 0.5);
  CHECK(number("3/4") == 0.75);
  CHECK(number("1 1/2") == 1.5);
  CHECK(number("-1 1/2") == -1.5);
  CHECK(number("½") == 0.5);
  CHECK(number("1½") == 1.5);
  CHECK(number("2 ¼") == 2.25);
  CHECK(number("¾") == 0.75);
  CHECK(number("10/4") == 2.5);
  // The nearest double, whatever the locale (IEEE 754: correctly rounded).
  CHECK(number("0.1") == 0.1);
  CHECK(number("123456789.123456789") == 123456789.123456789);
}

TEST_CASE("what is no number is refused") {
  for (const std::string& text :
       {""s,      " "s,     "."s,        "-"s,     "+"s,     "-."s,    "nan"s,  "NaN"s,
        "inf"s,   "-inf"s,  "infinity"s, "1e5"s,   "1E5"s,   "1e400"s, "0x10"s, "0X1F"s,
        "1,5"s,   "1,000"s, "1.000,5"s,  "1 000"s, "1.2.3"s, "--5"s,   "+-5"s,  "5-"s,
        "- 5"s,   "1/0"s,   "1/"s,       "/2"s,    "1//2"s,  "1/2/3"s, "1 /2"s, "1/ 2"s,
        "1 1/0"s, "1.5/2"s, "1 1 1/2"s,  "five"s,  "148F"s,  "٣"s,     "５"s,   "5\0"s,
        "\0005"s, "1\x1b"s, "\xFF"s,     "1_000"s, "1'000"s, "$5"s,    "5%"s,   "½½"s}) {
    CAPTURE(measure::quoted(text));
    const auto read = parse_number(text);
    REQUIRE_FALSE(read.ok());
    check_refused(read.mistake());
  }
}

TEST_CASE("numbers past what a double holds are refused") {
  // The largest double has 309 digits (IEEE 754 binary64).
  CHECK(parse_number(std::string(308, '9')).ok());
  CHECK_FALSE(parse_number(std::string(310, '9')).ok());
  CHECK_FALSE(parse_number("1/" + std::string(400, '9')).ok());
  CHECK_FALSE(parse_value(std::string(308, '9') + "t", Dimension::kMass, unit("kg")).ok());
  CHECK_FALSE(parse_amount_then(std::string(308, '9') + "t", {}).ok());
}

TEST_CASE("an amount with its unit") {
  struct Row {
    std::string_view text;
    Dimension dimension;
    double si;
    std::string_view typed, rest;
  };
  // Worked with the factors of NIST SP 811 (2008), appendix B.8.
  for (const Row& row : {
           Row{"40kg", Dimension::kMass, 40, "40kg", ""},
           {"40 kg coffee grounds", Dimension::kMass, 40, "40 kg", "coffee grounds"},
           {"40 kg of coffee grounds", Dimension::kMass, 40, "40 kg", "coffee grounds"},
           {"1 1/2 lb", Dimension::kMass, 0.680388555, "1 1/2 lb", ""},
           {"1½lb frass", Dimension::kMass, 0.680388555, "1 1/2lb", "frass"},
           {"½ lb", Dimension::kMass, 0.226796185, "1/2 lb", ""},
           {"1/2 yd3 leaves", Dimension::kVolume, 382.277428992, "1/2 yd3", "leaves"},
           {"1/2yd³ leaves", Dimension::kVolume, 382.277428992, "1/2yd3", "leaves"},
           {"5gal", Dimension::kVolume, 18.92705892, "5gal", ""},
           {"3 bucket", Dimension::kVolume, 56.78117676, "3 bucket", ""},
           {"1/2 bucket Straw", Dimension::kVolume, 9.46352946, "1/2 bucket", "straw"},
           {"2 Buckets of leaves", Dimension::kVolume, 37.85411784, "2 buckets", "leaves"},
           {"2 boxes", Dimension::kVolume, 80, "2 boxes", ""},
           {"2barrows chips", Dimension::kVolume, 170, "2barrows", "chips"},
           {"12 eggs", Dimension::kCount, 0, "", ""},  // no unit: refused below
           {"2 dozen eggs", Dimension::kCount, 24, "2 dozen", "eggs"},
           {"131F", Dimension::kTemperature, 55, "131f", ""},
           {"-40 °F", Dimension::kTemperature, -40, "-40 f", ""},
           {"-5C", Dimension::kTemperature, -5, "-5c", ""},
           {"9 K", Dimension::kTemperatureDifference, 9, "9 k", ""},
           {"55%", Dimension::kFraction, 0.55, "55%", ""},
           {"3.6MJ", Dimension::kEnergy, 1, "3.6mj", ""},
           {"5 gallon s", Dimension::kVolume, 18.92705892, "5 gallon", "s"},
           {"2 oz of of", Dimension::kMass, 0.05669904625, "2 oz", "of"},
       }) {
    CAPTURE(row.text);
    const auto read = parse_amount_then(row.text, kContainers);
    if (row.typed.empty()) {
      REQUIRE_FALSE(read.ok());
      CHECK(read.mistake().why == "no unit or container is called 'eggs'");
      continue;
    }
    REQUIRE(read.ok());
    CHECK(read->amount.value.dimension == row.dimension);
    CHECK(read->amount.value.si == doctest::Approx(row.si).epsilon(1e-14));
    CHECK(read->amount.typed == row.typed);
    CHECK(read->rest == row.rest);
  }
}

TEST_CASE("what was typed reads back as the same amount") {
  for (const std::string_view text :
       {"40kg", "1½ lb", "½ bucket", "2 boxes", "-40°F", "5\u00A0gal", "1/3 yd³"}) {
    const auto first = parse_amount_then(text, kContainers);
    REQUIRE(first.ok());
    const auto again = parse_amount_then(first->amount.typed, kContainers);
    REQUIRE(again.ok());
    CHECK(again->amount.value == first->amount.value);
    CHECK(again->amount.typed == first->amount.typed);
  }
}

TEST_CASE("an amount without a unit, or with one that is none, is refused") {
  for (const std::string& text : {""s,
                                  "kg"s,
                                  "5"s,
                                  "½"s,
                                  "bucket"s,
                                  "nan kg"s,
                                  "inf kg"s,
                                  "1e3kg"s,
                                  "0x10 kg"s,
                                  "1,5 kg"s,
                                  "5 furlong"s,
                                  "5gallon_s"s,
                                  "5 \xFFkg"s,
                                  "5 k\x1bg"s,
                                  "5\xC2\x9Bkg"s,
                                  "5" + std::string(10'000, 'g'),
                                  std::string(10'000, 'k'),
                                  std::string(10'000, ' '),
                                  "1/0 kg"s,
                                  "5 kg\0"s}) {
    CAPTURE(measure::quoted(text));
    const auto read = parse_amount_then(text, kContainers);
    REQUIRE_FALSE(read.ok());
    check_refused(read.mistake());
  }
  CHECK(parse_amount_then("5 galon", {}).mistake().why ==
        "no unit or container is called 'galon'; did you mean gallon?");
  CHECK(parse_amount_then("5 buckte", kContainers).mistake().why ==
        "no unit or container is called 'buckte'; did you mean bucket?");
  CHECK(parse_amount_then("5 bucket", {}).mistake().why ==
        "no unit or container is called 'bucket'");
  CHECK(parse_amount_then("5", {}).mistake().why ==
        "'5' has no unit; write it like 40kg, 5gal or 2 bucket");
}

TEST_CASE("only a temperature goes below zero") {
  CHECK(parse_amount_then("-5 kg", {}).mistake().why ==
        "'-5 kg' is below zero, which a mass cannot be");
  CHECK_FALSE(parse_amount_then("-1/2 bucket", kContainers).ok());
  CHECK_FALSE(parse_amount_then("-1%", {}).ok());
  CHECK(parse_amount_then("-1C", {}).ok());
  CHECK(parse_amount_then("-2K", {}).ok());
  CHECK_FALSE(parse_value("-5", Dimension::kMass, unit("kg")).ok());
  CHECK_FALSE(parse_value("-0.1", Dimension::kAcidity, unit("pH")).ok());
  CHECK(parse_value("-5", Dimension::kTemperature, unit("°C"))->value.si == -5);
  CHECK(parse_value("0 kg", Dimension::kMass, unit("lb"))->value.si == 0);
}

TEST_CASE("a value of a wanted dimension") {
  const auto fahrenheit = [](std::string_view text) {
    return parse_value(text, Dimension::kTemperature, unit("°F"));
  };
  CHECK(fahrenheit("131")->value == measure::Value{Dimension::kTemperature, 55});
  CHECK(fahrenheit("55C")->value == measure::Value{Dimension::kTemperature, 55});
  CHECK(fahrenheit("131 °F")->value.si == 55);
  CHECK(fahrenheit("131F")->typed == "131f");
  CHECK(fahrenheit("55%").mistake().why ==
        "'55%' is a share in %, not a temperature (which takes °F or °C)");
  CHECK(fahrenheit("55X").mistake().why == "no unit is called 'x'; a temperature takes °F or °C");
  CHECK(fahrenheit("5 F F").mistake().why ==
        "no unit is called 'f f'; a temperature takes °F or °C");
  CHECK_FALSE(fahrenheit("").ok());
  CHECK_FALSE(fahrenheit("F").ok());
  CHECK_FALSE(fahrenheit("9 K").ok());  // a difference is no point

  const auto litres = [](std::string_view text) {
    return parse_value(text, Dimension::kVolume, unit("gal"), kContainers);
  };
  CHECK(litres("2 buckets")->value.si == doctest::Approx(37.85411784).epsilon(1e-14));
  CHECK(litres("1")->value.si == doctest::Approx(3.785411784).epsilon(1e-14));
  CHECK_FALSE(litres("5gallon s").ok());
  CHECK_FALSE(litres("5 gal straw").ok());
  CHECK_FALSE(litres("2 kg").ok());
  CHECK_FALSE(parse_value("2 bucket", Dimension::kMass, unit("kg"), kContainers).ok());
  CHECK_FALSE(parse_value("2 bucket", Dimension::kVolume, unit("L")).ok());
  for (const std::string& text : {"5" + std::string(10'000, 'x'), std::string(10'000, '5') + "x",
                                  "5 \x80"s, "5\x1b]0;x\x07"s, "1e400"s, "nan"s}) {
    const auto read = litres(text);
    REQUIRE_FALSE(read.ok());
    check_refused(read.mistake());
  }
}

}  // namespace amount_test
