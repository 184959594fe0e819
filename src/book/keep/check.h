#pragma once

#include <string>
#include <vector>

#include "book/write/pen.h"

// Whether a logbook is whole, and making anew what of it is derived.
namespace book {

struct Trouble {
  enum class Sort {
    kDamage,   // what was recorded may be wrong or gone
    kDerived,  // what was made from the records is not what they say: repair() makes it anew
    kDoubt,    // recorded so, but hardly meant so
  };
  Sort sort;
  std::string what, means, advice;
};

// SQLite's own checks, references, the schema, the daily rolls, the days of instants, the journal,
// and the order of times. Changes nothing.
std::vector<Trouble> check(const Logbook& logbook, measure::Instant now);

// Makes the rolls, the days and the indexes anew from what is recorded.
void repair(Logbook& logbook, Pen& pen);

}  // namespace book
