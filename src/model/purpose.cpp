#include "model/purpose.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

#include "measure/text.h"

namespace model {
namespace {

struct Meaning {
  std::string_view words;  // one, or some that follow one another
  Purpose purpose;
};

// The most harmful first.
constexpr std::array kMeanings{
    Meaning{"vent", Purpose::kVenting},
    Meaning{"vents", Purpose::kVenting},
    Meaning{"vented", Purpose::kVenting},
    Meaning{"venting", Purpose::kVenting},
    Meaning{"let off", Purpose::kVenting},
    Meaning{"letting off", Purpose::kVenting},
    Meaning{"drink", Purpose::kDrinking},
    Meaning{"drinks", Purpose::kDrinking},
    Meaning{"drinking", Purpose::kDrinking},
    Meaning{"drinkable", Purpose::kDrinking},
    Meaning{"potable", Purpose::kDrinking},
    Meaning{"teeth", Purpose::kDrinking},
    Meaning{"ice cubes", Purpose::kDrinking},
    Meaning{"ice", Purpose::kDrinking},
    Meaning{"brushing", Purpose::kDrinking},
    Meaning{"mouth", Purpose::kDrinking},
    Meaning{"coffee", Purpose::kDrinking},
    Meaning{"tea", Purpose::kDrinking},
    Meaning{"lemonade", Purpose::kDrinking},
    Meaning{"juice", Purpose::kDrinking},
    Meaning{"soup", Purpose::kDrinking},
    Meaning{"formula", Purpose::kDrinking},
    Meaning{"baby", Purpose::kDrinking},
    Meaning{"babies", Purpose::kDrinking},
    Meaning{"bottle", Purpose::kDrinking},
    Meaning{"bottles", Purpose::kDrinking},
    Meaning{"canteen", Purpose::kDrinking},
    Meaning{"flask", Purpose::kDrinking},
    Meaning{"neti", Purpose::kDrinking},
    Meaning{"sinus", Purpose::kDrinking},
    Meaning{"nasal", Purpose::kDrinking},
    Meaning{"nose", Purpose::kDrinking},
    Meaning{"eye", Purpose::kDrinking},
    Meaning{"eyes", Purpose::kDrinking},
    Meaning{"contact lenses", Purpose::kDrinking},
    Meaning{"humidifier", Purpose::kDrinking},
    Meaning{"wound", Purpose::kDrinking},
    Meaning{"wounds", Purpose::kDrinking},
    Meaning{"kitchen", Purpose::kHousehold},
    Meaning{"house", Purpose::kHousehold},
    Meaning{"household", Purpose::kHousehold},
    Meaning{"shower", Purpose::kHousehold},
    Meaning{"pool", Purpose::kHousehold},
    Meaning{"bath", Purpose::kHousehold},
    Meaning{"showers", Purpose::kHousehold},
    Meaning{"showering", Purpose::kHousehold},
    Meaning{"dish", Purpose::kHousehold},
    Meaning{"dishes", Purpose::kHousehold},
    Meaning{"dishwasher", Purpose::kHousehold},
    Meaning{"dishwashing", Purpose::kHousehold},
    Meaning{"washing up", Purpose::kHousehold},
    Meaning{"salad", Purpose::kHousehold},
    Meaning{"salads", Purpose::kHousehold},
    Meaning{"washing vegetables", Purpose::kHousehold},
    Meaning{"washing greens", Purpose::kHousehold},
    Meaning{"washing lettuce", Purpose::kHousehold},
    Meaning{"washing fruit", Purpose::kHousehold},
    Meaning{"washing produce", Purpose::kHousehold},
    Meaning{"washing eggs", Purpose::kHousehold},
    Meaning{"rinsing vegetables", Purpose::kHousehold},
    Meaning{"rinsing greens", Purpose::kHousehold},
    Meaning{"rinsing lettuce", Purpose::kHousehold},
    Meaning{"rinsing fruit", Purpose::kHousehold},
    Meaning{"rinsing produce", Purpose::kHousehold},
    Meaning{"rinse lettuce", Purpose::kHousehold},
    Meaning{"wash lettuce", Purpose::kHousehold},
    Meaning{"wash vegetables", Purpose::kHousehold},
    Meaning{"wash greens", Purpose::kHousehold},
    Meaning{"wash fruit", Purpose::kHousehold},
    Meaning{"wash produce", Purpose::kHousehold},
    Meaning{"washing hands", Purpose::kHousehold},
    Meaning{"wash hands", Purpose::kHousehold},
    Meaning{"sprouts", Purpose::kHousehold},
    Meaning{"bath", Purpose::kHousehold},
    Meaning{"bathing", Purpose::kHousehold},
    Meaning{"paddling", Purpose::kHousehold},
    Meaning{"pool", Purpose::kHousehold},
    Meaning{"cook", Purpose::kCooking},
    Meaning{"cooks", Purpose::kCooking},
    Meaning{"cooked", Purpose::kCooking},
    Meaning{"cooker", Purpose::kCooking},
    Meaning{"cooking", Purpose::kCooking},
    Meaning{"stove", Purpose::kCooking},
    Meaning{"people", Purpose::kEating},
    Meaning{"festival", Purpose::kEating},
    Meaning{"human", Purpose::kEating},
    Meaning{"humans", Purpose::kEating},
    Meaning{"eat", Purpose::kEating},
    Meaning{"eating", Purpose::kEating},
    Meaning{"eaten", Purpose::kEating},
    Meaning{"snack", Purpose::kEating},
    Meaning{"snacks", Purpose::kEating},
    Meaning{"protein powder", Purpose::kEating},
    Meaning{"restaurant", Purpose::kEating},
    Meaning{"food stall", Purpose::kEating},
    Meaning{"pet", Purpose::kPets},
    Meaning{"pets", Purpose::kPets},
    Meaning{"dog", Purpose::kPets},
    Meaning{"dogs", Purpose::kPets},
    Meaning{"cat", Purpose::kPets},
    Meaning{"cats", Purpose::kPets},
    Meaning{"lizard", Purpose::kPets},
    Meaning{"lizards", Purpose::kPets},
    Meaning{"gecko", Purpose::kPets},
    Meaning{"geckos", Purpose::kPets},
    Meaning{"reptile", Purpose::kPets},
    Meaning{"reptiles", Purpose::kPets},
    Meaning{"bearded dragon", Purpose::kPets},
    Meaning{"aquarium", Purpose::kPets},
    Meaning{"fish tank", Purpose::kPets},
    Meaning{"pet shop", Purpose::kPets},
    Meaning{"pet food", Purpose::kPets},
    Meaning{"foliar", Purpose::kLeaves},
    Meaning{"spray", Purpose::kLeaves},
    Meaning{"spraying", Purpose::kLeaves},
    Meaning{"sprayed", Purpose::kLeaves},
    Meaning{"leaves", Purpose::kLeaves},
    Meaning{"leaf", Purpose::kLeaves},
    Meaning{"misting", Purpose::kLeaves},
    Meaning{"mist", Purpose::kLeaves},
    Meaning{"on foliage", Purpose::kLeaves},
    Meaning{"heat", Purpose::kHeating},
    Meaning{"heater", Purpose::kHeating},
    Meaning{"heating", Purpose::kHeating},
};

// Houses nobody lives in, and what stands in one that nobody drinks of.
constexpr std::array<std::string_view, 13> kNoHouse{
    "hen house",    "green house", "glass house", "dog house", "pump house",
    "house plants", "compost tea", "manure tea",  "worm tea",  "nettle tea",
    "comfrey tea",  "bird bath",   "leaf tea"};

// The words of a text, plain, with one space around each.
std::string spaced(std::string_view text) {
  std::string plain = measure::folded(text);
  std::replace_if(
      plain.begin(), plain.end(),
      [](unsigned char letter) { return letter < 128 && std::isalnum(letter) == 0; }, ' ');
  std::string made = " ";
  for (const std::string& word : measure::split(plain, ' ')) {
    if (!word.empty()) made += word + " ";
  }
  return made;
}

std::string around(std::string_view words) {
  return " " + std::string(words) + " ";
}

}  // namespace

std::optional<Purpose> purpose_of(std::string_view typed) {
  std::string text = spaced(typed);
  for (const std::string_view other : kNoHouse) {
    const std::string words = around(other);
    for (auto at = text.find(words); at != std::string::npos; at = text.find(words)) {
      text.replace(at, words.size(), " ");
    }
  }
  const auto found = std::find_if(kMeanings.begin(), kMeanings.end(), [&](const Meaning& one) {
    return text.find(around(one.words)) != std::string::npos;
  });
  return found == kMeanings.end() ? std::nullopt : std::optional(found->purpose);
}

}  // namespace model
