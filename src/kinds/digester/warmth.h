#pragma once

#include <optional>
#include <vector>

#include "measure/scalar.h"
#include "model/history.h"
#include "model/rules.h"

// How warm the slurry is on the mean of days, and where that is going.
namespace kinds::digester {

// Without a new reading only the calendar moves on: as long as enough days of the window that ends
// today were read, all below is as of the last day read, and so stays as it was then.
struct Warmth {
  int days_read = 0;                     // of the window
  std::optional<measure::Celsius> mean;  // of their daily means; none: too few days were read
  bool cold = false;                     // the mean is strictly below the limit
  bool read_once = false;       // no day of them was read twice: it may have been warmer or colder
  int warm_days = 0;            // of them, days whose highest reading reached the limit
  std::optional<double> a_day;  // the trend, K a day
  bool is_back = false;         // the latest day's mean is at the limit or above
  std::optional<model::Day> back_on;      // where it rises: the day its line is at the limit
  bool is_soon = false;                   // that day is soon enough for a spell
  std::optional<model::Day> below_since;  // where it is cold: the first day of the unbroken stretch
  int below_judged = 0;                   // days of that stretch that had readings enough

  // By its days or by its trend it comes back by itself.
  bool recovers() const { return cold && (is_back || is_soon || warm_days * 2 >= days_read); }
};

Warmth warmth_of(const model::History& history, const model::Rules& rules);

// The days' readings of the slurry, all positions together. A day that is not over and was read
// less often than the one before is a morning without its afternoon: it is left out, where there is
// enough without it.
struct WholeDays {
  std::vector<model::DayRoll> rolls;
  model::Day last;  // today, or yesterday where today is left out
};
WholeDays whole_days(const model::History& history, const model::Rules& rules);

// The mean of the daily means over the window that ends on `day`; none with too few days read.
// `rolls` are the pooled days, ascending.
std::optional<measure::Celsius> mean_to(const std::vector<model::DayRoll>& rolls, model::Day day,
                                        const model::Rules& rules);

// Strictly below; the mean of readings of exactly 68 °F is not, whatever their sum was rounded to.
bool is_below(measure::Celsius mean, measure::Celsius limit);

// Whether it has stayed below for so long that it is no spell and will not come back by itself.
bool is_winter(const model::History& history, const model::Rules& rules, const Warmth& warmth);

// The daily mean some days ahead, and when it crosses the limit, if the trend of the last days goes
// on and eases off.
struct WarmthAhead {
  model::Day day;
  measure::Celsius likely;
  measure::Kelvins half_width;  // it lies within so much of that
  int days_read{};
  bool rises = false;  // towards the limit from below
  std::optional<model::Day> crosses{}, crosses_earliest{}, crosses_latest{};  // none: not soon
};
std::optional<WarmthAhead> foresee_warmth(const model::History& history, const model::Rules& rules);

}  // namespace kinds::digester
