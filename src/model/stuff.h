#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "model/history.h"

// What a balance is drawn up of.
namespace model {

enum class Stuff { kMass, kCarbon, kNitrogen, kPhosphorus, kPotassium };
inline constexpr std::array kAllStuff{Stuff::kMass, Stuff::kCarbon, Stuff::kNitrogen,
                                      Stuff::kPhosphorus, Stuff::kPotassium};
std::string_view key(Stuff stuff);   // "mass", "carbon", ...: stable
std::string_view name(Stuff stuff);  // "weight", "carbon", "phosphorus (P)"

// How much of it a load holds; none where that is not known.
std::optional<measure::Kilograms> amount(const Load& load, Stuff stuff);

}  // namespace model
