#pragma once

#include <array>
#include <string_view>

// The usual caution for work that can hurt someone: a row of schema/cautions.csv.
namespace model {

enum class Hazard {
  kGas,             // explosive, or that suffocates or poisons: biogas, hydrogen sulfide, ammonia
  kFire,            // flame, embers, what heats itself
  kCarbonMonoxide,  // of what burns or smoulders
  kGerms,           // raw manure, animal matter, droppings, effluent
  kPressure,        // a sealed drum, a gas holder
  kHeight,          // ladders, roofs, poles, holes to fall into
  kBitesAndDust,    // stings, bites, scratches; dust and spores in the lungs
  kDrinking,        // water that is not fit to drink
  kElectric,        // batteries and wiring
};
inline constexpr std::array kHazards{
    Hazard::kGas,          Hazard::kFire,     Hazard::kCarbonMonoxide,
    Hazard::kGerms,        Hazard::kPressure, Hazard::kHeight,
    Hazard::kBitesAndDust, Hazard::kDrinking, Hazard::kElectric};

std::string_view word(Hazard hazard);  // "carbon monoxide"

struct Caution {
  std::string_view id;  // "gas.vent"
  Hazard hazard;
  std::string_view kinds;    // separated by spaces
  std::string_view moments;  // separated by spaces; what each may be: kinds/caution.h
  std::string_view brief;    // at most 44 columns
  std::string_view full;
  std::string_view source;
};

}  // namespace model
