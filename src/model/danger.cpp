#include "model/danger.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <string>

#include "measure/text.h"

namespace model {
namespace {

using NoteWords = std::vector<std::string>;

// Two groups of words, of each of which one must stand there, near the other; an empty one asks for
// nothing. A word of several is written with hyphens.
struct Sign {
  Danger danger;
  std::string_view one, other;
  std::size_t near = 5;  // words from the one to the other
};

constexpr std::string_view kSwollen =
    "bulge bulges bulged bulging swell swells swelled swelling swollen domed ballooned ballooning "
    "bloated puffy puffed";
constexpr std::string_view kBirds =
    "birds hens chickens pullets ducks geese turkeys chicks flock roosters";

constexpr std::array kSigns{
    Sign{Danger::kGasSmell,
         "smell smells smelled smelt smelling reek reeks stink stinks whiff sniff odor odour",
         "gas biogas sulfide rotten-egg rotten-eggs"},
    Sign{Danger::kGasSmell, "gas biogas",
         "leak leaks leaked leaking escape escapes escaping hiss hisses hissing"},
    Sign{Danger::kGasSmell, "rotten-egg rotten-eggs", ""},
    Sign{Danger::kGasSmell, "hiss hisses hissing",
         "valve hose pipe line joint holder dome seam bag"},
    Sign{Danger::kPersonDown,
         "fainted faint collapsed unconscious dizzy passed-out blacked-out headache "
         "climbed-in climbed-into climb-in climbs-in climbing-in climbed-inside crawled-in "
         "crawled-into went-inside got-inside climbed-down-into leaned-in leaned-over leant-in "
         "leant-over fell-in-it fell-into-it fell-into-the-tank fell-in-the-tank "
         "fell-into-the-digester fell-into-the-drum fell-into-the-pit fell-in-the-pit",
         ""},
    Sign{Danger::kPersonDown,
         "kid kids child children boy girl son daughter man woman he she they somebody someone",
         "inside-the-tank in-the-tank inside-the-barrel in-the-barrel inside-the-drum in-the-drum "
         "inside-the-digester in-the-digester in-the-pit inside-it"},
    Sign{Danger::kFallen, "fell fallen falls slipped slid",
         "ladder roof skylight glass steps tree pole", 4},
    Sign{Danger::kFlameOnIce,
         "torch blowtorch blowlamp blow-torch blow-lamp flame lighter heat-gun burner",
         "frozen froze freeze frost ice iced icy thaw thawed thawing defrost"},
    Sign{Danger::kBirdsDying, "dead dying died dies dropped", kBirds},
    Sign{Danger::kBirdsDying,
         "bird-flu avian-flu avian-influenza fowl-plague hpai h5n1 newcastle-disease", ""},
    Sign{Danger::kSomeDead,
         "two three four five six seven eight nine ten eleven twelve dozen several many more half "
         "all most 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20",
         "dead died dying", 2},
    Sign{Danger::kOneDead, "hen bird chicken pullet rooster cockerel duck goose one 1",
         "dead died dying", 4},
    Sign{Danger::kMedicine,
         "wormer wormed worming dewormer dewormed deworming antibiotic antibiotics medicine "
         "medicated medication ivermectin fenbendazole flubendazole piperazine amprolium "
         "oxytetracycline tylosin coccidiostat permethrin mite-powder vet-drug",
         ""},
    Sign{Danger::kBadBattery, "battery batteries battry batery", kSwollen},
    Sign{Danger::kBadBattery, "battery batteries battry batery",
         "smell smells smelled smelling stinks hot smoke smokes smoking hiss hisses hissing leak "
         "leaks leaking leaked spilled spilt acid fire burning"},
    Sign{Danger::kBareWire,
         "bare-wire bare-wires bare-cable exposed-wire exposed-wires frayed-wire frayed-cable "
         "sparks sparking arcing electric-shock got-a-shock shocked zapped tingle tingles tingled "
         "chewed-cable "
         "chewed-wire",
         ""},
    Sign{Danger::kSmoke,
         "smoke smokes smoking smoulders smouldering smolders smoldering ember embers glowing "
         "on-fire caught-fire flames burnt-smell smells-burnt smell-of-burning",
         ""},
    Sign{Danger::kBulging, kSwollen,
         "lid drum barrel top holder dome bag cover jerrycan jug bottle container"},
    Sign{Danger::kBulging, "tight taut rock-hard", "bag holder dome"},
    Sign{Danger::kDeadInWater, "dead drowned carcass floating rotting rotten",
         "pigeon bird rat rats mouse mice squirrel squirel critter something frog lizard snake "
         "animal animals cat possum "
         "opossum raccoon starling sparrow swallow"},
    Sign{Danger::kLidOff, "lid hatch manhole screen cover",
         "off open missing broken cracked gone blown loose lost unlocked", 3},
    Sign{Danger::kCaustic,
         "lye quicklime quick-lime burnt-lime caustic-soda drain-cleaner pool-acid muriatic", ""},
    Sign{Danger::kCaustic, "bleach chlorine",
         "vinegar acid ammonia urine ferment toilet-cleaner peroxide"},
    Sign{Danger::kHotQuench, "water hose hosed bucket doused",
         "hot-kiln hot-retort hot-steel hot-drum closed-kiln closed-retort red-hot glowing-kiln"},
    Sign{Danger::kFuelDrum, "oil fuel gasoline petrol diesel solvent galvanized galvanised",
         "drum barrel can kiln", 2},
    Sign{Danger::kCharIndoors, "char biochar charcoal coals embers kiln",
         "indoors garage shed barn house tent car cellar basement kitchen cabin", 6},
    Sign{Danger::kAmmoniaAir, "ammonia",
         "smell smells smelled strong stings sting stinging eyes reeks air house coop cough "
         "coughing"},
};

// Taken out first: what is harmless, though its words are not.
constexpr std::array<std::string_view, 16> kHarmless{
    "gas stove",   "gas meter",        "gas station",    "gas bottle",
    "smoke break", "smoke alarm",      "smoke detector", "wildfire smoke",
    "smoke hood",  "natural gas bill", "smoking shed",   "pilot flame",
    "dead leaves", "dead plants",      "dead heads",     "dead wood"};

constexpr std::string_view kFoulFuels =
    "plastic plastics pvc vinyl polythene polyethylene polypropylene polystyrene styrofoam tarp "
    "tarps tarpaulin nylon polyester carpet tire tires tyre tyres rubber foam paint painted "
    "varnish "
    "varnished stained lacquered treated creosote creosoted railroad-tie railroad-ties railway-tie "
    "railway-ties railway-sleeper railway-sleepers sleepers cca pallet pallets plywood osb mdf "
    "particleboard particle-board chipboard chip-board fiberboard fibreboard hardboard melamine "
    "laminate laminated glued decking oleander poison-oak poison-ivy poison-sumac poison-hemlock "
    "roofing linoleum trash garbage rubbish";
// Said with it, they make it plain wood.
constexpr std::string_view kCleanFuels =
    "heat-treated ht stamped-ht untreated unpainted unvarnished bare-wood";

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
    const std::size_t space = std::min(group.find(' '), group.size());
    for (std::size_t at = 0; at < words.size(); ++at) {
      if (const auto place = stands_at(group.substr(0, space), words, at)) found.push_back(*place);
    }
    group.remove_prefix(std::min(space + 1, group.size()));
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
      return true;
    case Danger::kFlameOnIce:
    case Danger::kSomeDead:
    case Danger::kOneDead:
    case Danger::kMedicine:
    case Danger::kSmoke:
    case Danger::kBulging:
    case Danger::kDeadInWater:
    case Danger::kLidOff:
    case Danger::kCaustic:
    case Danger::kHotQuench:
    case Danger::kFuelDrum:
    case Danger::kCharIndoors:
    case Danger::kAmmoniaAir:
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
  return found;
}

}  // namespace model
