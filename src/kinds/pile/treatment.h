#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/pile/blend.h"
#include "kinds/pile/tally.h"
#include "measure/printer.h"

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

std::string_view words(
    Outcome outcome);  // "shown", "not yet", "cannot be shown from these records"

struct Treatment {
  Standard standard{};
  std::string name;     // "NOP"
  std::string text;     // "7 CFR 205.203(c)(2)(iii), windrow"
  std::string edition;  // which wording of it was read
  std::string asks;     // what it asks, in one line
  Outcome outcome{};
  std::string reason;         // why it is not shown; empty where it is
  std::string followed_by;    // what the text asks for after the heat and is there: "cured since"
  std::string other_reading;  // how a stricter or a looser reading of the text would come out
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
  std::string curing;  // how far it is with that
};

// The standards a pile is asked to meet: its setting standard=, words joined by '+', or NOP where
// nothing was said. `unknown` gets the words that name none.
std::vector<Standard> standards_of(const model::Batch& batch, std::vector<std::string>* unknown);

Treatment treat(Standard standard, const Evidence& evidence);

// "9 of 15 days at 131 to 170 °F, 3 of 5 turnings".
std::string count_words(const Treatment& treatment, const measure::Printer& print);
// "131 to 170 °F", "at least 131 °F", "above 104 °F".
std::string rule_words(const DayRule& rule, const measure::Printer& print);

// The time-temperature relation of 40 CFR 503.32(a)(3) over the pile's days, each held at its
// coldest reading: the share of a whole treatment. As information: composting is judged by days and
// turnings.
measure::Number time_temperature(const Course& course);

}  // namespace kinds::pile
