#include "kinds/burn/account.h"

#include <fmt/format.h>

#include <algorithm>

#include "kinds/burn/feedstock.h"
#include "kinds/burn/vocabulary.h"
#include "kinds/thresholds.h"

namespace kinds::burn {
namespace {

namespace limits = thresholds::burn;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;

// A share that was read on the day nearest to `day`: what was carried was as wet as on that day,
// not as it is now.
std::optional<Fraction> read_nearest(const model::History& history, std::string_view quantity,
                                     model::Day day) {
  const model::DayRoll* nearest = nullptr;
  const auto apart = [&](const model::DayRoll& roll) {
    return std::max(roll.day - day, day - roll.day);
  };
  for (const model::Series* series : history.all(quantity)) {
    for (const model::DayRoll& roll : series->days) {
      if (nearest == nullptr || apart(roll) < apart(*nearest)) nearest = &roll;
    }
  }
  if (nearest == nullptr) return std::nullopt;
  return Fraction{nearest->last};
}

// The share as the fire found it: read last before it was lit, else at all.
std::optional<Fraction> moisture_when_lit(const model::History& history, const Course& course) {
  const model::DayRoll* last = nullptr;
  for (const model::Series* series : history.all(kMoisture)) {
    for (const model::DayRoll& roll : series->days) {
      const bool in_time = !course.lit || roll.last_at <= *course.lit || last == nullptr;
      if (in_time) last = &roll;
    }
  }
  if (last == nullptr) return std::nullopt;
  return Fraction{last->last};
}

// One bucketful of this char, dried and weighed.
struct Bucket {
  Litres content;
  Kilograms dry;
};

std::optional<Bucket> bucket_of(const model::Batch& batch) {
  const auto content = batch.number(kBucket);
  const auto dry = batch.number(kDryWeight);
  if (!content || !dry) return std::nullopt;
  return Bucket{Litres{content->si}, Kilograms{dry->si}};
}

std::optional<Kilograms> dry_carried(const model::History& history,
                                     const model::Movement& movement) {
  if (movement.amount.dimension == measure::Dimension::kVolume) {
    if (const auto bucket = bucket_of(history.batch)) {
      return science::dry_char_by_bucket(Litres{movement.amount.si}, bucket->content, bucket->dry);
    }
  }
  const auto mass = movement.mass();
  if (!mass) return std::nullopt;
  // A volume by its bulk density is as dry as that density's char; a weight holds its water.
  if (!movement.weighed())
    return science::dry_part(*mass, movement.material.moisture().value_or(Fraction{0}));
  auto moisture = read_nearest(history, kCharMoisture, movement.day);
  if (!moisture) moisture = movement.material.moisture();
  return moisture ? science::dry_part(*mass, *moisture) : std::nullopt;
}

void count_feed(const model::History& history, const Course& course, Account& account) {
  Kilograms dry{0}, carbon{0};
  int counted = 0, left_out = 0, by_handbook = 0, without_carbon = 0;
  for (const model::Movement& movement : history.in) {
    if (!is_feedstock(movement, course)) continue;
    const auto read = read_nearest(history, kMoisture, movement.day);
    const auto moisture = read ? read : movement.material.moisture();
    const auto mass = movement.mass();
    const auto part = mass && moisture ? science::dry_part(*mass, *moisture) : std::nullopt;
    if (!part) {
      ++left_out;
      continue;
    }
    ++counted;
    by_handbook += read ? 0 : 1;
    dry += *part;
    if (const auto share = movement.material.carbon()) {
      carbon += *part * share->value;
    } else {
      ++without_carbon;
    }
  }
  std::string& basis = account.feed_dry.basis;
  if (counted > 0) account.feed_dry.value = dry;
  basis = by_handbook > 0 ? "moisture from a handbook, not read" : "moisture as read";
  if (left_out > 0) {
    basis += fmt::format("; {} load{} left out: no weight or no moisture is known", left_out,
                         left_out == 1 ? "" : "s");
  }
  if (counted > 0 && left_out == 0 && without_carbon == 0) account.feed_carbon.value = carbon;
  account.feed_carbon.basis = "carbon of the feedstock from a handbook or the site's own analysis";
}

Known<Kilograms> char_read(const model::History& history) {
  const auto volume = latest(history, kCharVolume);
  const auto mass = latest(history, kCharMass);
  const auto bucket = bucket_of(history.batch);
  if (volume && bucket) {
    return {science::dry_char_by_bucket(Litres{*volume}, bucket->content, bucket->dry),
            "by volume and the dry weight of one bucketful"};
  }
  if (mass) {
    const model::Day weighed = latest_day(history, kCharMass)->day;
    if (const auto moisture = read_nearest(history, kCharMoisture, weighed)) {
      return {science::dry_part(Kilograms{*mass}, *moisture), "weighed, less its moisture as read"};
    }
    if (!volume) return {std::nullopt, "weighed, but its moisture was not read"};
  }
  if (!volume) return {std::nullopt, "neither its volume nor its mass was read"};
  const model::Material* char_of_any = model::in_catalogue(kChar);
  if (char_of_any == nullptr) return {};
  return {Kilograms{*volume * char_of_any->kilograms_per_litre().value_or(0)},
          "by volume and a general density of char, not this char's: weigh one dry bucketful"};
}

void count_char(const model::History& history, Account& account) {
  bool all_known = true;
  Kilograms out{0};
  for (const model::Movement& movement : history.out) {
    if (!is_char(movement)) continue;
    const auto dry = dry_carried(history, movement);
    account.carried.push_back({movement.to, movement.to_kind, dry});
    if (dry) out += *dry;
    all_known = all_known && dry.has_value();
  }
  for (const model::Movement& movement : history.in) {
    const bool back = std::any_of(history.out.begin(), history.out.end(), [&](const auto& one) {
      return is_char(one) && came_back(history, one) == &movement;
    });
    if (!back) continue;
    const auto dry = dry_carried(history, movement);
    if (dry) {
      account.carried.push_back({movement.from, movement.from_kind, *dry * -1.0});
      out = out - *dry;
    }
    all_known = all_known && dry.has_value();
  }
  account.char_dry = char_read(history);
  if (account.char_dry.value && all_known) account.left = *account.char_dry.value - out;
  if (!account.char_dry.value && out > Kilograms{0}) {
    account.char_dry = {out, "no char was measured here: the sum of what was carried out"};
    if (!all_known) account.char_dry.basis += " and could be worked out dry";
  }
  if (const auto volume = latest(history, kCharVolume)) {
    account.char_volume = {Litres{*volume}, "as read"};
  } else if (const auto bucket = bucket_of(history.batch);
             bucket && account.char_dry.value && bucket->dry > Kilograms{0}) {
    account.char_volume = {bucket->content * (*account.char_dry.value / bucket->dry),
                           "from its dry mass and the dry weight of one bucketful"};
  }
}

}  // namespace

const model::DayRoll* latest_day(const model::History& history, std::string_view quantity) {
  const model::DayRoll* latest = nullptr;
  for (const model::Series* series : history.all(quantity)) {
    const model::DayRoll& roll = series->days.back();
    if (latest == nullptr || roll.last_at > latest->last_at) latest = &roll;
  }
  return latest;
}

std::optional<double> latest(const model::History& history, std::string_view quantity) {
  const model::DayRoll* roll = latest_day(history, quantity);
  if (roll == nullptr) return std::nullopt;
  return roll->last;
}

bool Account::all_gone() const {
  // A bucket is not counted to the spoonful.
  constexpr double kRest = 0.02;
  return left && char_dry.value && *left <= *char_dry.value * kRest;
}

std::optional<Fraction> Account::yield() const {
  if (!char_dry.value || !feed_dry.value) return std::nullopt;
  return science::char_yield(*char_dry.value, *feed_dry.value);
}

Account account_of(const model::History& history, const Course& course) {
  Account account;
  account.feed_moisture = moisture_when_lit(history, course);
  count_feed(history, course, account);
  count_char(history, account);
  return account;
}

CharCarbon char_carbon(const model::History& history, const Course& course) {
  if (const auto read = latest(history, kCarbon)) {
    return {science::UncertainFraction{Fraction{*read}, Fraction{0}},
            "carbon by the laboratory, its own uncertainty not counted"};
  }
  const auto process = method_of(history.batch) == Method::kGasifier
                           ? science::CharProcess::kGasification
                           : science::CharProcess::kPyrolysis;
  const auto mix = feedstock_mix(history, course);
  if (mix.empty()) {
    return {std::nullopt,
            "no carbon: the laboratory's was not logged, and what was burnt is not in the "
            "IPCC's table"};
  }
  double share = 0, half_width = 0, all = 0;
  for (const FeedstockPart& part : mix) {
    const auto row = science::char_carbon(part.feedstock, process);
    all += part.weight;
    share += part.weight * row.value.value;
    half_width += part.weight * row.value.value * row.relative_uncertainty.value;
  }
  return {science::UncertainFraction{Fraction{share / all}, Fraction{half_width / share}},
          "carbon from the IPCC 2019 table 4Ap.1 for what was burnt, not analysed"};
}

std::optional<measure::Number> hydrogen_ratio(const model::History& history) {
  if (const auto read = latest(history, kHydrogenRatio)) return measure::Number{*read};
  const auto hydrogen = latest(history, kHydrogen);
  const auto carbon = latest(history, kCarbon);
  if (!hydrogen || !carbon) return std::nullopt;
  return science::hydrogen_to_carbon(Fraction{*hydrogen}, Fraction{*carbon});
}

std::optional<science::CharGrade> grade(const model::History& history) {
  const auto h_to_c = hydrogen_ratio(history);
  if (!h_to_c) return std::nullopt;
  const auto oxygen = latest(history, kOxygen);
  const auto carbon = latest(history, kCarbon);
  std::optional<measure::Number> o_to_c;
  if (oxygen && carbon) o_to_c = science::oxygen_to_carbon(Fraction{*oxygen}, Fraction{*carbon});
  return science::char_grade(*h_to_c, o_to_c);
}

std::optional<measure::Celsius> peak(const model::History& history, const model::Rules& rules) {
  std::optional<measure::Celsius> hottest;
  for (const model::Series* series : history.all(kTemperature)) {
    for (const model::DayRoll& roll : series->days) {
      const measure::Celsius read{roll.greatest};
      if (read < rules(limits::peak_least)) continue;
      hottest = std::max(hottest.value_or(read), read);
    }
  }
  return hottest;
}

MethaneFactor methane_factor(const model::History& history, const model::Rules& rules,
                             std::optional<Fraction> feed_moisture) {
  const auto told = [&](const model::ThresholdInfo& info, double least, double most) {
    const model::RuleInForce rule = rules.in_force(info);
    // A value that the site set itself stands inside its range.
    return MethaneFactor{science::KilogramsPerTonne{rule.si},
                         science::KilogramsPerTonne{std::min(least, rule.si)},
                         science::KilogramsPerTonne{std::max(most, rule.si)}, rule.source};
  };
  const auto at = [&](const auto& limit) { return rules(limit).value; };
  if (method_of(history.batch) == Method::kMound) {
    return told(limits::methane_mound_info, at(limits::methane_mound_least),
                at(limits::methane_mound));
  }
  const MethaneFactor usual = told(limits::methane_usual_info, 0, at(limits::methane_usual_most));
  if (!feed_moisture) return usual;
  if (*feed_moisture < rules(limits::wet_best)) {
    return told(limits::methane_dry_info, 0, at(limits::methane_dry));
  }
  const Fraction from = rules(limits::methane_rises), to = rules(limits::wet_methane);
  if (*feed_moisture <= from) return usual;
  const MethaneFactor wet =
      told(limits::methane_wet_info, at(limits::methane_wet), at(limits::methane_wet_most));
  if (*feed_moisture >= to) return wet;
  const Fraction share{(*feed_moisture - from) / (to - from)};
  return {science::between_in_logarithm(usual.value, wet.value, share),
          wet.least * share.value,  // from nothing, which has no logarithm
          science::between_in_logarithm(usual.most, wet.most, share),
          "between the published values below and above, on a log scale: " + usual.source + "; " +
              wet.source};
}

}  // namespace kinds::burn
