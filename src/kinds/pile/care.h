#pragma once

#include "kinds/pile/blend.h"
#include "kinds/pile/stage.h"
#include "kinds/pile/treatment.h"
#include "model/assessment.h"

// What a pile wants: the findings that rest on what was read, smelt and done.
namespace kinds::pile {

struct Known {
  const model::History& history;
  const model::Rules& rules;
  const Course& course;
  const Inputs& inputs;
  const Standing& at;
  const std::vector<Treatment>& treatments;

  measure::Printer print() const { return measure::Printer(history.units); }
  bool shown() const;       // every treatment asked for
  bool days_shown() const;  // and those of which only curing is left
};

// `pile.hot`: the latest reading of any position is above the limit. It stands until that very
// position is read at or below it: a turning or silence does not cool a pile.
void judge_hot(const Known& known, model::Assessment& into);

// Whether any position was last read at or above pile.hot.fire: then nothing else is asked for.
bool near_fire(const Known& known);

// `pile.cold`: an active pile below its working band before its treatment is shown, with the likely
// reasons, those that were measured first.
void judge_cold(const Known& known, model::Assessment& into);

// `pile.stopped`: a warm pile below the heat that a treatment asks for, so that its days no longer
// grow: the days so far, what the rule makes of the break, and what helps. Not while it climbs, nor
// for pile.turn.recovers days after a turning.
void judge_stopped(const Known& known, model::Assessment& into);

// `pile.turn`: for the turnings of the treatment, on a fall of temperature, or on time.
void judge_turning(const Known& known, model::Assessment& into);

// `pile.dry` and `pile.soggy`, by a reading or a squeezed handful; `pile.smell`.
void judge_moisture(const Known& known, model::Assessment& into);
void judge_smell(const Known& known, model::Assessment& into);

// `pile.ready`.
void judge_ready(const Known& known, model::Assessment& into);

// How damp it was last found to be, by a reading or by hand, whichever came later; none where that
// is longer ago than pile.sensed.days, or where it was watered since.
struct Damp {
  enum class Is { kDry, kFine, kSoggy } is{};
  bool measured = false;
  double fraction = 0;  // where it was measured
};
std::optional<Damp> damp(const model::History& history, const model::Rules& rules);

}  // namespace kinds::pile
