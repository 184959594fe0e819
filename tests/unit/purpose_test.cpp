#include "model/purpose.h"

#include <doctest/doctest.h>

namespace purpose_test {

using model::Purpose;
using model::purpose_of;

// What people type after --for, and what it means; whole words, so that an event is no vent.
TEST_CASE("purpose: what is typed, by the table of meanings") {
  struct Row {
    const char* typed;
    std::optional<Purpose> means;
  };
  const Row rows[] = {
      {"venting", Purpose::kVenting},
      {"Vent", Purpose::kVenting},
      {"let off", Purpose::kVenting},
      {"it was let  off, sadly", Purpose::kVenting},
      {"the event", std::nullopt},
      {"prevention", std::nullopt},
      {"cooking", Purpose::kCooking},
      {"for the stove", Purpose::kCooking},
      {"heating", Purpose::kHeating},
      {"wheat", std::nullopt},
      {"Drinking", Purpose::kDrinking},
      {"drinking-water", Purpose::kDrinking},
      {"to cook with and drink", Purpose::kDrinking},
      {"kitchen", Purpose::kHousehold},
      {"the house", Purpose::kHousehold},
      {"salad washing", Purpose::kHousehold},
      {"washing up", Purpose::kHousehold},
      {"the hen house", std::nullopt},
      {"hen house, kitchen", Purpose::kHousehold},
      {"greenhouse beds", std::nullopt},
      {"house plants", std::nullopt},
      {"coffee", Purpose::kDrinking},
      {"baby bottle", Purpose::kDrinking},
      {"neti pot", Purpose::kDrinking},
      {"soda bottles to take away", Purpose::kDrinking},
      {"rinse lettuce", Purpose::kHousehold},
      {"nettle tea", std::nullopt},
      {"people at the festival", Purpose::kEating},
      {"the dog", Purpose::kPets},
      {"foliar spray", Purpose::kLeaves},
      {"bird bath", std::nullopt},
      {"compost tea", std::nullopt},
      {"hens", std::nullopt},
      {"beds", std::nullopt},
      {"", std::nullopt},
  };
  for (const Row& row : rows) {
    CAPTURE(row.typed);
    CHECK(purpose_of(row.typed) == row.means);
  }
}

}  // namespace purpose_test
