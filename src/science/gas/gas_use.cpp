#include "science/gas/gas_use.h"

#include "science/numbers/constants.h"

namespace science {
namespace {

using measure::Fraction;
using measure::Kilograms;
using measure::KilowattHours;
using measure::Litres;

constexpr double kMethaneHeat = 802.3;      // kJ/mol, lower heating value
constexpr double kKilojoulesPerKwh = 3600;  //
constexpr double kPropaneHeat = 46350;      // kJ/kg, lower heating value
constexpr double kPropaneDensity = 0.508;   // kg/L of liquid

}  // namespace

KilowattHours methane_energy(NormalLitres methane) {
  return KilowattHours{methane.value / kMolarVolume * kMethaneHeat / kKilojoulesPerKwh};
}

std::optional<Hours> burner_hours(Litres gas, LitresPerHour rating) {
  if (!(rating.value > 0 && gas.value >= 0)) return std::nullopt;
  return Hours{gas.value / rating.value};
}

std::optional<Litres> burner_gas(Hours burning, LitresPerHour rating) {
  if (!(rating.value > 0 && burning.value >= 0)) return std::nullopt;
  return Litres{burning.value * rating.value};
}

BottledGas bottled_gas_of_energy(KilowattHours energy) {
  const double kilograms = energy.value * kKilojoulesPerKwh / kPropaneHeat;
  return BottledGas{.mass = Kilograms{kilograms}, .liquid = Litres{kilograms / kPropaneDensity}};
}

FuelReplaced fuel_replaced(Litres biogas) {
  const double cubic_metres = biogas.value / 1000;
  return FuelReplaced{
      .bottled_gas = Kilograms{0.4 * cubic_metres},
      .firewood = Kilograms{cubic_metres / 0.2},
      .charcoal = Kilograms{cubic_metres / 0.5},
      .dried_dung = Kilograms{cubic_metres / 0.1},
      .kerosene = Litres{cubic_metres / 2.0},
  };
}

}  // namespace science
