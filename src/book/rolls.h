#pragma once

#include <cstdint>
#include <optional>

#include "book/logbook.h"

// The daily roll-ups: derived from the readings, kept with them in one transaction, so that the
// morning costs open batches x days and never the raw readings.
namespace book {

// The roll of one day made from its readings up to `until`; none where there are none.
std::optional<model::DayRoll> rolled(const Logbook& logbook, std::int64_t series, measure::Day day,
                                     measure::Instant until);

// Adds one new reading, which is recorded already, to its day's roll. The sum is that of the
// readings in the order of their moments, so that a roll made anew is the same to the last bit.
void roll_in(Logbook& logbook, std::int64_t series, measure::Instant at, double value);

// Makes a day's roll anew, after a reading of it was changed or taken back.
void roll_again(Logbook& logbook, std::int64_t series, measure::Day day);

}  // namespace book
