#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "book/file/logbook.h"

// What is derived from the readings and kept with them in one transaction. The daily roll-ups: so
// that the morning costs open batches x days and never the raw readings; a marked reading is in
// none of them, it is in the day's marks instead. And which readings were typed: so that those of
// one entry are found.
namespace book {

// The roll of one day made from its readings up to `until`; none where there are none.
std::optional<model::DayRoll> rolled(const Logbook& logbook, std::int64_t series, measure::Day day,
                                     measure::Instant until);

// The roll of a day as it was at `until`: the day's own, or one of its readings up to then; none
// where there were none yet.
std::optional<model::DayRoll> part_until(const Logbook& logbook, std::int64_t series,
                                         const model::DayRoll& day, measure::Instant until);

// Adds one new reading, which is recorded already, to its day's roll. The sum is that of the
// readings in the order of their moments, so that a roll made anew is the same to the last bit.
void roll_in(Logbook& logbook, std::int64_t series, measure::Instant at, double value);

// Adds the roll of new readings, which are recorded already and stood in the order of their
// moments, to their day's.
void roll_in(Logbook& logbook, std::int64_t series, const model::DayRoll& roll);

// Makes a day's roll and its marks anew, after a reading of it was changed or taken back.
void roll_again(Logbook& logbook, std::int64_t series, measure::Day day);

// The latest two unmarked readings up to a moment, the latest first. Found by way of the rolls,
// since a probe that is stuck leaves any number of marked readings behind the last good one.
std::vector<model::Reading> latest_two(const Logbook& logbook, std::int64_t series,
                                       measure::Instant until);
// The same where the last two days with a reading are known: `before` is null where there is one.
std::vector<model::Reading> latest_two(const Logbook& logbook, std::int64_t series,
                                       const model::DayRoll& last, const model::DayRoll* before);

// The marked readings of a series on one day, by mark.
struct DayMark {
  measure::Day day;
  std::string mark;
  std::int64_t count;
  double least, greatest;
  measure::Instant first_at, last_at;
};
// Adds new marked readings to their day's.
void mark_in(Logbook& logbook, std::int64_t series, const DayMark& marked);

// Notes that an entry, which is no import, has the reading of that series and moment; and that it
// has it no more.
void note_typed(Logbook& logbook, std::int64_t entry, std::int64_t series, measure::Instant at);
void forget_typed(Logbook& logbook, std::int64_t entry, std::int64_t series, measure::Instant at);

}  // namespace book
