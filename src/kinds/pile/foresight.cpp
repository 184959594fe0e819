#include "kinds/pile/foresight.h"

#include <algorithm>
#include <cmath>

#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;
using measure::Celsius;
using model::Urgency;

constexpr int kDaysShown = 7;
// How far a hot pile is followed to the day on which it has cooled.
constexpr int kDaysFollowed = 120;
// Where less than this of the model's cooling has come about, it says nothing of the end.
constexpr double kLeastShare = 0.25;
// A straight line through two readings is believed only this near the limit (K): further off, a
// pile that warms up slows down before it gets there.
constexpr double kNear = 10;

// Whole degrees: the forecast is no better.
std::string degrees(double celsius, const measure::Printer& print) {
  const measure::Unit& unit = measure::usual_unit(measure::Dimension::kTemperature, print.system());
  return fmt::format("{:.0f} {}", unit.from_base(celsius), unit.symbol);
}

std::string interval(const HeatForecast::Day& day, const measure::Printer& print) {
  const measure::Unit& unit = measure::usual_unit(measure::Dimension::kTemperature, print.system());
  return fmt::format("{} ({:.0f} to {:.0f})", degrees(day.likely, print), unit.from_base(day.low),
                     unit.from_base(day.high));
}

std::string leaning_words(const Leaning& leaning) {
  std::vector<std::string> parts{
      fmt::format("{:.0f} % on the published model", leaning.model * 100)};
  if (leaning.site_piles > 0) {
    parts.push_back(fmt::format("{:.0f} % on the site's {} finished pile{}", leaning.site * 100,
                                leaning.site_piles, leaning.site_piles == 1 ? "" : "s"));
  }
  if (leaning.own_days > 0)
    parts.push_back(fmt::format("{:.0f} % on its own last days", leaning.own * 100));
  parts.push_back(fmt::format("{:.0f} % on its staying as it is", leaning.still * 100));
  return "it leans " + measure::joined(parts, ", ");
}

// The days still ahead as of today.
std::vector<HeatForecast::Day> ahead(const HeatForecast& forecast, model::Day today) {
  std::vector<HeatForecast::Day> out;
  for (const HeatForecast::Day& day : forecast.days) {
    if (day.day > today && days_between(today, day.day) <= kDaysShown) out.push_back(day);
  }
  return out;
}

template <class Is>
std::optional<model::Day> first_day(const std::vector<HeatForecast::Day>& among, Is is) {
  const auto found = std::find_if(among.begin(), among.end(), is);
  return found == among.end() ? std::nullopt : std::optional(found->day);
}

// The days until a course of the heat falls below the working band; nothing where it does not
// within the days followed. Where only a share of what the model foresees has come about so far, it
// takes longer by as much.
std::optional<int> days_to_fall(const std::vector<double>& course, double below, double share) {
  const auto found =
      std::find_if(course.begin(), course.end(), [&](double one) { return one < below; });
  if (found == course.end()) return std::nullopt;
  return static_cast<int>(std::ceil(static_cast<double>(found - course.begin() + 1) / share));
}

// How long the site's finished piles stayed hot, in days; none where there are none.
struct HotSpell {
  double days = 0;
  int piles = 0;
};
HotSpell usual_spell(const Known& known) {
  HotSpell spell;
  if (!known.history.finished) return spell;
  for (const model::History& other : *known.history.finished) {
    const Standing at = standing(other, known.rules, course_of(other));
    if (!at.first_hot || !at.last_hot) continue;
    spell.days += days_between(*at.first_hot, *at.last_hot) + 1;
    ++spell.piles;
  }
  if (spell.piles > 0) spell.days /= spell.piles;
  return spell;
}

std::string range_words(const model::Forecast& one, model::Day today) {
  std::string text = measure::day_words(*one.likely, today);
  if (one.earliest && one.latest && *one.earliest != *one.latest) {
    text += fmt::format(", between {} and {}", measure::day_words(*one.earliest, today),
                        measure::day_words(*one.latest, today));
  } else if (one.earliest && !one.latest) {
    text += fmt::format(", {} at the earliest", measure::day_words(*one.earliest, today));
  }
  return text;
}

