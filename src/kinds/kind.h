#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "measure/dimension.h"
#include "measure/printer.h"
#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// What a kind of batch knows of itself. Everything the rest of the program needs of a kind is a
// field here, so that adding one touches its own file, its thresholds and the table in kinds.cpp.
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
};

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
};

// What a kind says of a material that someone is about to add.
struct Objection {
  bool refuses;  // else it only warns
  std::string rule;
  std::string says;
  std::string source;
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

struct Kind {
  std::string_view name;     // "pile"
  std::string_view meaning;  // "a compost pile, windrow or turning drum"
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
  bool learns = false;  // whether assess() wants History::finished

  model::Assessment (*assess)(const model::History&, const model::Rules&);
  // Null: takes anything.
  std::optional<Objection> (*objects_to)(const model::Material&, const model::Batch&,
                                         const model::Rules&);
  // What `show CODE --treatment` prints; null: the kind has no such record.
  model::Record (*record)(const model::History&, const model::Rules&) = nullptr;
  // Scores the kind's foresight of its temperature over a history; null: it foresees none.
  std::vector<ForesightScore> (*replay)(const model::History&, const model::Rules&) = nullptr;
  // Limits worth a line in the chart of its temperature; null: none.
  const model::ThresholdInfo* chart_limit = nullptr;
  // The limits that the season report draws beside the temperature; the first is the lowest.
  std::span<const model::ThresholdInfo* const> plot_limits = {};
};

std::span<const Kind* const> all_kinds();
// The kind of that name, or null.
const Kind* find_kind(std::string_view name);

const Quantity* find_quantity(const Kind& kind, std::string_view name);
const Word* find_word(const Kind& kind, std::string_view word);
const SettingSpec* find_setting(const Kind& kind, std::string_view key);
bool has_position(const Kind& kind, std::string_view position);

// The kind's own assessment with what holds for every kind added: `KIND.unread`, and the batch,
// kind and source filled into each finding. A batch that has ended has no findings. Most urgent
// first.
model::Assessment assess(const model::History& history, const model::Rules& rules);

}  // namespace kinds
