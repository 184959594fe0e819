#include "measure/unit.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <memory>
#include <set>

#include "measure/text.h"
#include "temporary_folder.h"

namespace unit_test {

using measure::Dimension;
using measure::find_unit;
using measure::unit;
using measure::UnitSystem;

namespace {

// A unit's size in SI units, for a comparison with tables that are in SI throughout.
double in_si(std::string_view symbol) {
  const measure::Unit& one = unit(symbol);
  switch (one.dimension) {
    case Dimension::kVolume:
      return one.factor * 1e-3;  // L to m3
    case Dimension::kPressure:
      return one.factor * 1e3;  // kPa to Pa
    case Dimension::kEnergy:
      return one.factor * 3.6e6;  // kWh to J
    case Dimension::kDuration:
      return one.factor * 86400;  // d to s
    case Dimension::kTemperature:
    case Dimension::kTemperatureDifference:
    case Dimension::kMass:
    case Dimension::kArea:
    case Dimension::kLength:
    case Dimension::kFraction:
    case Dimension::kAcidity:
    case Dimension::kConductivity:
    case Dimension::kPower:
    case Dimension::kCount:
    case Dimension::kDegreeDays:
    case Dimension::kNumber:
      return one.factor;
  }
  return 0;
}

struct Size {
  std::string_view symbol;
  double si;
};

}  // namespace

// NIST Special Publication 811 (2008), appendix B.8: the factors that it gives as exact.
TEST_CASE("units that are exact by definition") {
  for (const Size row : {Size{"in", 0.0254},
                         {"ft", 0.3048},
                         {"yd", 0.9144},
                         {"ft2", 0.09290304},
                         {"ha", 1e4},
                         {"cm2", 1e-4},
                         {"lb", 0.45359237},
                         {"oz", 0.028349523125},
                         {"short-ton", 907.18474},
                         {"t", 1000},
                         {"L", 1e-3},
                         {"mL", 1e-6},
                         {"m3", 1},
                         {"mbar", 100},
                         {"Pa", 1},
                         {"kWh", 3.6e6},
                         {"Wh", 3600},
                         {"MJ", 1e6},
                         {"kW", 1000},
                         {"hours", 3600},
                         {"days", 86400}}) {
    CAPTURE(row.symbol);
    CHECK(in_si(row.symbol) == doctest::Approx(row.si).epsilon(1e-15));
  }
}

// NIST Special Publication 811 (2008), appendix B.8: the factors that it prints to seven digits.
TEST_CASE("units as the handbook rounds them") {
  for (const Size row : {Size{"gal", 3.785412e-3},
                         {"qt", 9.463529e-4},
                         {"pt", 4.731765e-4},
                         {"cup", 2.365882e-4},
                         {"fl-oz", 2.957353e-5},
                         {"ft3", 2.831685e-2},
                         {"yd3", 7.645549e-1},
                         {"psi", 6.894757e3},
                         {"bar", 1e5},
                         {"inH2O", 2.490889e2},
                         {"cmH2O", 9.80665e1},
                         {"mmH2O", 9.80665}}) {
    CAPTURE(row.symbol);
    CHECK(in_si(row.symbol) == doctest::Approx(row.si).epsilon(2.5e-7));
  }
  // The acre there is that of the survey foot, 4046.873 m2, retired in 2023 (Federal Register, 85
  // FR 62698); the international acre is 4 parts in a million less.
  CHECK(in_si("acre") == doctest::Approx(4046.873).epsilon(5e-6));
  CHECK(in_si("acre") == doctest::Approx(43560 * 0.3048 * 0.3048).epsilon(1e-15));
}

// The unit's definitions: 1 in of water of 1000 kg/m3 and of the pound-force under 9.80665 m/s2.
TEST_CASE("pressures by their definition") {
  CHECK(in_si("inH2O") == doctest::Approx(0.0254 * 1000 * 9.80665).epsilon(1e-9));
  CHECK(in_si("psi") == doctest::Approx(0.45359237 * 9.80665 / (0.0254 * 0.0254)).epsilon(1e-15));
}

// NIST Special Publication 811 (2008), appendix B.8: t/degC = (t/degF - 32)/1.8; the interval 1
// degF is 5/9 K.
TEST_CASE("temperatures") {
  const measure::Unit& fahrenheit = unit("°F");
  CHECK(fahrenheit.to_base(32) == doctest::Approx(0).scale(1).epsilon(1e-13));
  CHECK(fahrenheit.to_base(212) == doctest::Approx(100).epsilon(1e-14));
  CHECK(fahrenheit.to_base(-40) == doctest::Approx(-40).epsilon(1e-14));
  CHECK(fahrenheit.to_base(131) == doctest::Approx(55).epsilon(1e-14));
  CHECK(fahrenheit.to_base(160) == doctest::Approx(640.0 / 9).epsilon(1e-14));
  CHECK(fahrenheit.to_base(170) == doctest::Approx(690.0 / 9).epsilon(1e-14));
  CHECK(fahrenheit.from_base(55) == doctest::Approx(131).epsilon(1e-14));
  CHECK(unit("°C").to_base(64.4) == 64.4);
  CHECK(unit("°F·d").factor == 5.0 / 9);
}

// 40 CFR 503 appendix B says 55 degC, 7 CFR 205.203(c)(2) 131 degF: a reading in either unit must
// reach a limit in the other.
TEST_CASE("whole degrees are whole, to the last bit") {
  for (int celsius = -40; celsius <= 200; celsius += 5) {
    CAPTURE(celsius);
    CHECK(unit("°F").to_base(32 + celsius / 5 * 9) == celsius);
    CHECK(unit("°F").from_base(celsius) == doctest::Approx(32 + celsius / 5 * 9).epsilon(1e-14));
  }
  CHECK(unit("°F").to_base(131) == 55);
}

// GNU units (https://www.gnu.org/software/units/), where it is installed, holds a table of its own.
TEST_CASE("a second opinion from GNU units") {
  struct Question {
    std::string_view symbol, have, want;
  };
  constexpr std::array kQuestions{
      Question{"kg", "kg", "kg"},
      Question{"g", "g", "kg"},
      Question{"mg", "mg", "kg"},
      Question{"t", "tonne", "kg"},
      Question{"lb", "lb", "kg"},
      Question{"oz", "oz", "kg"},
      Question{"short-ton", "shortton", "kg"},
      Question{"L", "L", "L"},
      Question{"mL", "mL", "L"},
      Question{"m3", "m^3", "L"},
      Question{"gal", "usgallon", "L"},
      Question{"qt", "usquart", "L"},
      Question{"pt", "uspint", "L"},
      Question{"cup", "uscup", "L"},
      Question{"fl-oz", "usfloz", "L"},
      Question{"ft3", "ft^3", "L"},
      Question{"yd3", "yd^3", "L"},
      Question{"m2", "m^2", "m^2"},
      Question{"cm2", "cm^2", "m^2"},
      Question{"ha", "hectare", "m^2"},
      Question{"ft2", "ft^2", "m^2"},
      Question{"acre", "intacre", "m^2"},
      Question{"m", "m", "m"},
      Question{"cm", "cm", "m"},
      Question{"mm", "mm", "m"},
      Question{"in", "in", "m"},
      Question{"ft", "ft", "m"},
      Question{"yd", "yd", "m"},
      Question{"%", "percent", "1"},
      Question{"dS/m", "dS/m", "dS/m"},
      Question{"mS/cm", "mS/cm", "dS/m"},
      Question{"uS/cm", "uS/cm", "dS/m"},
      Question{"kPa", "kPa", "kPa"},
      Question{"Pa", "Pa", "kPa"},
      Question{"psi", "psi", "kPa"},
      Question{"mbar", "mbar", "kPa"},
      Question{"inH2O", "inH2O", "kPa"},
      Question{"kWh", "kWh", "kWh"},
      Question{"Wh", "Wh", "kWh"},
      Question{"MJ", "MJ", "kWh"},
      Question{"W", "W", "W"},
      Question{"kW", "kW", "W"},
      Question{"dozen", "dozen", "1"},
      Question{"days", "day", "day"},
      Question{"hours", "hour", "day"},
      Question{"minutes", "minute", "day"},
      Question{"weeks", "week", "day"},
      Question{"K", "K", "K"},
      Question{"°F·d", "degF day", "K day"},
      Question{"°C·d", "degC day", "K day"},
  };
  if (std::system("command -v units >/dev/null 2>&1") != 0) {
    MESSAGE("skipped: GNU units is not installed");
    return;
  }
  const TemporaryFolder folder;
  {
    std::ofstream asked(folder / "asked");
    for (const Question& one : kQuestions) asked << one.have << '\n' << one.want << '\n';
    asked << "tempF(131)\ntempC\ntempF(160)\ntempC\ntempF(170)\ntempC\n";
  }
  const std::string line = "LC_ALL=C units -q -t --digits 15 <" + (folder / "asked").string();
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(line.c_str(), "r"), pclose);
  REQUIRE(pipe != nullptr);
  double answer{};
  std::set<std::string_view> answered;
  for (const Question& one : kQuestions) {
    CAPTURE(one.symbol);
    REQUIRE(std::fscanf(pipe.get(), "%lf", &answer) == 1);
    CHECK(unit(one.symbol).factor == doctest::Approx(answer).epsilon(1e-14));
    answered.insert(one.symbol);
  }
  for (const double fahrenheit : {131.0, 160.0, 170.0}) {
    REQUIRE(std::fscanf(pipe.get(), "%lf", &answer) == 1);
    CHECK(unit("°F").to_base(fahrenheit) == doctest::Approx(answer).epsilon(1e-14));
  }
  for (const measure::Unit& one : measure::all_units()) {
    const bool needs_none =
        one.symbol == "°F" || one.symbol == "°C" || one.symbol == "pH" || one.symbol == "count";
    CHECK_MESSAGE((needs_none || answered.contains(one.symbol)), one.symbol);
  }
}

