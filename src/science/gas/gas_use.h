#pragma once

#include <optional>

#include "measure/scalar.h"
#include "science/numbers/units.h"

// What gas is worth: energy, hours of flame, other fuel.
namespace science {

// Lower heating value, what a flame gives with its steam gone: 802.3 kJ/mol = 9.943 kWh/m3.
measure::KilowattHours methane_energy(NormalLitres methane);

// How long a burner runs on this gas, and how much gas the hours took. Both in gas as it reaches
// the burner (a rating is given for wet gas at room temperature). Nothing where the rating is not
// above zero, or the other amount is negative.
std::optional<Hours> burner_hours(measure::Litres gas, LitresPerHour rating);
std::optional<measure::Litres> burner_gas(Hours burning, LitresPerHour rating);

struct BottledGas {
  measure::Kilograms mass{};
  measure::Litres liquid{};
};

// Propane of the same energy (46.35 MJ/kg and 0.508 kg/L at 15 degC: from memory). The stove wastes
// about as much of either.
BottledGas bottled_gas_of_energy(measure::KilowattHours energy);

// What households report to save, each figure alone, not together. Stoves and losses are in it, so
// the bottled gas comes out lower than by energy.
struct FuelReplaced {
  measure::Kilograms bottled_gas{};  // 0.4 kg per m3 of biogas
  measure::Kilograms firewood{};     // 5 kg: an open fire wastes most of its heat
  measure::Kilograms charcoal{};     // 2 kg
  measure::Kilograms dried_dung{};   // 10 kg
  measure::Litres kerosene{};        // 0.5 L
};

// For biogas as it is used, not brought to standard volume; linear, 0 L gives 0.
// Source: Gutterer & Sasse 1993, Criteria for the Dissemination of Biogas Plants (GTZ), 2.3
// and 7.1.
FuelReplaced fuel_replaced(measure::Litres biogas);

}  // namespace science
