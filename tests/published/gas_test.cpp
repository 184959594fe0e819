#include "science/gas/gas.h"

#include <doctest/doctest.h>

#include <optional>

#include "science/gas/gas_use.h"
#include "tests/published/figures.h"

using measure::Celsius;
using measure::Fraction;
using measure::Kilopascals;
using measure::KilowattHours;
using measure::Litres;
using measure::Metres;
using measure::Number;
using science::buswell_boyle;
using science::GasState;
using science::Hours;
using science::LitresPerHour;
using science::normal_volume;
using science::NormalLitres;
using science::OrganicFormula;
using science::saturation_vapour_pressure;
using science::station_pressure;

namespace {

OrganicFormula formula(double c, double h, double o, double n = 0, double s = 0) {
  return {Number{c}, Number{h}, Number{o}, Number{n}, Number{s}};
}

double vapour(double celsius) {
  const auto pressure = saturation_vapour_pressure(Celsius{celsius});
  REQUIRE(pressure);
  return pressure->value;
}

double normal(double litres, double celsius, double kilopascals, double humidity = 1) {
  const auto volume = normal_volume(Litres{litres}, {.temperature = Celsius{celsius},
                                                     .barometric = Kilopascals{kilopascals},
                                                     .relative_humidity = Fraction{humidity}});
  REQUIRE(volume);
  return volume->value;
}

}  // namespace

TEST_CASE("theoretical gas of a substance: Buswell and Boyle") {
  struct Row {
    const char* substance;
    OrganicFormula formula;
    double mass, water, methane, carbon_dioxide, litres_methane, litres_gas, percent;
  };
  // Buswell & Mueller 1952, Ind. Eng. Chem. 44:550, extended by Boyle 1977 to N and S; the values
  // are computed from the formula with atomic masses C 12.011, H 1.008, O 15.999, N 14.007, S 32.06
  // and 22.414 L/mol. The methane shares of glucose and tripalmitin are also printed as 50 and 71 %
  // at renewable-energy-concepts.com, "Buswell und Boyle".
  const Row rows[] = {
      {"glucose", formula(6, 12, 6), 180.156, 0, 3, 3, 373.2, 746.5, 50},
      {"cellulose", formula(6, 10, 5), 162.141, 1, 3, 3, 414.7, 829.4, 50},
      {"sucrose", formula(12, 22, 11), 342.297, 1, 6, 6, 392.9, 785.8, 50},
      {"protein", formula(5, 7, 2, 1), 113.116, 3, 2.5, 2.5, 495.4, 990.8, 50},
      {"protein, S", formula(13, 25, 7, 3, 1), 367.417, 6, 6.5, 6.5, 396.5, 793.1, 50},
      {"triolein", formula(57, 104, 6), 885.453, 28, 40, 17, 1012.5, 1442.9, 70.18},
      {"tripalmitin", formula(51, 98, 6), 807.339, 23.5, 36.25, 14.75, 1006.4, 1415.9, 71.08},
      {"acetic acid", formula(2, 4, 2), 60.052, 0, 1, 1, 373.2, 746.5, 50},
      {"propionic acid", formula(3, 6, 2), 74.079, 0.5, 1.75, 1.25, 529.5, 907.7, 58.33},
      {"butyric acid", formula(4, 8, 2), 88.106, 1, 2.5, 1.5, 636.0, 1017.6, 62.5},
      {"lactic acid", formula(3, 6, 3), 90.078, 0, 1.5, 1.5, 373.2, 746.5, 50},
      {"ethanol", formula(2, 6, 1), 46.069, 0, 1.5, 0.5, 729.8, 973.1, 75},
      {"glycerol", formula(3, 8, 3), 92.094, -0.5, 1.75, 1.25, 425.9, 730.1, 58.33},
      {"methanol", formula(1, 4, 1), 32.042, -0.5, 0.75, 0.25, 524.6, 699.5, 75},
  };
  for (const Row& row : rows) {
    CAPTURE(row.substance);
    const auto yield = buswell_boyle(row.formula);
    REQUIRE(yield);
    CHECK(yield->molar_mass.value == within(0.0006, row.mass));
    CHECK(yield->water.value == within(1e-9, row.water));
    CHECK(yield->methane.value == within(1e-9, row.methane));
    CHECK(yield->carbon_dioxide.value == within(1e-9, row.carbon_dioxide));
    CHECK(yield->methane_yield.value == within(0.06, row.litres_methane));
    CHECK(yield->gas_yield.value == within(0.06, row.litres_gas));
    CHECK(yield->methane_share.value * 100 == within(0.006, row.percent));
    // Carbon is kept: CH4 + CO2 = n.
    CHECK((yield->methane + yield->carbon_dioxide).value == within(1e-9, row.formula.carbon.value));
  }

  SUBCASE("gas of a protein, all four gases") {
    // renewable-energy-concepts.com, "Buswell und Boyle": CH4 38, CO2 38, NH3 18, H2S 6 %.
    const auto protein = buswell_boyle(formula(13, 25, 7, 3, 1));
    REQUIRE(protein);
    const double moles =
        (protein->methane + protein->carbon_dioxide + protein->ammonia + protein->hydrogen_sulfide)
            .value;
    CHECK(protein->methane.value / moles * 100 == within(0.5, 38));
    CHECK(protein->carbon_dioxide.value / moles * 100 == within(0.5, 38));
    CHECK(protein->ammonia.value / moles * 100 == within(0.5, 18));
    CHECK(protein->hydrogen_sulfide.value / moles * 100 == within(0.5, 6));
  }

  SUBCASE("what cannot be digested alone has no yield") {
    CHECK_FALSE(buswell_boyle(formula(0, 2, 1)));
    CHECK_FALSE(buswell_boyle(formula(-1, 2, 1)));
    CHECK_FALSE(buswell_boyle(formula(1, 0, 2.5)));  // more oxidised than carbon dioxide
    CHECK_FALSE(buswell_boyle(formula(1, 6, 0)));    // more reduced than methane
  }
}