TEST_CASE("every unit is found by its symbol and by each of its spellings, and no other is") {
  std::set<std::string> seen;
  for (const measure::Unit& one : measure::all_units()) {
    CAPTURE(one.symbol);
    CHECK(find_unit(one.symbol) == &one);
    CHECK(&unit(one.symbol) == &one);
    for (const std::string& alias : measure::split(one.aliases, ' ')) {
      CAPTURE(alias);
      CHECK(alias == measure::folded(alias));
      CHECK(find_unit(alias) == &one);
      CHECK(seen.insert(alias).second);
    }
    CHECK(one.from_base(one.to_base(12.5)) == doctest::Approx(12.5).epsilon(1e-14));
  }
  CHECK(find_unit("") == nullptr);
  CHECK(find_unit("furlong") == nullptr);
  CHECK(find_unit("kg lb") == nullptr);
}

TEST_CASE("spellings that people type") {
  CHECK(find_unit("F") == &unit("°F"));
  CHECK(find_unit("°f") == &unit("°F"));
  CHECK(find_unit("Gallons") == &unit("gal"));
  CHECK(find_unit("LBS") == &unit("lb"));
  CHECK(find_unit("yd³") == &unit("yd3"));
  CHECK(find_unit("µS/cm") == &unit("uS/cm"));  // micro sign, U+00B5
  CHECK(find_unit("μS/cm") == &unit("uS/cm"));  // Greek mu, U+03BC
  CHECK(find_unit("oz")->dimension == Dimension::kMass);
  CHECK(find_unit("in")->dimension == Dimension::kLength);
  CHECK(find_unit("fl-oz")->dimension == Dimension::kVolume);
}

