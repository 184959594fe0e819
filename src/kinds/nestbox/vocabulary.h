#pragma once

#include <array>
#include <string_view>

#include "kinds/vocabulary.h"

// What is typed of a nest box.
namespace kinds::nestbox {

using measure::Dimension;

// Of the small birds that nest in boxes none lays more: chickadees and tits, with 13 to 16, the
// most (from memory).
inline constexpr double kLargestClutch = 16;

inline constexpr Quantity kEggs{
    "eggs", "", Dimension::kCount, 0, kLargestClutch, "eggs in the nest"};
inline constexpr Quantity kYoung{"young", "chicks nestlings", Dimension::kCount,
                                 0,       kLargestClutch,     "young in the nest"};
inline constexpr Quantity kFledged{"fledged",         "flown",
                                   Dimension::kCount, 0,
                                   kLargestClutch,    "young of this brood that have flown"};
inline constexpr std::array kQuantities{kEggs, kYoung, kFledged};

inline constexpr std::string_view kNest = "nest", kBird = "bird";  // senses

inline constexpr Word kChecked{"checked", "looked", "", "someone looked in"};
inline constexpr Word kCleaned{"cleaned", "", "", "the old nest was taken out and the box cleaned"};
inline constexpr Word kMended{"mended", "repaired", "", "the box was mended"};
inline constexpr Word kBuilding{"building", "nest-building", kNest, "birds carry in nest stuff"};
inline constexpr Word kEmpty{"empty", "", kNest, "no nest, or one that is not in use"};
inline constexpr Word kAbandoned{"abandoned", "deserted", kNest, "eggs or young were left"};
inline constexpr Word kRaided{"raided", "predated", kNest, "eggs or young were taken"};

constexpr Word nest_of(std::string_view bird, std::string_view aliases = "") {
  return {bird, aliases, kBird, "whose nest it is"};
}
inline constexpr std::array kWords{
    kChecked,
    kCleaned,
    kMended,
    kBuilding,
    kEmpty,
    kAbandoned,
    kRaided,
    nest_of("bluebird"),
    nest_of("swallow"),
    nest_of("wren"),
    nest_of("chickadee", "tit"),
    nest_of("nuthatch"),
    nest_of("flycatcher"),
    nest_of("sparrow"),
    nest_of("starling"),
    nest_of("owl"),
    nest_of("kestrel"),
};

// Told for the person's own use: nothing is worked out from them.
inline constexpr std::array kSettings{
    SettingSpec{"hole", Dimension::kLength, "", "width of the entrance", {}, {0.01, 0.5}},
    SettingSpec{
        "height", Dimension::kLength, "", "of the entrance above the ground", {}, {0.1, 30}},
    SettingSpec{"faces", Dimension::kNumber, "n ne e se s sw w nw", "where the entrance looks"},
    SettingSpec{"near", Dimension::kNumber, "text", "which bed or patch it stands by"},
};

}  // namespace kinds::nestbox
