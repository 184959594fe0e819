#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/pile/blend.h"
#include "kinds/pile/tally.h"

// Whether the records of a pile show a treatment that a standard asks for. What the texts say
// stands in the standards' own rows of this file's table; what they leave open is a threshold of
// its own (pile.treat.*), and the other reading is told beside it. A pass is said only of days that
// were read.
namespace kinds::pile {

enum class Standard {
  kNop,     // 7 CFR 205.203(c)(2), organic
  kFsma,    // 21 CFR 112.54(b), produce safety
  kPfrp,    // 40 CFR 503 appendix B: to further reduce pathogens
  kPsrp,    // 40 CFR 503 appendix B: to significantly reduce pathogens
  kVector,  // 40 CFR 503.33(b)(5): vector attraction
};

enum class Outcome {
  kShown,
  kNotYet,  // more days or deeds can still show it
  kCannot,  // these records cannot show it
};

// Why it is not.
enum class NotShown {
  kNothing,  // it is
  kMadeCold,
  kNeverRead,
  kNoDay,     // no day kept the rule at every position
  kCoreOnly,  // of a static heap: days did, but no place outside the core was read
  kNoAir,     // of a static heap: nothing says that it is an aerated one
  kEnded,     // with too few days
  kStopped,   // days that count came to an end
  kCounting,
  kNotFourHours,  // above the peak, but for a moment
  kNeverSoHot,    // never above the peak
  kAverage,       // of the days is too low
  kBadRatio,      // of carbon to nitrogen at the start
  kCuring,        // has to follow
};

// How a stricter or a looser reading of a text would come out.
struct OtherReading {
  bool in_a_row;
  int days;
  std::optional<int> turnings{};
};

struct Treatment {
  Standard standard{};
  std::string_view name;     // "NOP"
  std::string_view text;     // "7 CFR 205.203(c)(2)(iii), windrow"
  std::string_view edition;  // which wording of it was read
  Outcome outcome{};
  NotShown why{};
  // What went in is outside what the rule takes, or not known: kBadRatio, or while nothing counts
  // yet.
  std::optional<StartRatio> bad_ratio;
  std::optional<measure::Celsius> best_mean;  // for kAverage
  bool cured_since = false;                   // what the text asks for after the heat is there
  std::optional<OtherReading> other_reading;
  DayRule rule{};
  std::vector<GradedDay> days;  // every day since the count began
  Tally tally;
  Requirement wanted{};
  std::optional<Run> window;        // the days that show it, or those so far
  std::optional<model::Day> since;  // the count began anew here: raw material went in
  std::string since_what;           // that material
  std::optional<model::Day> shown_on;
  std::optional<model::Day> earliest;
};

// What the treatment leans on besides the temperatures.
struct Evidence {
  const model::History& history;
  const model::Rules& rules;
  const Course& course;
  const Inputs& inputs;
  bool cured = false;  // for "followed by adequate curing"
};

// The standards a pile is asked to meet: its setting standard=, words joined by '+', or NOP where
// nothing was said. `unknown` gets the words that name none.
std::vector<Standard> standards_of(const model::Batch& batch, std::vector<std::string>* unknown);

Treatment treat(Standard standard, const Evidence& evidence);

// Of the days that count so far, those that still would with that load in the pile.
int kept_by(const model::Movement& load, const Treatment& nop, const Course& course);

// Whether anything says that air was brought into a static pile up to a day.
bool is_aerated(const model::History& history, const model::Rules& rules, model::Day until);

// The time-temperature relation of 40 CFR 503.32(a)(3) over the pile's days, each held at its
// coldest reading: the share of a whole treatment. As information: composting is judged by days and
// turnings.
measure::Number time_temperature(const Course& course);

}  // namespace kinds::pile