void tell_temperature(const Known& known, const HeatForecast& forecast, model::Assessment& into) {
  const measure::Printer print = known.print();
  const auto next = ahead(forecast, known.history.today);
  if (next.empty()) return;
  model::Forecast week{"temperature", std::nullopt, std::nullopt, std::nullopt, ""};
  std::vector<std::string> parts;
  for (const std::size_t i : {std::size_t{0}, std::size_t{1}, std::size_t{3}, next.size() - 1}) {
    if (i >= next.size()) continue;
    const std::string when =
        i == 0 ? "tomorrow" : measure::day_words(next[i].day, known.history.today);
    const std::string text = fmt::format("{} {}", when, interval(next[i], print));
    if (parts.empty() || parts.back() != text) parts.push_back(text);
  }
  week.says = fmt::format(
      "at its warmest place {}; four readings in five should fall within; a turning is not "
      "foreseen; {}",
      measure::joined(parts, ", "), leaning_words(forecast.leaning));
  into.forecasts.push_back(std::move(week));

  const double limit = known.rules(limits::hot_above).value;
  if (known.at.peak_now > limit) return;
  model::Forecast hot{"too hot", std::nullopt, std::nullopt, std::nullopt, ""};
  hot.likely = first_day(next, [&](const auto& day) { return day.likely > limit; });
  hot.earliest = first_day(next, [&](const auto& day) { return day.high > limit; });
  hot.latest = first_day(next, [&](const auto& day) { return day.low > limit; });
  if (!hot.likely) return;
  hot.says =
      fmt::format("past {} on {}", print(Celsius{limit}), range_words(hot, known.history.today));
  into.forecasts.push_back(std::move(hot));
}

// When a hot pile has cooled, and how long after that it is ready.
void tell_end(const Known& known, const HeatForecast& forecast, model::Assessment& into) {
  if (!in_heat(known.at.stage) || known.at.peak_now < known.rules(limits::cold_below).value) return;
  const double below = known.rules(limits::cold_below).value;
  const model::Day today = known.history.today;
  const model::Day last = known.course.days.back().day;
  const double share = 1 - forecast.leaning.still;
  if (share < kLeastShare) {
    into.forecasts.push_back(
        {"cooled", std::nullopt, std::nullopt, std::nullopt,
         "no day can be given: so far it has not cooled as the published model would"});
    return;
  }
  const auto likely = days_to_fall(forecast.model, below, share);
  if (!likely) return;
  const HotSpell spell = usual_spell(known);
  const double site = spell.piles / (spell.piles + known.rules(limits::foresee_site_weight).value);
  const int been_hot = days_between(*known.at.first_hot, last);
  const auto with_site = [&](std::optional<int> days_left) -> std::optional<model::Day> {
    if (!days_left) return std::nullopt;
    const double by_site = std::max(1.0, spell.days - been_hot);
    return std::max(
        today + days{1},
        last + days{static_cast<int>(std::lround((1 - site) * *days_left + site * by_site))});
  };
  model::Forecast cooled{"cooled", std::nullopt, std::nullopt, std::nullopt, ""};
  cooled.likely = with_site(likely);
  cooled.earliest = with_site(days_to_fall(forecast.lesser, below, 1));
  cooled.latest = with_site(days_to_fall(forecast.greater, below, share));
  const measure::Printer print = known.print();
  cooled.says = fmt::format("below {} about {}, if it is left alone; a turning may warm it again",
                            print(Celsius{below}), range_words(cooled, today));
  if (spell.piles > 0) {
    cooled.says += fmt::format("; the site's {} finished pile{} stayed hot {:.0f} days",
                               spell.piles, spell.piles == 1 ? "" : "s", spell.days);
  }
  into.forecasts.push_back(cooled);
  model::Forecast ready{"ready", std::nullopt, std::nullopt, std::nullopt, ""};
  const days cure{whole(known.rules(limits::ready_curing))};
  ready.likely = *cooled.likely + cure;
  if (cooled.earliest) ready.earliest = *cooled.earliest + cure;
  if (cooled.latest) ready.latest = *cooled.latest + cure;
  ready.says = fmt::format("about {}, with {} of curing", range_words(ready, today),
                           days_words(cure.count()));
  into.forecasts.push_back(std::move(ready));
}

// A pile that cures is ready when its days are over, if it stays as it is.
void tell_curing(const Known& known, model::Assessment& into) {
  if (known.at.stage != Stage::kCooling && known.at.stage != Stage::kCuring) return;
  if (!known.at.last_hot) return;
  const model::Day over = *known.at.last_hot + days{whole(known.rules(limits::ready_curing))};
  if (over <= known.history.today) return;
  model::Forecast ready{"ready", over, over, std::nullopt, ""};
  ready.says = fmt::format("{} at the earliest, if it does not warm again",
                           measure::day_words(over, known.history.today));
  into.forecasts.push_back(std::move(ready));
}

void tell_treatments(const Known& known, const std::optional<HeatForecast>& forecast,
                     model::Assessment& into) {
  const measure::Printer print = known.print();
  for (const Treatment& one : known.treatments) {
    if (one.outcome != Outcome::kNotYet || !one.earliest || one.tally.met) continue;
    model::Forecast met{one.name, one.earliest, std::nullopt, std::nullopt, ""};
    met.says = fmt::format("{} at the earliest, if every day keeps {}",
                           measure::day_words(*one.earliest, known.history.today),
                           rule_words(one.rule, print));
    if (forecast && one.window) {
      const auto cool = first_day(forecast->days, [&](const HeatForecast::Day& day) {
        return day.day > known.history.today && !one.rule.warm_enough(day.likely);
      });
      if (cool && *cool <= *one.earliest) {
        met.says += fmt::format("; left alone it may be cooler than that from {}",
                                measure::day_words(*cool, known.history.today));
      }
    }
    into.forecasts.push_back(std::move(met));
  }
}

