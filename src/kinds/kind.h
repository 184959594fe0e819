#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/dimension.h"
#include "measure/printer.h"
#include "measure/result.h"
#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"
#include "model/stuff.h"

// What a kind of batch knows of itself. Everything the rest of the program needs of a kind is a
// field here, so that adding one touches its own file, its thresholds and its line in table.h.
namespace kinds {

// A number that is read. A reading below `least` or above `greatest` (base units) is implausible:
// it is refused with the likely meaning unless the person is sure.
struct Quantity {
  std::string_view name;
  std::string_view aliases;  // separated by spaces
  measure::Dimension dimension;
  double least, greatest;
  std::string_view meaning;
  measure::ShownIn shown_in = {};
  // How far it can move in an hour (base units): a larger jump is a probe or a unit slip. 0: any.
  double hourly_change = 0;
  // Whether it is an amount since the reading before: the two are not compared, and time is no more
  // than what has passed.
  bool since_before = false;
  bool counter = false;  // what a meter's counter shows: it goes up, or the meter was changed
  // Whether the readings of one day add up (eggs collected), where else the latest stands.
  bool adds_up = false;
  // Whether one number for a day is nothing odd (slurry under ground), though its pace is known.
  bool stands_still = false;
};

// The quantity as one that may stand still.
constexpr Quantity standing_still(Quantity quantity) {
  quantity.stands_still = true;
  return quantity;
}

// A word that is recorded by itself: a deed ("turned"), or a judgement by hand, whose `sense` says
// of what ("moisture" for "soggy"). A deed has an empty sense.
struct Word {
  std::string_view word;
  std::string_view aliases;
  std::string_view sense;
  std::string_view meaning;
};

// A fact told when a batch is started. Choices (separated by spaces) make it a word out of those;
// else the dimension makes it a number; kNumber with choices "text" takes any text, with "date" a
// day.
struct SettingSpec {
  std::string_view key;
  measure::Dimension dimension;
  std::string_view choices;
  std::string_view meaning;
  // What holds where it is not told; empty: nothing, or it depends.
  std::string_view otherwise = {};
};

// What a kind says of a material that someone is about to add.
struct Objection {
  bool refuses;  // else it only warns
  std::string rule;
  std::string says;
  std::string source;
  bool once = false;  // a warning about the batch as a whole, said with the first such movement
};

// What an entry puts hands to, for the caution that is said with it.
struct Handled {
  bool starts = false, ends = false;
  std::vector<std::string_view> logged{};  // deeds, judgements and quantities, by their names
  const model::Movement* in = nullptr;
  const model::Movement* out = nullptr;
};

// The share of what went in that is expected to have left for the air, and how: "as ammonia".
struct ExpectedLoss {
  measure::Fraction share;
  std::string_view as;
};

// How foresight did over one history, replayed as of each of its days with what was known then,
// against saying that nothing changes. Errors are in the base unit of the quantity foreseen.
struct ForesightScore {
  int days_ahead{};
  int count{};           // forecasts that a reading could judge
  double error_total{};  // absolute errors of the method
  double naive_total{};  // of "then is like today"
  double squared_total{}, naive_squared_total{};
  int within{};  // readings inside the interval that should hold four of five
};

// Reads a batch's history as of the moment in question: asked for only where it is needed.
using LookBack = std::function<model::History()>;

struct Kind {
  std::string_view name;        // "pile"
  std::string_view meaning;     // "a compost pile, windrow or turning drum"
  std::string_view one = {};    // a batch of it, in a sentence; empty: "a " and the name
  std::string_view begun = {};  // a code and settings as someone would start one, for the help
  std::span<const Quantity> quantities;
  std::span<const Word> words;
  std::span<const SettingSpec> settings;
  std::string_view positions;    // probe positions, separated by spaces; empty: none
  std::string_view temperature;  // the quantity a bare 148F is; empty: none
  std::string_view percentage;   // the quantity a bare 55% is; empty: none
  std::string_view product;      // the material `take` means when none is said; empty: must be said
  std::string_view rhythm;       // the quantity whose silence is `KIND.unread`; empty: any entry
  const model::ThresholdInfo* unread_after;  // days of silence; null: never

  // Whether what comes out of it must have gone in: then taking more than is there is refused
  // unless the person is sure. A bed or a flock makes mass; a pile or a drum does not.
  bool keeps_mass = false;
  bool learns = false;            // whether assess() wants History::finished
  bool wants_provenance = false;  // whether it reads Movement::manure and Movement::holds
  bool keeps_ground = false;      // whether it wants History::earlier_in
  bool wants_used = false;        // whether it reads History::used

