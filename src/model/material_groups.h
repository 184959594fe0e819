#pragma once

#include <string_view>

// The groups that schema/materials.csv sorts materials into, where code asks for one.
namespace model::group {

inline constexpr std::string_view kBedding = "bedding";
inline constexpr std::string_view kBrew = "brew";
inline constexpr std::string_view kBrewery = "brewery";
inline constexpr std::string_view kBrown = "brown";
inline constexpr std::string_view kChar = "char";
inline constexpr std::string_view kCompost = "compost";
inline constexpr std::string_view kCrop = "crop";
inline constexpr std::string_view kDairy = "dairy";
inline constexpr std::string_view kEffluent = "effluent";
inline constexpr std::string_view kEgg = "egg";
inline constexpr std::string_view kEnergy = "energy";
inline constexpr std::string_view kFeed = "feed";
inline constexpr std::string_view kFood = "food";
inline constexpr std::string_view kForbidden = "forbidden";
inline constexpr std::string_view kFrass = "frass";
inline constexpr std::string_view kGas = "gas";
inline constexpr std::string_view kGreen = "green";
inline constexpr std::string_view kLarvae = "larvae";
inline constexpr std::string_view kManure = "manure";
inline constexpr std::string_view kMineral = "mineral";
inline constexpr std::string_view kPaper = "paper";
inline constexpr std::string_view kWater = "water";
inline constexpr std::string_view kWood = "wood";

}  // namespace model::group
