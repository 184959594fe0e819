#pragma once

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "kinds/study.h"
#include "kinds/vocabulary.h"
#include "measure/result.h"
#include "model/caution.h"
#include "model/danger.h"
#include "model/history.h"
#include "model/rules.h"
#include "model/stuff.h"

// What a kind of batch is to the rest of the program: a few small parts, and the study it makes of
// a history. Adding one touches its own folder, its thresholds and its line in registry.cpp.
namespace kinds {

struct Vocabulary {
  std::span<const Quantity> quantities;
  std::span<const Word> words;
  std::span<const SettingSpec> settings;
  std::string_view positions = {};    // probe positions, separated by spaces; empty: none
  std::string_view temperature = {};  // the quantity a bare 148F is; empty: none
  std::string_view percentage = {};   // the quantity a bare 55% is; empty: none
  std::string_view rhythm = {};  // the quantity whose silence is `KIND.unread`; empty: any entry
  const model::ThresholdInfo* unread_after = nullptr;  // days of silence; null: never
  // The quantities that a bare number can be, separated by spaces: of several, the one that the
  // batch was last read of, else the first. Empty: a bare number is asked back.
  std::string_view daily = {};
  std::span<const Vague> vague = {};
  // What is wrong with a setting that takes any text.
  std::optional<measure::Mistake> (*objects_to_setting)(std::string_view key,
                                                        std::string_view typed) =
      [](std::string_view, std::string_view) { return std::optional<measure::Mistake>(); };
  // What is hardly so of all that a batch is told, taken together: asked back unless the person is
  // sure.
  std::optional<measure::Mistake> (*doubts_settings)(const std::vector<model::Setting>&) =
      [](const std::vector<model::Setting>&) { return std::optional<measure::Mistake>(); };
};

// The chapter of the season's page that its batches belong to.
enum class Chapter { kGrowing, kFeeding, kHeat, kWater };

// How it is drawn: the quantity (empty: its temperature, else its rhythm), the limit worth a line
// on the terminal (null: none), and those in the season report, the lowest first.
struct Drawing {
  std::string_view quantity = {};
  const model::ThresholdInfo* limit = nullptr;
  std::span<const model::ThresholdInfo* const> plot_limits = {};
  Chapter chapter = Chapter::kGrowing;
  // The keys of its figures of one unit that say more beside each other than alone: what was made
  // and what was expected.
  std::span<const std::string_view> beside = {};
};

// What of the rest of the logbook its study reads, beside its own history.
struct Needs {
  bool finished = false;    // History::finished
  bool provenance = false;  // Movement::manure and Movement::holds
  bool ground = false;      // History::earlier_in
  bool used = false;        // History::used
  // Works out History::lesson from the finished ones, as of a day.
  std::shared_ptr<const model::Lesson> (*learn)(
      const std::shared_ptr<const std::vector<model::History>>& finished, const model::Rules&,
      model::Day as_of) = [](const std::shared_ptr<const std::vector<model::History>>&,
                             const model::Rules&,
                             model::Day) { return std::shared_ptr<const model::Lesson>(); };
};

// The share of what went in that is expected to have left for the air, and how: "as ammonia".
struct ExpectedLoss {
  measure::Fraction share;
  std::string_view as;
};

// Reads a batch's history as of the moment in question: asked for only where it is needed. It stays
// while the question is answered.
using LookBack = std::function<const model::History&()>;

enum class Knows {
  kNothing,
  kAsOfThen,  // what had happened by the moment of the load decides
  kAllAlong,  // what is known by now goes for all its loads
};

struct Carrying {
  std::string_view product =
      {};  // the material `take` means when none is said; empty: must be said
  // Against putting that material in.
  std::optional<Objection> (*objects_to)(const model::Material&, const model::Batch&,
                                         const model::Rules&) =
      [](const model::Material&, const model::Batch&, const model::Rules&) {
        return std::optional<Objection>();
      };
  // Raw manure that went in with a load and may be in what is taken out now: why it still counts as
  // raw, or none where it no longer does. `history` reads the batch as of that moment, where the
  // answer needs it. Null: what goes in does not come out again.
  std::optional<std::string> (*still_raw)(const model::Movement& in, const LookBack& history,
                                          const model::Rules&) = nullptr;
  // Raw manure that no load tells of: the batch is said to be made of it, or nobody knows. The
  // trail begins there.
  std::optional<model::ManureTrail> (*own_raw)(const LookBack& history) = [](const LookBack&) {
    return std::optional<model::ManureTrail>();
  };
  // Of a load out: whether the study's holds() and treated() know more of it than its material's
  // figures tell, and of which moment's history. To ask them, the batch has to be read.
  Knows (*knows)(const model::Movement& out) = [](const model::Movement&) {
    return Knows::kNothing;
  };
  // What of the stuff in a load is expected to have left for the air by a day.
  ExpectedLoss (*loss)(model::Stuff, const model::Movement& in, model::Day until,
                       const model::Rules&) = [](model::Stuff, const model::Movement&, model::Day,
                                                 const model::Rules&) { return ExpectedLoss{}; };
};

// What it is to the rest of the site. Nothing outside kinds/ asks for a kind by its name.
struct Roles {
  // What comes out of it must have gone in: then taking more than is there is refused unless the
  // person is sure. A bed or a flock makes mass; a pile or a drum does not.
  bool holds_mass = false;
  bool ground = false;     // it is soil: what is carried to it is used there, and feeds a crop
  bool animals = false;    // it eats, and gives food
  bool composts = false;   // what goes in is blended to heat: recipe mixes for it
  bool makes_gas = false;  // fuel gas
  bool makes_char = false;
  bool stores_water = false;
  bool counts_up = false;  // its figures for the season's account count up over the batch's life
};

// A kind's answer to one hazard: rows of schema/cautions.csv apply, or why none does. There is no
// third: an answer left out does not compile.
class HazardAnswer {
 public:
  consteval static HazardAnswer rows() { return HazardAnswer(""); }
  consteval static HazardAnswer none(std::string_view why) {
    if (why.empty()) throw "say why none applies";
    return HazardAnswer(why);
  }
  constexpr bool applies() const { return why_none_.empty(); }
  constexpr std::string_view why_none() const { return why_none_; }

