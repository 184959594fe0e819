#include "kinds/digester/feed.h"

#include <algorithm>
#include <cmath>

#include "kinds/digester/facts.h"
#include "kinds/digester/study.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "measure/unit.h"
#include "science/gas/digestion.h"
#include "science/gas/temperature_rate.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Celsius;
using measure::Days;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;
using By = model::Ending::By;
using model::Property;
using model::Urgency;

science::PerDay rate_of(const model::Material& material, const model::Rules& rules) {
  if (is_manure(material)) {
    return science::PerDay{rules(limits::gas_rate_manure).value};
  }
  for (const std::string_view group : kQuickGroups) {
    if (material.group == group) return science::PerDay{rules(limits::gas_rate_food).value};
  }
  return science::PerDay{rules(limits::gas_rate_plant).value};
}

Load load_of(const model::Movement& movement, const model::Rules& rules) {
  const model::Material& material = movement.material;
  Load load;
  load.day = movement.day;
  load.fresh = movement.mass().value_or(Kilograms{});
  load.rate = rate_of(material, rules);
  load.limited = is_limited(material);
  load.manure = is_manure(material);
  load.of_pigs = load.manure && material.name.starts_with(kOfPigs);
  const auto moisture = material.moisture();
  const auto volatile_share = material.share(Property::kVolatileSolids);
  const auto methane = material.share(Property::kMethane);
  if (load.fresh.value > 0 && moisture && volatile_share && methane) {
    load.volatile_solids = load.fresh * ((1 - moisture->value) * volatile_share->value);
    load.potential = science::NormalLitresPerKilogram{methane->value * 1000};  // m3 = 1000 L
  }
  return load;
}

void add_nutrients(const model::Movement& movement, Feed& feed) {
  const model::Material& material = movement.material;
  if (is_water(material) || is_gas(material)) return;
  const auto mass = movement.mass();
  const auto moisture = material.moisture();
  const auto add = [&](std::optional<Fraction> share, Kilograms& sum,
                       std::set<std::string>& unknown) {
    if (mass && moisture && share) {
      sum += *mass * ((1 - moisture->value) * share->value);
    } else {
      unknown.insert(material.name);
    }
  };
  add(material.nitrogen(), feed.nutrients.nitrogen, feed.no_nitrogen);
  add(material.share(Property::kPhosphorus), feed.nutrients.phosphorus, feed.no_phosphorus);
  add(material.share(Property::kPotassium), feed.nutrients.potassium, feed.no_potassium);
}

Litres slurry_of(const model::Movement& movement) {
  if (const auto volume = movement.volume()) return *volume;
  return Litres{movement.mass().value_or(Kilograms{}).value};
}

// All slurry fed up to and with each movement.
std::vector<Litres> fed_by(const std::vector<model::Movement>& in) {
  std::vector<Litres> fed;
  Litres sum;
  for (const model::Movement& movement : in) {
    if (!is_gas(movement.material)) sum += slurry_of(movement);
    fed.push_back(sum);
  }
  return fed;
}

// The day on which what was fed later has pushed a movement out; none: not yet.
std::optional<model::Day> leaving_day(const std::vector<model::Movement>& in,
                                      const std::vector<Litres>& fed, std::size_t movement,
                                      Litres working_volume) {
  const auto pushed_out = std::partition_point(
      fed.begin(), fed.end(), [&](Litres by) { return by - fed[movement] < working_volume; });
  if (pushed_out == fed.end()) return std::nullopt;
  return in[static_cast<std::size_t>(pushed_out - fed.begin())].day;
}

// The days of the window that lie after the filling; while they are few, a mean over them says
// nothing.
std::optional<Days> window_of(const model::History& history, const model::Rules& rules,
                              const Startup& startup) {
  const double whole = rules(limits::feed_window).value;
  const model::Day since =
      startup.filling_ended().value_or(startup.filled_on.value_or(history.batch.started_day));
  const double days = std::min(whole, static_cast<double>(days_between(since, history.today)));
  if (days * 2 < whole) return std::nullopt;
  return Days{days};
}

