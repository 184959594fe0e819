#pragma once

#include <optional>
#include <vector>

#include "model/finding.h"
#include "model/history.h"
#include "model/rules.h"

// What larvae weighed, a larva, and which of the weighings cannot be right.
namespace kinds::larvae {

inline constexpr double kMilligrams = 1e6;  // in a kilogram

struct Weighing {
  model::Day day;
  measure::Kilograms mass;  // of one larva
  bool doubtful = false;    // heavier than any larva, or a slipped decimal point
};

// Ascending by day. A day of several weighings gives its least, its greatest and the mean of the
// rest.
std::vector<Weighing> weighings_of(const model::History& history, const model::Rules& rules);

// The mean of the sound weighings of the last day that has one.
std::optional<Weighing> last_sound(const std::vector<Weighing>& weighings);
// Those of the first day, where that is no later than `latest`.
std::optional<Weighing> first_sound(const std::vector<Weighing>& weighings, model::Day latest);

// Those of the day nearest to that one, and no further from it than `within`.
std::optional<Weighing> sound_near(const std::vector<Weighing>& weighings, model::Day day,
                                   measure::Days within);

// `larvae.sample`: a weighing that cannot be right; it is left out of every figure.
std::optional<model::Finding> judge_samples(const model::Rules& rules,
                                            const std::vector<Weighing>& weighings);

}  // namespace kinds::larvae