TEST_CASE("saturation vapour pressure of water") {
  SUBCASE("against a handbook table") {
    struct Row {
      double celsius, kilopascals;
    };
    // CRC Handbook of Chemistry and Physics, 73rd ed. (1992-93), "Vapor Pressure of Water".
    const Row rows[] = {
        {0, 0.61129}, {5, 0.8726},  {8, 1.073},   {10, 1.2281}, {12, 1.4027}, {15, 1.7056},
        {16, 1.8185}, {18, 2.0644}, {20, 2.3388}, {22, 2.6447}, {24, 2.985},  {25, 3.169},
        {26, 3.3629}, {28, 3.7818}, {30, 4.2455}, {32, 4.7578}, {34, 5.3229}, {35, 5.6267},
        {36, 5.9453}, {37, 6.2795}, {40, 7.3814}, {45, 9.5895}, {50, 12.344}, {55, 15.752},
    };
    for (const Row& row : rows) {
      CAPTURE(row.celsius);
      CHECK(vapour(row.celsius) == within(0.0007 * row.kilopascals, row.kilopascals));
    }
  }

  SUBCASE("38 degC, where a copy of that table prints 6.6398 by mistake") {
    // ASHRAE Handbook Fundamentals 2017 (Hyland & Wexler), run in PsychroLib 1.1.1: 6.63147 kPa.
    CHECK(vapour(38) == within(0.003, 6.63147));
    CHECK(vapour(38) != within(0.003, 6.6398));
  }

  SUBCASE("over ice, in a cold shed") {
    // ASHRAE Handbook Fundamentals 2017 (Hyland & Wexler), run in PsychroLib 1.1.1.
    CHECK(vapour(-10) == within(0.0003, 0.25990));
    CHECK(vapour(-20) == within(0.0002, 0.10326));
  }

  SUBCASE("outside its range there is none") {
    CHECK_FALSE(saturation_vapour_pressure(Celsius{-20.1}));
    CHECK_FALSE(saturation_vapour_pressure(Celsius{55.1}));
  }
}

TEST_CASE("air pressure of a place by its height") {
  struct Row {
    double metres, kilopascals;
  };
  // U.S. Standard Atmosphere 1976, run in GNU Units 2.22, stdatmP.
  const Row rows[] = {{-500, 107.47801}, {0, 101.325},     {1000, 89.876276}, {1500, 84.559663},
                      {2000, 79.501408}, {3000, 70.12114}, {5000, 54.048256}};
  for (const Row& row : rows) {
    CAPTURE(row.metres);
    const auto pressure = station_pressure(Metres{row.metres});
    REQUIRE(pressure);
    CHECK(pressure->value == within(0.0005, row.kilopascals));
  }
  CHECK_FALSE(station_pressure(Metres{-501}));
  CHECK_FALSE(station_pressure(Metres{5001}));
}