// What of these days is to be scaled by who feeds it: by the bucket where all of it came by the
// bucket, else by weight. Water is no feed.
void measure_lately(const std::vector<const model::Movement*>& loads, Feed& feed) {
  const bool by_volume = !loads.empty() && std::all_of(loads.begin(), loads.end(), [](auto* load) {
    return load->amount.dimension == measure::Dimension::kVolume;
  });
  feed.lately = {by_volume ? measure::Dimension::kVolume : measure::Dimension::kMass, 0};
  for (const model::Movement* load : loads) {
    feed.lately.si += by_volume ? load->amount.si : load->mass().value_or(Kilograms{}).value;
    const bool same = load->material.name == loads.front()->material.name;
    feed.lately_of = same && feed.lately_of != "feed" ? load->material.name : "feed";
  }
}

void count_lately(const model::History& history, const model::Rules& rules, const Startup& startup,
                  Feed& feed) {
  const auto window = window_of(history, rules, startup);
  if (!window) return;
  feed.window = *window;
  const auto is_recent = [&](model::Day day) {
    return days_between(day, history.today) < window->value && !startup.is_filling(day);
  };
  Kilograms fresh, limited;
  for (const Load& load : feed.loads) {
    if (!is_recent(load.day)) continue;
    feed.volatile_solids_lately += load.volatile_solids.value_or(Kilograms{});
    fresh += load.fresh;
    if (load.limited) limited += load.fresh;
  }
  if (fresh > Kilograms{0}) feed.limited = Fraction{limited / fresh};
  Litres slurry;
  std::vector<const model::Movement*> loads;
  for (const model::Movement& movement : history.in) {
    if (!is_recent(movement.day) || is_gas(movement.material)) continue;
    slurry += slurry_of(movement);
    if (is_feed(movement.material)) loads.push_back(&movement);
  }
  measure_lately(loads, feed);
  if (!feed.working_volume) return;
  feed.loading = science::loading_rate(feed.volatile_solids_lately, *window, *feed.working_volume);
  feed.retention = science::retention_time(*feed.working_volume, slurry, *window);
}

// The day on which, fed no more, its mean of the window is down to the limit.
model::Day eased_on(const Feed& feed, science::KilogramsPerCubicMetreDay limit, model::Day today) {
  const Kilograms most{limit.value * feed.window.value * feed.working_volume->value / 1000};
  model::Day day = today;
  for (int ahead = 1; ahead <= feed.window.value; ++ahead) {
    day = today + date::days{ahead};
    Kilograms still;
    for (const Load& load : feed.loads) {
      if (days_between(load.day, day) < feed.window.value)
        still += load.volatile_solids.value_or(Kilograms{});
    }
    if (still <= most) break;
  }
  return day;
}

}  // namespace

Feed feed_of(const model::History& history, const model::Rules& rules, const Startup& startup) {
  Feed feed;
  if (const auto said = history.batch.number(kVolume)) {
    feed.working_volume = Litres{said->si};
  } else if (startup.filled_on && !startup.taken_over && startup.in > Litres{0}) {
    feed.working_volume = startup.in;
  }
  const std::vector<Litres> fed = fed_by(history.in);
  for (std::size_t i = 0; i < history.in.size(); ++i) {
    const model::Movement& movement = history.in[i];
    add_nutrients(movement, feed);
    if (is_water(movement.material)) feed.water += slurry_of(movement);
    if (!is_feed(movement.material)) continue;
    Load load = load_of(movement, rules);
    load.behind = fed.back() - fed[i];
    if (feed.working_volume) {
      load.leaves = leaving_day(history.in, fed, i, *feed.working_volume);
    }
    feed.fresh += load.fresh;
    feed.volatile_solids += load.volatile_solids.value_or(Kilograms{});
    const auto& name = movement.material.name;
    if (!load.volatile_solids &&
        std::find(feed.unknown.begin(), feed.unknown.end(), name) == feed.unknown.end()) {
      feed.unknown.push_back(name);
    }
    feed.loads.push_back(load);
  }
  count_lately(history, rules, startup, feed);
  return feed;
}