TEST_CASE("a bare number's unit belongs to the dimension, in both systems") {
  for (const measure::Unit& one : measure::all_units()) {
    for (const UnitSystem system : {UnitSystem::kUs, UnitSystem::kMetric}) {
      CAPTURE(one.symbol);
      CHECK(measure::usual_unit(one.dimension, system).dimension == one.dimension);
    }
    const auto symbols = measure::units_of(one.dimension);
    CHECK(std::find(symbols.begin(), symbols.end(), one.symbol) != symbols.end());
  }
  CHECK(measure::usual_unit(Dimension::kTemperature, UnitSystem::kUs).symbol == "°F");
  CHECK(measure::usual_unit(Dimension::kTemperature, UnitSystem::kMetric).symbol == "°C");
  CHECK(measure::usual_unit(Dimension::kMass, UnitSystem::kUs).symbol == "lb");
  CHECK(measure::usual_unit(Dimension::kVolume, UnitSystem::kMetric).symbol == "L");
  CHECK(measure::usual_unit(Dimension::kNumber, UnitSystem::kUs).factor == 1);
}

TEST_CASE("every dimension has a key that leads back to it") {
  std::set<std::string_view> keys;
  for (int i = 0; i <= static_cast<int>(Dimension::kNumber); ++i) {
    const auto dimension = static_cast<Dimension>(i);
    CHECK(keys.insert(measure::key(dimension)).second);
    CHECK(measure::find_dimension(measure::key(dimension)) == dimension);
    CHECK_FALSE(measure::base_unit(dimension).empty());
    CHECK_FALSE(measure::described(dimension).empty());
  }
  CHECK_FALSE(measure::find_dimension("warmth"));
  CHECK_FALSE(measure::find_dimension(""));
}

TEST_CASE("points and differences of temperature") {
  constexpr measure::Celsius kHot{71.5}, kWarm{55};
  static_assert((kHot - kWarm).value == 16.5);
  static_assert((kWarm + measure::Kelvins{16.5}) == kHot);
  static_assert(measure::value_of(kHot) == measure::Value{Dimension::kTemperature, 71.5});
  static_assert(measure::Kilograms{3} / measure::Kilograms{2} == 1.5);
  static_assert(!std::is_convertible_v<double, measure::Litres>);
  static_assert(!std::is_convertible_v<measure::Litres, measure::Kilograms>);
}

}  // namespace unit_test
