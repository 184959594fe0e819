#include "kinds/panel/sun.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/panel/vocabulary.h"
#include "measure/amount.h"
#include "measure/text.h"
#include "science/weather/sun.h"

namespace kinds::panel {
namespace {

using measure::KilowattHours;
using measure::Mistake;

constexpr double kMostHours = 14;  // no place on earth has a month of more

int day_of_year(model::Day day) {
  const date::year_month_day ymd{day};
  return (day - model::Day{ymd.year() / 1 / 1}).count() + 1;
}

void add_meter(const model::Series& meter, std::map<model::Day, Made>& days) {
  for (std::size_t i = 1; i < meter.days.size(); ++i) {
    const model::DayRoll &before = meter.days[i - 1], &now = meter.days[i];
    const double rise = now.last - before.last;
    const int over = (now.day - before.day).count();
    if (rise < 0 || over < 1) continue;  // a new meter
    for (model::Day day = before.day + date::days{1}; day <= now.day; day += date::days{1}) {
      days.try_emplace(day, Made{KilowattHours{rise / over}, over > 1});
    }
  }
}

}  // namespace

std::map<model::Day, Made> made_by_day(const model::History& history) {
  std::map<model::Day, Made> days;
  if (const model::Series* energy = history.find(kEnergy)) {
    for (const model::DayRoll& roll : energy->days) {
      days[roll.day] = {KilowattHours{roll.total}, false};
    }
  }
  if (const model::Series* meter = history.find(kMeter)) add_meter(*meter, days);
  return days;
}

measure::Result<std::vector<double>> read_sun(std::string_view text) {
  std::string plain = measure::folded(text);
  std::replace(plain.begin(), plain.end(), ',', ' ');
  std::vector<double> hours;
  for (const std::string& word : measure::split(measure::folded(plain), ' ')) {
    const auto number = measure::parse_number(word);
    if (!number) return number.mistake();
    if (*number < 0 || *number > kMostHours) {
      return Mistake{word, fmt::format("{} is no number of peak sun hours a day (0 to {})", word,
                                       measure::print_number(kMostHours, 0))};
    }
    hours.push_back(*number);
  }
  if (hours.size() != 12) {
    return Mistake{std::string(text),
                   fmt::format("{} months are given; it takes twelve peak sun hours a day, January "
                               "first, like '1.6 2.5 3.6 4.7 5.5 6 6.6 5.9 4.9 3.2 1.8 1.4'",
                               hours.size())};
  }
  return hours;
}

double most_sun_hours(model::Day day, const model::History& history) {
  if (!history.latitude) return 24;
  const auto tilt = measure::parse_number(history.batch.text(kTilt, ""));
  const bool level = tilt && *tilt == 0;
  const int at = day_of_year(day);
  return level ? science::level_sun_above_air(*history.latitude, at).value
               : science::facing_sun_above_air(*history.latitude, at).value;
}

double height_of_sun(model::Day day, const model::History& history) {
  if (!history.latitude) return 1;
  return science::level_sun_above_air(*history.latitude, day_of_year(day)).value;
}

}  // namespace kinds::panel