// Where a position's last two days lead, in days from the last reading to the limit.
struct Trend {
  std::string position;
  double last = 0;
  double days_to_limit = 0;
};

std::optional<Trend> steepest(const Known& known, double limit) {
  std::optional<Trend> found;
  const model::Deed* turned = known.history.last_deed("turned");
  for (const model::Series* series : known.history.all("temperature")) {
    if (series->days.size() < 2) continue;
    const model::DayRoll& now = series->days.back();
    const model::DayRoll& before = series->days[series->days.size() - 2];
    const double gap =
        std::chrono::duration<double, days::period>(now.last_at - before.last_at).count();
    if (gap > 3 || gap <= 0.25 || days_between(now.day, known.history.today) > 1) continue;
    if (turned != nullptr && turned->at >= before.last_at) continue;
    const double rise = (now.last - before.last) / gap;
    if (rise <= 0 || now.last < limit - kNear || now.last > limit) continue;
    const double to_limit = (limit - now.last) / rise;
    if (found && found->days_to_limit <= to_limit) continue;
    found = Trend{series->position, now.last, to_limit};
  }
  return found;
}

// The forecast as of the history's moment; none for a cold or an ended pile, or one that was not
// read of late.
std::optional<HeatForecast> look_ahead(const Known& known, int days_ahead, Courses courses) {
  if (known.history.batch.ended || method_of(known.history.batch) == Method::kCold)
    return std::nullopt;
  return foresee(known.history, known.course, known.rules, known.history.today, days_ahead,
                 courses);
}

}  // namespace

void foretell(const Known& known, model::Assessment& into) {
  const bool hot = in_heat(known.at.stage);
  const auto forecast = look_ahead(known, hot ? kDaysFollowed : kDaysShown,
                                   hot ? Courses::kWanted : Courses::kNotWanted);
  if (forecast) {
    tell_temperature(known, *forecast, into);
    tell_end(known, *forecast, into);
  }
  tell_curing(known, into);
  tell_treatments(known, forecast, into);
}

void judge_heating(const Known& known, model::Assessment& into) {
  const double limit = known.rules(limits::hot_above).value;
  const model::Deed* turned = known.history.last_deed("turned");
  model::Instant latest{};
  for (const model::Series* series : known.history.all("temperature")) {
    if (series->last->value > limit + kSameKelvins) return;  // pile.hot says it
    latest = std::max(latest, series->last->at);
  }
  // A day whose mean is past the limit and whose last reading is not has cooled since.
  if (known.at.peak_now > limit) return;
  // What it was before the turning says nothing of how fast it heats after it.
  if (turned != nullptr && turned->at >= latest) return;
  const auto forecast = look_ahead(known, kDaysShown, Courses::kNotWanted);
  if (!forecast) return;
  const measure::Printer print = known.print();
  const model::Day today = known.history.today;
  const int within = whole(known.rules(limits::heating_days));
  const auto next = ahead(*forecast, today);
  const auto over = first_day(next, [&](const auto& day) { return day.likely > limit; });
  const bool by_model = over && days_between(today, *over) <= within;
  const auto trend = steepest(known, limit);
  const bool by_trend = trend && trend->days_to_limit <= within;
  if (!by_model && !by_trend) return;
  model::Told made = finding("pile.heating", Urgency::kToday, limits::hot_above, known.rules);
  made.limit->quantity = "temperature";
  made.value = model::Measured{"temperature", measure::value_of(Celsius{known.at.peak_now}), ""};
  const std::string foreseen =
      next.empty() ? "" : fmt::format("{} is foreseen for tomorrow", interval(next.front(), print));
  if (by_trend) {
    const model::Day when =
        today + days{std::max(1, static_cast<int>(std::ceil(trend->days_to_limit)))};
    made.due = by_model ? std::min(when, *over) : when;
    made.words.says = fmt::format("{} is {} and rising; {}{}at this rate it passes {}",
                            place_words(trend->position), print(Celsius{trend->last}), foreseen,
                            foreseen.empty() ? ""
                            : by_model       ? ", and "
                                             : ", but ",
                            print(Celsius{limit}));
  } else {
    made.due = *over;
    made.words.says = fmt::format("it is {}, {}, and it is on its way past {}",
                            print(Celsius{known.at.peak_now}), foreseen, print(Celsius{limit}));
  }
  made.words.action = "turn it or open it before then, and read it again tomorrow";
  into.findings.push_back(std::move(made));
}

}  // namespace kinds::pile
