#pragma once

#include "kinds/kind.h"

// How often a batch is looked at.
namespace kinds {

// The last moment at which the kind's own rhythm was kept; none: never.
std::optional<model::Instant> last_in_rhythm(const Kind& kind, const model::History& history);

// Whether it is time to look at the batch again though nothing is found of it yet: a third of the
// time after which it counts as unread has passed since its kind's rhythm was kept (so a pile is
// read each morning). No: its kind has no rhythm. Common practice, no source.
bool wants_look(const Study& study);

// How often it is read in that rhythm, and when it is due again; none: its kind has no rhythm, or
// this batch is in no need of it now (a cold heap).
std::optional<Rhythm> reading(const Study& study);

// How often something was put in of late, by the median of the days between the last few loads, and
// when it is due again; none: fewer than three loads on days of their own. Common practice, no
// source.
std::optional<Rhythm> feeding_of_late(const model::History& history,
                                      bool (*is_feed)(const model::Movement&));

// Whether anybody ever read it by its kind's rhythm, or logged anything of a kind without one: of
// what nobody read nobody knows that it is well.
bool was_read(const Study& study);

}  // namespace kinds