  model::Assessment (*assess)(const model::History&, const model::Rules&);
  // Adds the forecasts and the measures, where they cost far more than all else that assess() says;
  // null: assess() has them.
  void (*look_further)(const model::History&, const model::Rules&, model::Assessment&) = nullptr;
  // Works out History::lesson, as of a day; null: assess() learns from each finished batch as it
  // goes.
  std::shared_ptr<const model::Lesson> (*learn)(
      const std::shared_ptr<const std::vector<model::History>>& finished, const model::Rules&,
      model::Day as_of) = nullptr;
  // Null: takes anything.
  std::optional<Objection> (*objects_to)(const model::Material&, const model::Batch&,
                                         const model::Rules&);
  // The product by what went in; null: always `product`.
  std::string_view (*product_now)(const model::History&) = nullptr;
  // Against taking that load out now; null: never.
  std::optional<Objection> (*objects_to_taking)(const model::Movement&, const model::History&,
                                                const model::Rules&) = nullptr;
  // Raw manure that went in with a load and may be in what is taken out now: why it still counts as
  // raw, or none where it no longer does. `history` reads the batch as of that moment, where the
  // answer needs it. Null: what goes in does not come out again.
  std::optional<std::string> (*still_raw)(const model::Movement& in, const LookBack& history,
                                          const model::Rules&) = nullptr;
  // What a load of it holds, where the kind knows better than the material's figures; null: never.
  std::optional<model::Load> (*holds)(const model::Movement& out, const LookBack& history,
                                      const model::Rules&) = nullptr;
  // What of the stuff in a load is expected to have left for the air by a day; null: nothing.
  ExpectedLoss (*loss)(model::Stuff, const model::Movement& in, model::Day until,
                       const model::Rules&) = nullptr;
  // Whether that has begun; null: with the load.
  bool (*loses_yet)(const model::History&) = nullptr;
  // Whether its figures for the season's account count up over the batch's life.
  bool counts_up = false;
  // What is said of a load at the moment when it is carried to a batch with on_arrival (a bed): by
  // the batch it leaves, and by the one that gets it; null: nothing.
  std::vector<std::string> (*at_use)(const model::Movement& out, const model::History&,
                                     const model::Rules&) = nullptr;
  std::vector<std::string> (*on_arrival)(const model::Movement& in, const model::History&,
                                         const model::Rules&) = nullptr;
  // The usual caution, where what an entry puts hands to can hurt someone; empty: none. `before` is
  // the batch without that entry (just started, where it starts). Null: never.
  std::string (*caution_at)(const Handled&, const model::History& before,
                            const model::Rules&) = nullptr;
  // What is wrong with a setting that takes any text; null: any text will do.
  std::optional<measure::Mistake> (*objects_to_setting)(std::string_view key,
                                                        std::string_view typed) = nullptr;
  // A reading typed in another dimension than its quantity's (a tank's level in gallons), as it is
  // in the quantity's base unit for this batch; the mistake says what is missing of it. Null: each
  // quantity has its one dimension.
  measure::Result<double> (*reading_from)(const Quantity&, measure::Value typed,
                                          const model::Batch&, const measure::Printer&) = nullptr;
  // What is impossible in a reading for this very batch (more than it holds), where the quantity
  // itself could be so; null: nothing.
  std::optional<std::string> (*objects_to_reading)(const Quantity&, double si, const model::Batch&,
                                                   const measure::Printer&) = nullptr;
  // What is hardly so of a reading beside the rest of the history as of it (more eggs in a day than
  // hens): asked back unless the person is sure; null: nothing.
  std::optional<std::string> (*doubts_reading)(const Quantity&, double si, const model::History&,
                                               const measure::Printer&) = nullptr;
  // What is hardly so of a deed at that moment beside the whole history (quenched before it was
  // lit): asked back unless the person is sure; null: nothing.
  std::optional<std::string> (*doubts_deed)(const Word&, model::Instant at,
                                            const model::History&) = nullptr;
  // What `show CODE --treatment` prints; null: the kind has no such record.
  model::Record (*record)(const model::History&, const model::Rules&) = nullptr;
  // What `show CODE --sizing` prints; null: there is no size to judge.
  model::Record (*sizing)(const model::History&, const model::Rules&) = nullptr;
  // Scores the kind's foresight of its temperature over a history; null: it foresees none.
  std::vector<ForesightScore> (*replay)(const model::History&, const model::Rules&) = nullptr;
  // Limits worth a line in the chart of its temperature; null: none.
  const model::ThresholdInfo* chart_limit = nullptr;
  // The limits that the season report draws beside the temperature; the first is the lowest.
  std::span<const model::ThresholdInfo* const> plot_limits = {};
  // The quantity that `show` draws; empty: its temperature, else its rhythm.
  std::string_view charted = {};
};

// "a pile", "a larvae bin"
inline std::string one_of(const Kind& kind) {
  return kind.one.empty() ? "a " + std::string(kind.name) : std::string(kind.one);
}

// Whether what goes into such a batch comes out of it again: not so of a bed or a flock.
inline bool passes_on(const Kind& kind) {
  return kind.still_raw != nullptr;
}

std::span<const Kind* const> all_kinds();
// The kind of that name, or null.
const Kind* find_kind(std::string_view name);

const Quantity* find_quantity(const Kind& kind, std::string_view name);
const Word* find_word(const Kind& kind, std::string_view word);
const SettingSpec* find_setting(const Kind& kind, std::string_view key);
bool has_position(const Kind& kind, std::string_view position);

enum class Extent {
  kFindings,  // stage, findings, progress and what is well; the forecasts and measures may be
              // missing
  kAll,
};

// The kind's own assessment with what holds for every kind added: `KIND.unread`, and the batch,
// kind and source filled into each finding. A batch that has ended has no findings. Most urgent
// first.
model::Assessment assess(const model::History& history, const model::Rules& rules,
                         Extent extent = Extent::kAll);

}  // namespace kinds
