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
    Meaning{"kitchen", Purpose::kHousehold},
    Meaning{"house", Purpose::kHousehold},
    Meaning{"household", Purpose::kHousehold},
    Meaning{"shower", Purpose::kHousehold},
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
    Meaning{"cook", Purpose::kCooking},
    Meaning{"cooks", Purpose::kCooking},
    Meaning{"cooked", Purpose::kCooking},
    Meaning{"cooker", Purpose::kCooking},
    Meaning{"cooking", Purpose::kCooking},
    Meaning{"stove", Purpose::kCooking},
    Meaning{"heat", Purpose::kHeating},
    Meaning{"heater", Purpose::kHeating},
    Meaning{"heating", Purpose::kHeating},
};

// Houses nobody lives in, and what stands in one that nobody drinks of.
constexpr std::array<std::string_view, 6> kNoHouse{"hen house", "green house", "glass house",
                                                   "dog house", "pump house",  "house plants"};

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
