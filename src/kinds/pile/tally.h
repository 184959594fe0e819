#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/pile/days.h"

// Counting the days of a treatment, as the texts word them: days at a temperature, in a row or not,
// with turnings between the first and the last of them.
namespace kinds::pile {

// What a day's readings have to be. Edges are the text's: at least, or above.
struct DayRule {
  double from;                 // degC
  bool above = false;          // strictly above `from`; else at least
  std::optional<double> upto;  // no reading above this

  bool keeps(double least, double greatest) const;
  bool warm_enough(double value) const;
};

enum class Grade {
  kCounts,
  kBelow,     // a reading below the limit
  kOver,      // a reading above the upper limit
  kHeldBack,  // a position was last read below the limit and not read again, nor mixed in by a
              // turning
  kCoreOnly,  // of a static heap: nothing shows that the outside had the heat too
  kGap        // no reading at all
};

struct GradedDay {
  model::Day day;
  Grade grade{};
  std::string
      position;    // that governs: the coldest; for kOver the hottest; for kHeldBack the cold one
  double value{};  // its reading, degC; without meaning for kGap
};

// Every day from `from` to the end of the course. A day counts where the coldest reading of every
// position read that day keeps the rule. A named position that was last read below the limit holds
// the days back on which it is not read, until it is read again or the pile is turned.
std::vector<GradedDay> graded(const Course& course, const DayRule& rule, model::Day from);

struct Requirement {
  int days;
  int turnings = 0;
  bool in_a_row = true;
  int gap = 0;  // days without a reading that do not break a row
  int dip = 0;  // days after a turning on which kBelow does not break a row
};

// Days counted together: a row, or all of them.
struct Run {
  model::Day first, last;  // days that count
  int days = 0;            // that count
  int turnings = 0;        // from first to last
  int gaps = 0;            // days without a reading between first and last
};

struct Break {
  model::Day day;
  Grade grade{};
  std::string position;
  double value{};
};

struct Tally {
  std::optional<Run> met;     // the first run that keeps the requirement, as of the day it did
  std::optional<Run> open;    // the run that a day from now on would still lengthen
  std::optional<Run> best;    // the longest
  std::vector<Break> breaks;  // days that counted for nothing after the first that counted
  int counted = 0;            // days that count, in whatever order
  int gaps = 0;               // days without a reading since the first that counted
  std::optional<model::Day>
      earliest;  // the soonest that the requirement can be met; none where it is
};

Tally tally(const std::vector<GradedDay>& days, const Course& course, const Requirement& wanted);

}  // namespace kinds::pile
