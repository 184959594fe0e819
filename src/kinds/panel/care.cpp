#include "kinds/panel/care.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "kinds/panel/sun.h"
#include "kinds/thresholds.h"
#include "kinds/uses.h"
#include "kinds/finding.h"
#include "measure/text.h"
#include "science/weather/sun.h"

namespace kinds::panel {
namespace {

namespace limits = thresholds::panel;
using measure::Days;
using measure::Fraction;
using measure::KilowattHours;

// Where the sky was never logged, the best days stand for the clear ones: the best tenth before,
// and as many of the last ones as clear days are wanted, out of enough of both.
constexpr std::size_t kEnoughBefore = 30, kEnoughRecent = 10, kBestShare = 10;

struct Yield {
  double energy{};     // kWh
  double by_height{};  // a unit of sun above the air
  double height{};     // of the sun above the air
};

double mean(const std::vector<Yield>& days, double Yield::*of) {
  double sum = 0;
  for (const Yield& one : days) sum += one.*of;
  return sum / static_cast<double>(days.size());
}

std::vector<Yield> best(std::vector<Yield> days, std::size_t count) {
  std::sort(days.begin(), days.end(),
            [](const Yield& a, const Yield& b) { return a.by_height > b.by_height; });
  days.resize(std::min(days.size(), count));
  return days;
}

// Clear days of late and before that can be set side by side.
struct Sides {
  std::vector<Yield> recent, before;
  std::string_view which;
};

std::optional<Sides> sides(const model::History& history, const model::Rules& rules) {
  std::set<model::Day> clear;
  bool sky_logged = false;
  for (const model::Sensed& one : history.sensed) {
    if (one.sense != "sky") continue;
    sky_logged = true;
    if (one.word == "clear") clear.insert(one.day);
  }
  const int recent_days = static_cast<int>(rules(limits::weak_days).value);
  const double season = rules(limits::weak_season).value;
  const double now = height_of_sun(history.today, history);
  Sides made{{}, {}, sky_logged ? "clear" : "best"};
  for (const auto& [day, of_day] : made_by_day(history)) {
    const int ago = days_between(day, history.today);
    const double height = height_of_sun(day, history);
    if (of_day.shared || ago < 0 || height <= 0 || (sky_logged && !clear.contains(day))) continue;
    if (std::fabs(height / now - 1) > season) continue;
    if (!history.latitude && ago > rules(limits::weak_window).value) continue;
    (ago < recent_days ? made.recent : made.before)
        .push_back({of_day.energy.value, of_day.energy.value / height, height});
  }
  const auto least_recent = static_cast<std::size_t>(rules(limits::weak_clear).value);
  const auto least_before = static_cast<std::size_t>(rules(limits::weak_before).value);
  if (!sky_logged) {
    if (made.recent.size() < kEnoughRecent || made.before.size() < kEnoughBefore) {
      return std::nullopt;
    }
    const std::size_t tenth = made.before.size() / kBestShare;
    made.recent = best(made.recent, least_recent);
    made.before = best(made.before, std::max(tenth, least_before));
  }
  if (made.recent.size() < least_recent || made.before.size() < least_before) return std::nullopt;
  return made;
}

std::optional<KilowattHours> use_a_day(const model::History& history, const model::Rules& rules,
                                       int& days) {
  days = std::min(static_cast<int>(rules(limits::use_days).value),
                  days_between(history.batch.started_day, history.today) + 1);
  KilowattHours used;
  for (const model::Movement& movement : history.out) {
    if (days_between(movement.day, history.today) >= days) continue;
    if (movement.amount.dimension == measure::Dimension::kEnergy) {
      used += KilowattHours{movement.amount.si};
    }
  }
  return used > KilowattHours{0} ? std::optional(used / days) : std::nullopt;
}

// "pump 18.5 hours": what a day's energy carries, each use by itself.
std::string hours_of_uses(const model::History& history, KilowattHours energy) {
  std::vector<std::string> parts;
  for (const Use& use : uses_or_none(history.batch.text("uses", ""), measure::Dimension::kPower)) {
    if (use.si <= 0) continue;
    const double hours = energy.value * 1000 / use.si;
    parts.push_back(fmt::format(
        "{} {}", use.name,
        hours >= 24 ? "all day and night" : measure::print_number(hours, 1) + " hours"));
  }
  return measure::joined(parts, ", or ");
}

}  // namespace

void judge_output(const model::History& history, const model::Rules& rules,
                  model::Assessment& into) {
  const auto both = sides(history, rules);
  if (!both) return;
  const double before = mean(both->before, &Yield::by_height);
  if (before <= 0) return;
  const double share = mean(both->recent, &Yield::by_height) / before;
  const Fraction fall{1 - share};
  if (fall < rules(limits::weak_fall)) return;
  const measure::Printer print(history.units);
  const KilowattHours recent{mean(both->recent, &Yield::energy)};
  const KilowattHours expected{before * mean(both->recent, &Yield::height)};
  model::Told made = finding("panel.weak", model::Urgency::kSoon, limits::weak_fall, rules);
  made.words.says = fmt::format(
      "{} days make {} less than they did: {} a day on {} of the last {}, where {} was to be "
      "expected after {} such days before",
      both->which, print(fall), print(recent), both->recent.size(),
      days_words(static_cast<int>(rules(limits::weak_days).value)), print(expected),
      both->before.size());
  if (history.latitude) made.words.why = "measured against the height of the sun";
  made.words.action =
      "wipe off dust, pollen and droppings, look for new shade, and log cleaned; if it stays low, "
      "have it measured";
  made.old_caution = kWiring;
  made.value = model::Measured{"fall", measure::value_of(fall), "", {}};
  into.findings.push_back(std::move(made));
}

void judge_battery(const model::History& history, const model::Rules& rules,
                   model::Assessment& into) {
  const auto told = history.batch.number("battery");
  if (!told || told->si <= 0) return;
  const KilowattHours battery{told->si};
  const Fraction usable =
      rules(history.batch.text("chemistry", "lead-acid") == "lithium" ? limits::battery_lithium
                                                                      : limits::battery_lead_acid);
  const measure::Printer print(history.units);
  int days = 0;
  const auto use = use_a_day(history, rules, days);
  if (use) {
    const auto carries = science::battery_days(battery, usable, *use);
    const Days wanted = rules(limits::battery_days);
    std::string says = fmt::format("full, it carries {} of the present use ({} a day over {})",
                                   print(*carries), print(*use), days_words(days));
    if (*carries < wanted) {
      says += fmt::format("; {} would want {}", print(wanted),
                          print(science::battery_needed(*use, wanted, usable)));
    }
    into.progress.push_back(progress("battery", carries->value, wanted.value, std::move(says)));
  }
  const model::Series* charge = history.find("charge");
  if (charge == nullptr) return;
  const Fraction floor{1 - usable.value};
  const Fraction now{charge->last->value};
  const Fraction above = now - floor;
  if (above > rules(limits::low_margin)) return;
  model::Told made = finding("panel.low", model::Urgency::kToday, limits::low_margin, rules);
  made.words.says =
      above > Fraction{0}
          ? fmt::format("the battery is at {}, near its floor of {}", print(now), print(floor))
          : fmt::format("the battery is at {}, its floor is {}", print(now), print(floor));
  made.words.why = "deeper discharge wears it out";
  made.words.action = "switch off what can wait until it is charged";
  made.old_caution = kWiring;
  made.value = model::Measured{"charge", measure::value_of(now), "", {}};
  into.findings.push_back(std::move(made));
}

void judge_numbers(const model::History& history, const model::Rules& rules,
                   model::Assessment& into) {
  const auto watts = rated(history);
  const measure::Printer print(history.units);
  const auto days = made_by_day(history);
  if (watts && !days.empty()) {
    const auto& [day, of_day] = *days.rbegin();
    const KilowattHours most =
        science::panel_energy(*watts, science::Hours{most_sun_hours(day, history)}, Fraction{0});
    if (of_day.energy > most * (1 + rules(limits::over_slack).value)) {
      model::Told made =
          finding("panel.over", model::Urgency::kToday, limits::over_slack, rules);
      made.words.says = fmt::format("{} was logged for {}, and {} cannot make more than {} that day",
                              print(of_day.energy), measure::day_words(day, history.today),
                              print(*watts), print(most));
      made.words.action = "check the number and the unit, and watts= as told at the start";
      made.value = model::Measured{"energy", measure::value_of(of_day.energy), "", {}};
      made.limit = model::Measured{"most", measure::value_of(most), "", {}};
      into.findings.push_back(std::move(made));
    }
  }
  const std::string told = history.batch.text("sun", "");
  const auto hours =
      told.empty() ? measure::Result<std::vector<double>>(std::vector<double>{}) : read_sun(told);
  if (!history.latitude || !hours || hours->empty()) return;
  const date::year year = date::year_month_day{history.today}.year();
  std::vector<double> most(12, 0);
  for (model::Day day{year / 1 / 1}; day <= model::Day{year / 12 / 31}; day += date::days{1}) {
    double& of_month = most[static_cast<unsigned>(date::year_month_day{day}.month()) - 1];
    of_month = std::max(of_month, most_sun_hours(day, history));
  }
  static constexpr std::array kMonths{"January",   "February", "March",    "April",
                                      "May",       "June",     "July",     "August",
                                      "September", "October",  "November", "December"};
  for (std::size_t month = 0; month < 12; ++month) {
    if ((*hours)[month] <= most[month]) continue;
    model::Told made = finding("panel.sun", model::Urgency::kSoon,
                                  "Allen et al. 1998, FAO Irrigation and Drainage Paper 56");
    made.words.says = fmt::format("{} has {} sun hours a day as told, and above the air there are {}",
                            kMonths[month], measure::print_number((*hours)[month], 1),
                            measure::print_number(most[month], 1));
    made.words.action = "correct sun= (a new batch of this code), so that what is expected can be made";
    into.findings.push_back(std::move(made));
    return;
  }
}

void measure_output(const model::History& history, const model::Rules& rules,
                    model::Assessment& into) {
  const measure::Printer print(history.units);
  const auto days = made_by_day(history);
  KilowattHours made, of_expected, expected;
  int counted = 0;
  for (const auto& [day, of_day] : days) {
    made += of_day.energy;
    const auto should = expected_on(day, history, rules);
    if (!should) continue;
    of_expected += of_day.energy;
    expected += *should;
    ++counted;
  }
  const auto today = expected_on(history.today, history, rules);
  if (!days.empty()) {
    const auto& [day, of_day] = *days.rbegin();
    const auto should = expected_on(day, history, rules);
    std::string says =
        fmt::format("{} {}", print(of_day.energy),
                    day == history.today ? "today" : measure::day_words(day, history.today));
    std::optional<double> share;
    if (should && *should > KilowattHours{0}) {
      share = of_day.energy / *should;
      says += fmt::format(", {} of a mean day's {}", print(Fraction{*share}), print(*should));
    }
    into.progress.push_back({"made", says, share ? std::optional(std::min(*share, 1.0)) : share});
  }
  const auto a_day = today          ? today
                     : days.empty() ? std::nullopt
                                    : std::optional(made / static_cast<double>(days.size()));
  if (a_day) {
    const std::string carries = hours_of_uses(history, *a_day);
    if (!carries.empty()) {
      into.progress.push_back(
          {"uses", fmt::format("a day's {} carries {}", print(*a_day), carries), std::nullopt});
    }
  } else if (const auto watts = rated(history); watts && history.latitude) {
    const KilowattHours most = science::panel_energy(
        *watts, science::Hours{most_sun_hours(history.today, history)}, loss_of(history, rules));
    into.progress.push_back(
        {"at most",
         fmt::format("{} today, were there no air; sun='...' with the place's peak sun hours tells "
                     "what to expect",
                     print(most)),
         std::nullopt});
  }
  const auto add = [&](std::string_view key, std::string_view name, measure::Value value,
                       std::string basis) {
    into.measures.push_back(
        {"panel." + std::string(key), std::string(name), {"", value, "", {}}, std::move(basis)});
  };
  if (!days.empty()) {
    const auto shared =
        std::count_if(days.begin(), days.end(), [](const auto& one) { return one.second.shared; });
    add("made", "energy made", measure::value_of(made),
        fmt::format(
            "on {}{}", days_words(static_cast<int>(days.size())),
            shared > 0 ? fmt::format(", {} of them shared out of a meter's rise", shared) : ""));
  }
  if (counted > 0 && expected > KilowattHours{0}) {
    add("expected", "expected on those days", measure::value_of(expected),
        fmt::format("by the sun hours told, {} lost{}", print(loss_of(history, rules)),
                    history.batch.text("losses", "").empty() ? " (none were told)" : ""));
    add("share", "made of what was expected", measure::value_of(Fraction{of_expected / expected}),
        "");
  }
  KilowattHours used;
  for (const model::Movement& movement : history.out) {
    if (movement.amount.dimension == measure::Dimension::kEnergy) {
      used += KilowattHours{movement.amount.si};
    }
  }
  if (used > KilowattHours{0}) add("used", "energy used", measure::value_of(used), "as logged");
  for (const Use& use : uses_or_none(history.batch.text("uses", ""), measure::Dimension::kPower)) {
    if (use.si <= 0 || days.empty()) continue;
    into.measures.push_back(
        {"panel.hours." + use.name,
         "hours of " + use.name + " it could carry",
         {"", measure::value_of(measure::Number{made.value * 1000 / use.si}), "hours", {}},
         "all of what was made, by itself"});
  }
}

}  // namespace kinds::panel
