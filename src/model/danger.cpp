#include "model/danger.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

#include "measure/text.h"

namespace model {
namespace {

using Words = std::vector<std::string>;

// Two groups of words, of each of which one must stand there, near the other; an empty one asks for
// nothing. A word of several is written with hyphens.
struct Sign {
  Danger danger;
  std::string_view one, other;
};

constexpr std::array kSigns{
    Sign{Danger::kGasSmell,
         "smell smells smelled smelt smelling reek reeks stink stinks whiff sniff odor odour",
         "gas biogas sulfide rotten-egg rotten-eggs"},
    Sign{Danger::kGasSmell, "gas biogas",
         "leak leaks leaked leaking escape escapes escaping hiss hisses hissing"},
    Sign{Danger::kGasSmell, "rotten-egg rotten-eggs", ""},
    Sign{Danger::kGasSmell, "hiss hisses hissing", "valve hose pipe line joint holder dome seam"},
    Sign{Danger::kPersonDown,
         "fainted faint collapsed unconscious dizzy passed-out blacked-out headache "
         "climbed-in climbed-into climb-in climbed-inside crawled-in crawled-into went-inside "
         "leaned-in leaned-over leant-in leant-over fell-in-it fell-into-it fell-into-the-tank "
         "fell-into-the-digester fell-into-the-drum fell-into-the-pit fell-in-the-pit",
         ""},
    Sign{Danger::kFlameOnIce,
         "torch blowtorch blowlamp blow-torch blow-lamp flame lighter heat-gun burner",
         "frozen froze freeze frost ice iced icy thaw thawed thawing defrost"},
    Sign{Danger::kBirdsDying, "dead dying died dies dropped",
         "birds hens chickens pullets ducks geese turkeys"},
    Sign{Danger::kBadBattery, "battery batteries",
         "swell swells swelled swelling swollen bulge bulges bulging smell smells smelled smelling "
         "stinks hot smoke smokes smoking hiss hisses hissing leak leaks leaking puffed"},
    Sign{Danger::kSmoke,
         "smoke smokes smoking smoulders smouldering smolders smoldering ember embers glowing "
         "on-fire caught-fire flames burnt-smell smells-burnt smell-of-burning",
         ""},
    Sign{Danger::kBulging,
         "bulge bulges bulged bulging swollen swelling domed ballooned ballooning",
         "lid drum barrel top holder dome bag cover jerrycan container"},
};

// Taken out first: what is harmless, though its words are not.
constexpr std::array<std::string_view, 12> kHarmless{
    "gas stove",   "gas meter",        "gas station",    "gas bottle",
    "smoke break", "smoke alarm",      "smoke detector", "wildfire smoke",
    "smoke hood",  "natural gas bill", "smoking shed",   "pilot flame"};

// Before it, they deny it: "no smell of gas", "not leaking".
constexpr std::array<std::string_view, 9> kDenials{"no",      "not", "none",   "never", "without",
                                                   "nothing", "nor", "nobody", "isn't"};
constexpr std::size_t kNear = 5;    // words from one sign to the other
constexpr std::size_t kDenied = 3;  // words from a denial to what it denies

Words words_of(std::string_view note) {
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
  Words words;
  for (std::string& word : measure::split(plain, ' ')) {
    if (!word.empty()) words.push_back(std::move(word));
  }
  return words;
}

// Where one of the group stands: its first and its last word.
struct Place {
  std::size_t from, to;
};

std::vector<Place> places_of(std::string_view group, const Words& words) {
  std::vector<Place> found;
  for (const std::string& sign : measure::split(group, ' ')) {
    const Words parts = measure::split(sign, '-');
    for (std::size_t at = 0; at + parts.size() <= words.size(); ++at) {
      if (std::equal(parts.begin(), parts.end(), words.begin() + static_cast<std::ptrdiff_t>(at)))
        found.push_back({at, at + parts.size() - 1});
    }
  }
  return found;
}

bool is_denied(const Words& words, std::size_t at) {
  for (std::size_t back = 1; back <= kDenied && back <= at; ++back) {
    if (std::find(kDenials.begin(), kDenials.end(), words[at - back]) != kDenials.end())
      return true;
  }
  return false;
}

bool stands_in(const Sign& sign, const Words& words) {
  for (const Place& one : places_of(sign.one, words)) {
    if (sign.other.empty()) {
      if (!is_denied(words, one.from)) return true;
      continue;
    }
    for (const Place& other : places_of(sign.other, words)) {
      const std::size_t first = std::min(one.from, other.from);
      const std::size_t apart = std::max(one.from, other.from) - std::min(one.to, other.to);
      if (apart <= kNear && !is_denied(words, first) &&
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
    case Danger::kFlameOnIce:
      return "flame_on_ice";
    case Danger::kBirdsDying:
      return "birds_dying";
    case Danger::kBadBattery:
      return "bad_battery";
    case Danger::kSmoke:
      return "smoke";
    case Danger::kBulging:
      return "bulging";
  }
  return {};
}

std::vector<Danger> dangers_in(std::string_view note) {
  const Words words = words_of(note);
  std::vector<Danger> found;
  for (const Sign& sign : kSigns) {
    const bool told = std::find(found.begin(), found.end(), sign.danger) != found.end();
    if (!told && stands_in(sign, words)) found.push_back(sign.danger);
  }
  return found;
}

}  // namespace model
