#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/study.h"
#include "model/assessment.h"
#include "model/finding.h"
#include "season/morning.h"

// What the days to come bring of each batch: what falls due by the calendar and by the batch's own
// rhythm, what is foreseen, and what must not be done until a day.
namespace season {

// The days that are asked for, both counted; they begin after today.
struct DaysAhead {
  measure::Day from, to;

  bool hold(measure::Day day) const { return day >= from && day <= to; }
};

// Work that comes round every so many days.
struct Repeated {
  std::string batch;
  std::string what;                // "temperature"; empty: a look, or feed
  int every{};                     // days
  std::vector<measure::Day> days;  // of those asked for
};

// What falls due on a day if nothing is logged until then.
struct FallsDue {
  measure::Day day;
  model::Told finding;
};

struct Foretold {
  std::string batch, kind;
  model::Forecast forecast;
  measure::Day day;      // where it stands among the days: the likely one, else the nearest
  bool untried = false;  // no batch of the site shows yet how well such forecasts come true
};

struct Ahead {
  DaysAhead days;
  std::vector<FallsDue> due;       // by day, then in walking order
  std::vector<Repeated> readings;  // in walking order, as all below
  std::vector<Repeated> looks;     // of batches without a reading of their own
  std::vector<Repeated> feedings;
  std::vector<Foretold> foretold;  // by day
  std::vector<model::Told> held;   // what is held back on one of the days
  Morning morning;                 // what waits already
};

// Adds what the days bring of one batch. `now` is what is found of it today.
void look_ahead(const kinds::Study& study, const std::vector<model::Told>& now, Ahead& into);

// What of the forecasts has shown to be no better than saying that nothing changes is taken out;
// of what was never tried it is said. `scores` are of the batches of one kind.
void keep_earned(const std::string& kind, const std::vector<kinds::ForesightScore>& scores,
                 Ahead& of);

// By day; within one day the order stays.
void sort_by_day(Ahead& of);

// "about Sat 5 Dec, a week either way", "Sat 24 Oct at the earliest", "between Sat 24 Oct and Mon
// 2 Nov"; of what is counted by a rule to the day, the day.
std::string doubt_words(const model::Forecast& forecast, measure::Day today);

}  // namespace season
