#pragma once

#include <optional>

#include "kinds/finding.h"
#include "kinds/pile/facts.h"
#include "kinds/pile/study.h"

// What a pile wants: the findings that rest on what was read, smelt and done.
namespace kinds::pile {

using Found = std::optional<model::Finding>;

// `pile.hot`: the latest reading of any position is above the limit. It stands until that very
// position is read at or below it, or the pile is turned and its core read again: neither a turning
// alone nor silence cools a pile.
Found judge_hot(const Study& study);

// Whether any position was last read at or above pile.hot.fire: then nothing else is asked for.
bool near_fire(const Study& study);

// `pile.cold`: an active pile below its working band before its treatment is shown, with the likely
// reasons, those that were measured first.
Found judge_cold(const Study& study);

// `pile.stopped`: a warm pile below the heat that a treatment asks for, so that its days no longer
// grow: the days so far, what the rule makes of the break, and what helps. Not while it climbs, nor
// for pile.turn.recovers days after a turning.
Found judge_stopped(const Study& study);

// `pile.edge`: the core has the heat of a treatment, and an outer place holds its days back.
Found judge_edge(const Study& study);

// `pile.turn`: for the turnings of the treatment, on a fall of temperature, or on time.
Found judge_turning(const Study& study);
// The same of a day to come, before which it is read as ever.
Found turning_to_come(const Study& study);

// `pile.dry` and `pile.soggy`, by a reading or a squeezed handful; `pile.smell`.
Found judge_moisture(const Study& study);
Found judge_smell(const Study& study);

// `pile.ready`.
Found judge_ready(const Study& study);

// `pile.standard`: a standard asked for that is not known.
Found judge_standards(const Study& study);

// A finding with its rule's number as a limit of that quantity, and the value beside it.
template <class T>
model::Finding measured(std::string_view rule, model::Urgency urgency,
                        model::Threshold<T> threshold, const Study& study,
                        std::string_view quantity) {
  model::Finding made = finding(rule, urgency, threshold, study.rules());
  made.limit->quantity = quantity;
  return made;
}
inline void set_value(model::Finding& finding, std::string_view quantity, measure::Value value,
                      std::string_view label = "") {
  finding.value = model::Measured{std::string(quantity), value, std::string(label)};
}

// What is done about each reason for the cold.
std::string_view job_against(std::string_view reason);

// How damp it was last found to be, by a reading or by hand, whichever came later; none where that
// is longer ago than pile.sensed.days, or where it was watered since.
struct Damp {
  enum class Is { kTooLow, kFine, kTooHigh } is{};
  model::Day day{};
  std::optional<measure::Fraction> measured{};
};
std::optional<Damp> damp(const model::History& history, const model::Rules& rules);

}  // namespace kinds::pile
