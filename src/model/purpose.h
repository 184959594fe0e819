#pragma once

#include <optional>
#include <string_view>

// What a load was taken for, where what a person typed says so. It is the one place that looks for
// a meaning in a purpose or in a use told at the start.
namespace model {

enum class Purpose {
  kVenting,  // gas let off unused
  kCooking,
  kHeating,
  kDrinking,
  kHousehold,  // washing, dishes, what is eaten raw: water that comes near a mouth
  kEating,     // people are to eat it
  kPets,
  kLeaves,  // sprayed on leaves
};

// By whole words, whatever stands around them: "for cooking", "Drinking water", "let off". Where
// several are named, the one that can do most harm. None: it says nothing of these.
std::optional<Purpose> purpose_of(std::string_view typed);

}  // namespace model
