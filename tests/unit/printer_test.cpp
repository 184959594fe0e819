#include "measure/printer.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "measure/amount.h"

namespace printer_test {

using measure::Dimension;
using measure::print_number;
using measure::Printer;
using measure::UnitSystem;
using measure::Value;

namespace {

const Printer kUs(UnitSystem::kUs);
const Printer kMetric(UnitSystem::kMetric);

}  // namespace

TEST_CASE("numbers") {
  CHECK(print_number(0, 2) == "0");
  CHECK(print_number(-0.001, 2) == "0");
  CHECK(print_number(148, 1) == "148");
  CHECK(print_number(64.44, 1) == "64.4");
  CHECK(print_number(10.50, 2) == "10.5");
  CHECK(print_number(100, 0) == "100");
  CHECK(print_number(999, 0) == "999");
  CHECK(print_number(1000, 0) == "1,000");
  CHECK(print_number(-1000, 0) == "-1,000");
  CHECK(print_number(-999.5, 1) == "-999.5");
  CHECK(print_number(12345.678, 2) == "12,345.68");
  CHECK(print_number(1234567, 0) == "1,234,567");
  CHECK(print_number(999999.999, 2) == "1,000,000");
}

TEST_CASE("values in the site's own units") {
  // Worked with the factors of NIST SP 811 (2008), appendix B.8.
  CHECK(kUs(measure::Celsius{55}) == "131 °F");
  CHECK(kMetric(measure::Celsius{55}) == "55 °C");
  CHECK(kUs(measure::Celsius{64.44444444}) == "148 °F");
  CHECK(kUs(measure::Celsius{-40}) == "-40 °F");
  CHECK(kUs(measure::Kilograms{18.14}) == "40 lb");
  CHECK(kUs(measure::Kilograms{0.1}) == "3.53 oz");
  CHECK(kUs(measure::Kilograms{567}) == "1,250 lb");
  // An ounce is 28,349.5 mg. Below one of them two digits, and milligrams only where an ounce would
  // have more zeros than digits.
  CHECK(kUs(measure::Kilograms{0.0056}) == "0.2 oz");
  CHECK(kUs(measure::Kilograms{659e-6}) == "0.023 oz");
  CHECK(kUs(measure::Kilograms{200e-6}) == "0.0071 oz");
  CHECK(kUs(measure::Kilograms{28.4e-6}) == "0.001 oz");
  CHECK(kUs(measure::Kilograms{28.3e-6}) == "28.3 mg");
  CHECK(kMetric(measure::Kilograms{0.25}) == "250 g");
  CHECK(kMetric(measure::Kilograms{0.0002}) == "200 mg");
  CHECK(kMetric(measure::Kilograms{0}) == "0 kg");
  CHECK(kUs(measure::Litres{18.92705892}) == "5 gal");
  CHECK(kUs(measure::Litres{764.554857984}) == "1 yd3");
  CHECK(kUs(measure::Litres{0.0295735295625}) == "1 fl-oz");
  CHECK(kMetric(measure::Litres{0.5}) == "500 mL");
  CHECK(kMetric(measure::Litres{1500}) == "1.5 m3");
  CHECK(kUs(measure::SquareMetres{9.290304}) == "100 ft2");
  CHECK(kUs(measure::SquareMetres{4046.8564224}) == "1 acre");
  CHECK(kMetric(measure::SquareMetres{10000}) == "1 ha");
  CHECK(kUs(measure::Metres{0.0254}) == "1 in");
  CHECK(kMetric(measure::Metres{0.5}) == "50 cm");
  CHECK(kUs(measure::Fraction{0.55}) == "55 %");
  CHECK(kUs(measure::Ph{7.2}) == "pH 7.2");
  CHECK(kUs(measure::DecisiemensPerMetre{2.345}) == "2.35 dS/m");
  CHECK(kMetric(measure::Kilopascals{1}) == "10 mbar");
  CHECK(kUs(measure::Kilopascals{0.24908891}) == "1 inH2O");
  CHECK(kUs(measure::KilowattHours{1.25}) == "1.25 kWh");
  CHECK(kUs(measure::Watts{300}) == "300 W");
  CHECK(kUs(measure::Days{1.5}) == "1.5 days");
  CHECK(kUs(measure::Days{1}) == "1 day");
  CHECK(kUs(measure::Days{0.5}) == "12 hours");
  CHECK(kUs(measure::Days{1.0 / 24}) == "1 hour");
  CHECK(kUs(measure::Days{20.0 / 1440}) == "20 minutes");
  CHECK(kUs(measure::Days{0}) == "0 days");
  CHECK(kUs(measure::Fraction{3.744}) == "374 %");
  CHECK(kMetric(measure::DegreeDays{250}) == "250 °C·d");
  CHECK(kUs(measure::DegreeDays{250}) == "450 °F·d");
  CHECK(kUs(Value{Dimension::kCount, 1200}) == "1,200");
  CHECK(kUs(Value{Dimension::kNumber, 30}) == "30");
}

TEST_CASE("a difference of temperatures has no zero of its own") {
  CHECK(kUs.difference(measure::Kelvins{5}) == "9 °F");
  CHECK(kMetric.difference(measure::Kelvins{5}) == "5 °C");
  CHECK(kUs(measure::Kelvins{5}) == "9 °F");
  CHECK(kUs.difference(measure::Kelvins{0}) == "0 °F");
}

TEST_CASE("a quantity that asks for its own unit") {
  const measure::ShownIn rain{"in", "mm"};
  CHECK(kUs(measure::value_of(measure::Metres{0.0127}), rain) == "0.5 in");
  CHECK(kMetric(measure::value_of(measure::Metres{0.0127}), rain) == "12.7 mm");
}

TEST_CASE("a range has two figures an end, in the unit of its greater end") {
  const auto mass = [](double kilograms) { return Value{Dimension::kMass, kilograms}; };
  CHECK(kMetric.between(mass(0.0206), mass(0.0618)) == "21 to 62 g");
  CHECK(kMetric.between(mass(0), mass(1333)) == "0 to 1,300 kg");
  CHECK(kMetric.between(mass(-1089), mass(136)) == "-1,100 to 140 kg");
  CHECK(kUs.between(mass(0.05), mass(0.9)) == "0.11 to 2 lb");
  CHECK(kMetric.between(mass(14.96), mass(15.04)) == "about 15 kg");
  CHECK(kMetric.between({Dimension::kFraction, 0.04}, {Dimension::kFraction, 0.2}) == "4 to 20 %");
  CHECK(kMetric.roughly(mass(1333)) == "1,300 kg");
  CHECK(kMetric.roughly(mass(0.996)) == "1,000 g");
  CHECK(kMetric.roughly(mass(0)) == "0 kg");
}

TEST_CASE("a number beside its limit has the digits that tell them apart") {
  using measure::Celsius;
  CHECK(kMetric.beside(Celsius{71.04}, Celsius{71}) == "71.04 °C");
  CHECK(kMetric.beside(Celsius{71.4}, Celsius{71}) == "71.4 °C");
  CHECK(kMetric.beside(Celsius{71}, Celsius{71}) == "71 °C");
  CHECK(kMetric.beside(Celsius{71.0000001}, Celsius{71}) == "71 °C");  // nothing tells these apart
  CHECK(kMetric.beside(measure::Fraction{0.3996}, measure::Fraction{0.4}) == "39.96 %");
  CHECK(kMetric.beside(measure::Ph{6.798}, measure::Ph{6.8}) == "pH 6.798");
  CHECK(kUs.beside(measure::Kelvins{3.01}, measure::Kelvins{3}) == "5.42 °F");
}

TEST_CASE("a number with its label") {
  CHECK(Printer::labelled(120, "mg/larva/d") == "120 mg/larva/d");
  CHECK(Printer::labelled(30, "") == "30");
  CHECK(Printer::labelled(30, "1") == "30");
}

// Whatever is printed with a unit is understood when it is typed again (less the comma between
// thousands, which input refuses), and means the same to the printed decimals.
TEST_CASE("what is printed can be typed") {
  std::mt19937 random(20260406);
  for (int i = 0; i <= static_cast<int>(Dimension::kNumber); ++i) {
    const auto dimension = static_cast<Dimension>(i);
    // A difference prints in degrees, which typed alone mean a point; a pH prints "pH" in front.
    if (dimension == Dimension::kTemperatureDifference || dimension == Dimension::kAcidity)
      continue;
    const bool whole = dimension == Dimension::kCount || dimension == Dimension::kDegreeDays;
    for (int times = 0; times < 200; ++times) {
      const Value value{dimension, std::pow(10, std::uniform_real_distribution<>(-5, 6)(random))};
      for (const Printer& print : {kUs, kMetric}) {
        std::string text = print(value);
        CAPTURE(text);
        std::erase(text, ',');
        const measure::Unit& usual = measure::usual_unit(dimension, print.system());
        const auto back = measure::parse_value(text, dimension, usual);
        REQUIRE(back.ok());
        const std::size_t space = text.find(' ');
        const measure::Unit& unit =
            space == std::string::npos ? usual : *measure::find_unit(text.substr(space + 1));
        const double shown = unit.from_base(value.si);
        const double half_a_digit = std::max(shown * 0.005, whole ? 0.5 : 0.05) + 1e-9;
        CHECK(std::fabs(unit.from_base(back->value.si) - shown) <= half_a_digit);
      }
    }
  }
}

}  // namespace printer_test
