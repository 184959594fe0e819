#include "model/danger.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <string>

#include "measure/text.h"
#include "model/danger_signs.h"

namespace model {
namespace {

using NoteWords = std::vector<std::string>;

// Before it, they deny it: "no smell of gas", "not leaking".
constexpr std::array<std::string_view, 9> kDenials{"no",      "not", "none",   "never", "without",
                                                   "nothing", "nor", "nobody", "isn't"};
constexpr std::size_t kDenied = 3;  // words from a denial to what it denies

NoteWords words_of(std::string_view note) {
  std::string plain = measure::folded(note);
  std::replace_if(
      plain.begin(), plain.end(),
      [](unsigned char letter) {
        return letter < 128 && std::isalnum(letter) == 0 && letter != '\'';
      },
      ' ');
  plain = " " + measure::folded(plain) + " ";
  for (const std::string_view harmless : kHarmless) {
    const std::string around = " " + std::string(harmless) + " ";
    for (auto at = plain.find(around); at != std::string::npos; at = plain.find(around))
      plain.replace(at, around.size(), " . ");
  }
  NoteWords words;
  for (std::string& word : measure::split(plain, ' ')) {
    if (!word.empty()) words.push_back(std::move(word));
  }
  return words;
}

// Where one of the group stands: its first and its last word.
struct Place {
  std::size_t from, to;
};

// Where the words of a sign ("hot-kiln") stand one after the other, from there on.
std::optional<Place> stands_at(std::string_view sign, const NoteWords& words, std::size_t at) {
  const std::size_t from = at;
  for (;; ++at) {
    const std::size_t hyphen = sign.find('-');
    if (at == words.size() || words[at] != sign.substr(0, hyphen)) return std::nullopt;
    if (hyphen == std::string_view::npos) return Place{from, at};
    sign.remove_prefix(hyphen + 1);
  }
}

std::vector<Place> places_of(std::string_view group, const NoteWords& words) {
  std::vector<Place> found;
  while (!group.empty()) {
    const std::string_view sign = measure::take_word(group);
    for (std::size_t at = 0; at < words.size(); ++at) {
      if (const auto place = stands_at(sign, words, at)) found.push_back(*place);
    }
  }
  return found;
}

bool is_denied(const NoteWords& words, std::size_t at) {
  for (std::size_t back = 1; back <= kDenied && back <= at; ++back) {
    if (std::find(kDenials.begin(), kDenials.end(), words[at - back]) != kDenials.end())
      return true;
  }
  return false;
}

bool stands_in(const Sign& sign, const NoteWords& words) {
  for (const Place& one : places_of(sign.one, words)) {
    if (sign.other.empty()) {
      if (!is_denied(words, one.from)) return true;
      continue;
    }
    for (const Place& other : places_of(sign.other, words)) {
      const std::size_t first = std::min(one.from, other.from);
      const std::size_t apart = std::max(one.from, other.from) - std::min(one.to, other.to);
      if (apart <= sign.near && !is_denied(words, first) &&
          !is_denied(words, std::max(one.from, other.from)))
        return true;
    }
  }
  return false;
}

}  // namespace

std::string_view word(Danger danger) {
  switch (danger) {
    case Danger::kGasSmell:
      return "gas_smell";
    case Danger::kPersonDown:
      return "person_down";
    case Danger::kFallen:
      return "fallen";
    case Danger::kFlameOnIce:
      return "flame_on_ice";
    case Danger::kBirdsDying:
      return "birds_dying";
    case Danger::kSomeDead:
      return "some_dead";
    case Danger::kOneDead:
      return "one_dead";
    case Danger::kMedicine:
      return "medicine";
    case Danger::kBadBattery:
      return "bad_battery";
    case Danger::kBareWire:
      return "bare_wire";
    case Danger::kSmoke:
      return "smoke";
    case Danger::kBulging:
      return "bulging";
    case Danger::kDeadInWater:
      return "dead_in_water";
    case Danger::kLidOff:
      return "lid_off";
    case Danger::kCaustic:
      return "caustic";
    case Danger::kHotQuench:
      return "hot_quench";
    case Danger::kFuelDrum:
      return "fuel_drum";
    case Danger::kCharIndoors:
      return "char_indoors";
    case Danger::kAmmoniaAir:
      return "ammonia_air";
    case Danger::kPoisonAir:
      return "poison_air";
    case Danger::kFlameOut:
      return "flame_out";
    case Danger::kInEye:
      return "in_eye";
    case Danger::kPeopleIll:
      return "people_ill";
    case Danger::kFoulFuel:
      return "foul_fuel";
    case Danger::kRawOnBed:
      return "raw_on_bed";
    case Danger::kSprayed:
      return "sprayed";
  }
  return {};
}

bool is_everywhere(Danger danger) {
  switch (danger) {
    case Danger::kGasSmell:
    case Danger::kPersonDown:
    case Danger::kFallen:
    case Danger::kBirdsDying:
    case Danger::kBadBattery:
    case Danger::kBareWire:
    case Danger::kCaustic:
    case Danger::kInEye:
    case Danger::kPeopleIll:
      return true;
    case Danger::kFlameOnIce:
    case Danger::kSomeDead:
    case Danger::kOneDead:
    case Danger::kMedicine:
    case Danger::kSmoke:
    case Danger::kBulging:
    case Danger::kDeadInWater:
    case Danger::kLidOff:
    case Danger::kHotQuench:
    case Danger::kFuelDrum:
    case Danger::kCharIndoors:
    case Danger::kAmmoniaAir:
    case Danger::kPoisonAir:
    case Danger::kFlameOut:
    case Danger::kFoulFuel:
    case Danger::kRawOnBed:
    case Danger::kSprayed:
      return false;
  }
  return false;
}

bool is_foul_fuel(std::string_view name) {
  const NoteWords words = words_of(name);
  const auto foul = places_of(kFoulFuels, words);
  const bool any = std::any_of(foul.begin(), foul.end(),
                               [&](const Place& one) { return !is_denied(words, one.from); });
  return any && places_of(kCleanFuels, words).empty();
}

std::vector<Danger> dangers_in(std::string_view note) {
  const NoteWords words = words_of(note);
  std::vector<Danger> found;
  for (const Sign& sign : kSigns) {
    const bool told = std::find(found.begin(), found.end(), sign.danger) != found.end();
    if (!told && stands_in(sign, words)) found.push_back(sign.danger);
  }
  const bool several = std::any_of(found.begin(), found.end(), [](Danger one) {
    return one == Danger::kBirdsDying || one == Danger::kSomeDead;
  });
  if (several) std::erase(found, Danger::kOneDead);
  const auto has = [&](Danger one) {
    return std::find(found.begin(), found.end(), one) != found.end();
  };
  // Bleach on ammonia is no litter that stinks.
  if (has(Danger::kCaustic)) std::erase(found, Danger::kAmmoniaAir);
  return found;
}

bool tells_of(std::string_view note, Danger danger) {
  const std::vector<Danger> told = dangers_in(note);
  return std::find(told.begin(), told.end(), danger) != told.end();
}

}  // namespace model
