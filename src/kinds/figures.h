#pragma once

#include <string_view>

// The keys of figures that a kind works out and the site's account adds up over batches.
namespace kinds::figures {

inline constexpr std::string_view kBottledGasReplaced = "digester.bottled_gas";  // kg
inline constexpr std::string_view kCharLasting = "burn.stored";  // kg CO2e that stays a century
inline constexpr std::string_view kCharNet = "burn.net";         // the same less the fire's methane
// Bought fertilizer that a crop did not need for the site's own loads: kg of N, P and K.
inline constexpr std::string_view kNitrogenReplaced = "bed.nitrogen_replaced";
inline constexpr std::string_view kPhosphorusReplaced = "bed.phosphorus_replaced";
inline constexpr std::string_view kPotassiumReplaced = "bed.potassium_replaced";

}  // namespace kinds::figures
