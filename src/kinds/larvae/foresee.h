#pragma once

#include <optional>

#include "kinds/larvae/learn.h"
#include "kinds/larvae/warmth.h"

// What is to come of a bin that is not ready yet.
namespace kinds::larvae {

// The day of harvest, with the interval that eight chances in ten lie in.
struct Foreseen {
  std::optional<model::Day> earliest, likely, latest;  // no likely one: they stand still, or die
  bool has_interval = false;
  bool deadly = false;
  measure::Celsius mean{};  // what the days to come are taken as
};
// None where no temperature was read.
std::optional<Foreseen> foresee_harvest(const model::History& history, const model::Rules& rules,
                                        const Course& course, const Diet& diet,
                                        const Warmth& warmth, const Learned& learned);

// The larvae to expect of the feed given so far, with the interval of the same chances.
struct Expected {
  measure::Kilograms feed, likely, least, most;
  int runs;  // of the site's own that it leans on
};
std::optional<Expected> expected_of(std::optional<measure::Kilograms> feed, const Learned& yield);

}  // namespace kinds::larvae