TEST_CASE("metered gas brought to standard volume") {
  SUBCASE("worked volumes") {
    // VDI 4630's normalisation (ideal gas, dry), computed from the formula with the vapour
    // pressures of the CRC Handbook 1992-93.
    CHECK(normal(100, 35, 101.325) == within(0.01, 83.720));
    CHECK(normal(100, 20, 101.325) == within(0.01, 91.027));
    CHECK(normal(250, 25, 101.3) == within(0.02, 221.82));
  }

  SUBCASE("factor of saturated gas at sea level") {
    struct Row {
      double celsius, factor;
    };
    // Computed from the formula, same source.
    const Row rows[] = {{0, 0.9940},  {5, 0.9736},  {10, 0.9530}, {15, 0.9320}, {20, 0.9103},
                        {25, 0.8875}, {30, 0.8633}, {35, 0.8372}, {37, 0.8261}, {40, 0.8087},
                        {45, 0.7773}, {50, 0.7423}, {55, 0.7030}};
    for (const Row& row : rows) {
      CAPTURE(row.celsius);
      CHECK(normal(1, row.celsius, 101.325) == within(0.00012, row.factor));
    }
  }

  SUBCASE("a dry gas at the standard state is what it was") {
    CHECK(normal(100, 0, 101.325, 0) == within(1e-9, 100));
  }

  SUBCASE("'normal' is at 0 degC, not at 20 as some pages have it") {
    // Charles's law: a dry litre at 20 degC is 273.15/293.15 of a normal litre.
    CHECK(normal(100, 20, 101.325, 0) == within(0.001, 93.178));
  }

  SUBCASE("at 84 kPa (some 1500 m), sea-level pressure would overstate the gas by 22 %") {
    // Computed from the formula at 30 degC: (101.325 - 4.2455)/(84 - 4.2455) = 1.217.
    CHECK(normal(100, 30, 101.325) / normal(100, 30, 84) == within(0.001, 1.217));
  }

  SUBCASE("gauge pressure adds to the air's") {
    const GasState under_water{
        .temperature = Celsius{20}, .barometric = Kilopascals{100}, .gauge = Kilopascals{1.325}};
    const auto volume = normal_volume(Litres{100}, under_water);
    REQUIRE(volume);
    CHECK(volume->value == within(0.01, 91.027));
  }

  SUBCASE("impossible states give nothing") {
    CHECK_FALSE(normal_volume(Litres{-1}, {.temperature = Celsius{20}}));
    CHECK_FALSE(normal_volume(Litres{1}, {.temperature = Celsius{80}}));
    CHECK_FALSE(
        normal_volume(Litres{1}, {.temperature = Celsius{20}, .relative_humidity = Fraction{60}}));
    CHECK_FALSE(
        normal_volume(Litres{1}, {.temperature = Celsius{20}, .barometric = Kilopascals{2}}));
  }
}

TEST_CASE("energy of methane and biogas") {
  // Lower heating value 802.3 kJ/mol: 35.79 MJ = 9.943 kWh a normal m3, computed; suppliers print
  // 35.8 MJ, and 21.5 MJ for biogas of 60 %.
  CHECK(science::methane_energy(NormalLitres{1000}).value == within(0.0006, 9.943));
  struct Row {
    double percent, megajoules;
  };
  const Row rows[] = {{50, 17.9}, {55, 19.7}, {60, 21.5}, {65, 23.3}, {70, 25.1}};
  for (const Row& row : rows) {
    CAPTURE(row.percent);
    const auto energy = science::methane_energy(NormalLitres{10 * row.percent});
    CHECK(energy.value * 3.6 == within(0.06, row.megajoules));
  }
  // FNR Guide to Biogas 2012, substrate table: cattle slurry gives 15 m3 of methane and 150 kWh a
  // tonne, maize silage 120 m3 and 1196 kWh (it reckons with 9.97 kWh/m3).
  CHECK(science::methane_energy(NormalLitres{15000}).value == within(1.5, 150));
  CHECK(science::methane_energy(NormalLitres{120000}).value == within(12, 1196));
}

TEST_CASE("hours of flame") {
  // Gutterer & Sasse 1993 (GTZ): a stove takes 0.3 m3/h; GTZ 1989, p. 69: a family of five with two
  // meals a day needs 1500 to 2400 L. The quotients: computed.
  const auto hours = science::burner_hours(Litres{1500}, LitresPerHour{300});
  REQUIRE(hours);
  CHECK(hours->value == within(1e-9, 5));
  const auto gas = science::burner_gas(Hours{8}, LitresPerHour{300});
  REQUIRE(gas);
  CHECK(gas->value == within(1e-9, 2400));
  CHECK_FALSE(science::burner_hours(Litres{1500}, LitresPerHour{0}));
  CHECK_FALSE(science::burner_hours(Litres{-1}, LitresPerHour{300}));
  CHECK_FALSE(science::burner_gas(Hours{1}, LitresPerHour{0}));
  CHECK_FALSE(science::burner_gas(Hours{-1}, LitresPerHour{300}));
}

TEST_CASE("other fuel replaced by biogas") {
  // Gutterer & Sasse 1993, Criteria for the Dissemination of Biogas Plants (GTZ), 2.3 and 7.1: 1 m3
  // is 0.4 kg of bottled gas; 1 kg of firewood is 0.2 m3, of dried cow dung 0.1, of charcoal 0.5;
  // 1 L of kerosene is 2.0 m3.
  const auto replaced = science::fuel_replaced(Litres{2000});
  CHECK(replaced.bottled_gas.value == within(1e-9, 0.8));
  CHECK(replaced.firewood.value == within(1e-9, 10));
  CHECK(replaced.dried_dung.value == within(1e-9, 20));
  CHECK(replaced.charcoal.value == within(1e-9, 4));
  CHECK(replaced.kerosene.value == within(1e-9, 1));

  // By energy: 21.5 MJ of biogas are 0.464 kg or 0.913 L of propane, computed from 46.35 MJ/kg and
  // 0.508 kg/L (from memory).
  const auto propane = science::bottled_gas_of_energy(KilowattHours{21.5 / 3.6});
  CHECK(propane.mass.value == within(0.0005, 0.464));
  CHECK(propane.liquid.value == within(0.0005, 0.913));
  // The household figure is lower than the energy, but of its size.
  CHECK(0.4 / propane.mass.value == within(0.15, 1));
}
