#include "kinds/brew/taking.h"

#include <fmt/format.h>

#include "kinds/brew/care.h"
#include "kinds/brew/clock.h"
#include "kinds/brew/contents.h"
#include "kinds/thresholds.h"

namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;

Objection warning(std::string_view rule, std::string says, std::string source) {
  return {false, std::string(rule), std::move(says), std::move(source)};
}

// "11.2 of 21 days at 68 °F, about 10 days to go" of the line that says how far it is.
std::string how_far(const model::History& history, const model::Rules& rules, const Clock& clock) {
  const std::string says = progress_of(history, rules, clock).says;
  return says.substr(0, says.find(';'));
}

}  // namespace

std::optional<Objection> objects_to_taking(const model::Movement& load,
                                           const model::History& history,
                                           const model::Rules& rules) {
  const bool to_crops = load.to_kind.empty() || load.to_kind == "bed";
  if (load.material.group != "brew" || !to_crops) return std::nullopt;
  if (const auto hours = hours_without_air(history, rules)) {
    return warning(
        "brew.open",
        fmt::format("no air was logged for {:.0f} hours: if the pump was off, it is for a pile or "
                    "bare soil, not for leaves or a crop",
                    *hours),
        rules.in_force(*limits::open_aerated.info).source);
  }
  const Contents contents = contents_of(history, rules);
  const Clock clock = clock_of(history, rules, contents);
  if (!clock.full()) {
    return warning(
        "brew.early",
        fmt::format("not ready yet: {}; it feeds less than a ready one, and its acids can "
                    "harm young plants: wait, or pour it on a pile. What it brings is "
                    "counted as a ready one's",
                    how_far(history, rules, clock)),
        rules.in_force(*clock.rule).source);
  }
  if (feeds_germs(history)) {
    return warning("brew.banned",
                   "sugar or molasses went into it, which feeds harmful germs as well: such a brew "
                   "is tested before it goes on a crop",
                   std::string(kSugarSource));
  }
  if (is_foul(history, rules)) {
    return warning("brew.smell",
                   is_aerated(history.batch)
                       ? "it smells as a brew that lacked air: for a pile or bare soil, not for "
                         "leaves or a crop"
                       : "it still smells rotten: soil only, not on leaves, not near the house",
                   "common practice");
  }
  if (waits_for_bubbling(history, rules, clock)) {
    return warning(
        "brew.early",
        "not ready yet: its time is full, but it still bubbles lively. What it brings is "
        "counted as a ready one's",
        rules.in_force(*limits::ready_longest.info).source);
  }
  return std::nullopt;
}

}  // namespace kinds::brew
