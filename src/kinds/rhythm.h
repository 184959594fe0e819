#pragma once

#include "kinds/kind.h"

// How often a batch is looked at.
namespace kinds {

// Whether it is time to look at the batch again though nothing is found of it yet: a third of the
// time after which it counts as unread has passed since its kind's rhythm was kept (so a pile is
// read each morning). No: its kind has no rhythm. Common practice, no source.
bool wants_look(const Study& study);

// Whether anybody ever read it by its kind's rhythm, or logged anything of a kind without one: of
// what nobody read nobody knows that it is well.
bool was_read(const Study& study);

}  // namespace kinds