 private:
  consteval explicit HazardAnswer(std::string_view why) : why_none_(why) {}
  std::string_view why_none_;
};

struct Hazards {
  HazardAnswer gas, fire, carbon_monoxide, germs, pressure, height, bites_and_dust, drinking,
      electric;

  const HazardAnswer& operator[](model::Hazard hazard) const;
};

// What ends a danger that was remarked, beside the word for it that goes for every batch; and the
// kind's own rule that says it, where there is one.
struct Remedy {
  model::Danger danger;
  std::string_view word = {};  // a deed or a judgement of the kind; empty: none
  std::string_view rule = {};
  // The kind's rule whose advice gives way while the danger stands: nobody turns a pile that
  // smokes.
  std::string_view instead_of = {};
};

struct Kind {
  std::string_view name;     // "pile"
  std::string_view meaning;  // "a compost pile, windrow or turning drum"
  // A batch of it, in a sentence: "a larvae bin"; empty: "a " and the name.
  std::string_view one;
  std::string_view begun;  // a code and settings as someone would start one, for the help
  Vocabulary vocabulary;
  Drawing drawing = {};
  Needs needs = {};
  Carrying carrying = {};
  Roles roles = {};
  std::unique_ptr<Study> (*study)(const model::History&, const model::Rules&);
  Hazards hazards;
  std::span<const Remedy> remedies = {};
};

// "a pile", "a larvae bin"
inline std::string one_of(const Kind& kind) {
  return kind.one.empty() ? "a " + std::string(kind.name) : std::string(kind.one);
}

// Whether what goes into such a batch comes out of it again: not so of a bed or a flock.
inline bool passes_on(const Kind& kind) {
  return kind.carrying.still_raw != nullptr;
}

std::span<const Kind* const> all_kinds();
// The kind of that name, or null.
const Kind* find_kind(std::string_view name);
// The one kind with that role.
const Kind& kind_with(bool Roles::*role);
// Whether the kind of that name has it; no: there is no such kind.
bool has_role(std::string_view kind, bool Roles::*role);

const Quantity* find_quantity(const Kind& kind, std::string_view name);
// A word of the kind, or one of the weather, which goes for every batch.
const Word* find_word(const Kind& kind, std::string_view word);
const Vague* find_vague(const Kind& kind, std::string_view word);
const SettingSpec* find_setting(const Kind& kind, std::string_view key);
bool has_position(const Kind& kind, std::string_view position);

}  // namespace kinds