Litres slurry_fed(const model::History& history, model::Day first, model::Day last) {
  Litres slurry;
  for (const model::Movement& movement : history.in) {
    const bool is_then = movement.day >= first && movement.day <= last;
    if (is_then && !is_gas(movement.material)) slurry += slurry_of(movement);
  }
  return slurry;
}

namespace {

// Where the slurry's own pace no longer tells: below these the microbes bear far less than that.
constexpr Celsius kCool{15}, kCold{10};

}  // namespace

science::KilogramsPerCubicMetreDay loading_limit(Celsius temperature, const model::Rules& rules) {
  const Celsius at = rules(limits::overfed_at), break_at = rules(limits::cold_below);
  const science::TemperatureRate response{
      .theta = rules(limits::gas_theta), .reference = at, .ceiling = at};
  const auto by_pace = [&](Celsius celsius) {
    const auto rate = science::relative_rate(celsius, response);
    return rules(limits::overfed_above).value * (rate ? rate->value : 1);
  };
  if (!is_below(temperature, break_at))
    return science::KilogramsPerCubicMetreDay{by_pace(temperature)};
  const double cool = rules(limits::overfed_cool).value, cold = rules(limits::overfed_cold).value;
  const bool above_cool = temperature > kCool && break_at > kCool;
  const Celsius low = above_cool ? kCool : kCold, high = above_cool ? break_at : kCool;
  const double at_low = above_cool ? cool : cold, at_high = above_cool ? by_pace(break_at) : cool;
  // Between two of them, and on below the last, by equal factors a degree.
  const double along = (temperature - low) / (high - low);
  return science::KilogramsPerCubicMetreDay{at_low * std::pow(at_high / at_low, along)};
}

Found judge_overfed(const Study& study) {
  const Feed& feed = study.feed();
  if (!feed.loading) return std::nullopt;
  const model::Rules& rules = study.rules();
  const Celsius at = study.warmth().mean.value_or(rules(limits::overfed_at));
  const auto limit = loading_limit(at, rules);
  if (*feed.loading <= limit) return std::nullopt;
  model::Finding made = finding(kRuleOverfed, Urgency::kToday, limits::overfed_above, rules);
  made.job = kJobFeed;
  made.value = model::Measured{"loading",
                               {measure::Dimension::kNumber, feed.loading->value},
                               std::string(limits::overfed_above.info->label)};
  made.limit->value.si = limit.value;
  made.facts.set(kLoadingNow, measure::Number{feed.loading->value});
  made.facts.set(kLoadingLimit, measure::Number{limit.value});
  made.facts.set(kAt, at);
  made.facts.set(kDays, full_days(feed.window));
  made.facts.set(kShare, Fraction{limit / *feed.loading});
  made.facts.set(kAssumedWarm, !study.warmth().mean);
  const auto warm = loading_limit(rules(limits::cold_below), rules);
  made.case_of = study.warmth().cold ? kCaseCold : kCaseRich;
  made.facts.set(kWarmLimit, measure::Number{warm.value});
  made.ends = {{.by = By::kDay, .day = eased_on(feed, limit, study.history().today)}};
  return made;
}

Found judge_short(const Study& study) {
  const Feed& feed = study.feed();
  if (!feed.retention) return std::nullopt;
  const model::Rules& rules = study.rules();
  const auto rule = study.winter() ? limits::short_cold : limits::short_below;
  if (*feed.retention >= rules(rule)) return std::nullopt;
  model::Finding made = finding(kRuleShort, Urgency::kSoon, rule, rules);
  made.case_of = study.winter() ? kCaseWinter : kCaseSpell;
  made.job = kJobFeed;
  made.value = model::Measured{"retention", measure::value_of(*feed.retention), ""};
  made.facts.set(kStay, *feed.retention);
  if (const auto slurry = science::slurry_for(*feed.working_volume, rules(rule), Days{1}))
    made.facts.set(kMostADay, *slurry);
  made.ends = {{.by = By::kSetting, .name = std::string(kVolume)}};
  return made;
}

}  // namespace kinds::digester
