#include "kinds/larvae/yield.h"

#include <algorithm>
#include <set>

#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

namespace kinds::larvae {
namespace {

using measure::Fraction;
using measure::Kilograms;
using model::Urgency;

// A mass and the dry part of it, where the water of all of it is known.
struct Weight {
  Kilograms wet{};
  std::optional<Kilograms> dry = Kilograms{};

  void add(Kilograms mass, std::optional<Fraction> moisture) {
    wet += mass;
    if (!moisture || !dry) {
      dry.reset();
    } else {
      *dry += mass * (1 - moisture->value);
    }
  }
  std::optional<Fraction> moisture() const {
    if (!dry || wet <= Kilograms{0}) return std::nullopt;
    return Fraction{1 - *dry / wet};
  }
};

std::optional<Fraction> young_larvae_moisture() {
  for (const model::Material& material : model::catalogue()) {
    if (material.name == "young larvae") return material.moisture();
  }
  return std::nullopt;
}

void add_feed(const model::History& history, Yield& yield) {
  const auto read = read_moisture(history, "feed_moisture");
  Weight weight;
  std::set<std::string> unweighed;
  for (const model::Movement& movement : history.in) {
    if (!is_feed(movement)) continue;
    ++yield.feeds;
    if (const auto mass = movement.mass()) {
      weight.add(*mass, read ? read : movement.material.moisture());
    } else {
      ++yield.unweighed_feeds;
      unweighed.insert(movement.material.name);
    }
  }
  yield.feed = weight.wet;
  yield.unweighed_materials.assign(unweighed.begin(), unweighed.end());
  if (yield.feeds > 0 && yield.unweighed_feeds == 0) yield.run.feed = weight.wet;
  yield.moistures.feed = weight.moisture();
}

void add_frass(const model::History& history, const Course& course, Yield& yield) {
  const auto read = read_moisture(history, "frass_moisture");
  Weight weight;
  bool all_weighed = true;
  for (const model::Movement& movement : history.out) {
    if (movement.material.group != "frass" || movement.day < course.seeded) continue;
    const auto mass = movement.mass();
    all_weighed = all_weighed && mass.has_value();
    if (mass) weight.add(*mass, read ? read : movement.material.moisture());
  }
  if (all_weighed && weight.wet > Kilograms{0}) yield.run.residue = weight.wet;
  yield.moistures.residue = weight.moisture();
}

void add_harvest(const model::History& history, const Course& course,
                 const std::optional<Weighing>& sample, Yield& yield) {
  const auto read = read_moisture(history, "larvae_moisture");
  const auto read_dried = read_moisture(history, "dried_moisture");
  Weight weight;
  std::optional<model::Day> last;
  for (const model::Movement& movement : history.out) {
    if (!is_harvest(movement, course)) continue;
    last = movement.day;
    const auto mass = mass_of(movement, sample);
    if (!mass) {
      ++yield.unweighed_harvests;
      continue;
    }
    if (movement.amount.dimension == measure::Dimension::kCount) ++yield.counted_harvests;
    const bool is_dried = movement.material.name == "dried larvae";
    const auto& own = is_dried ? read_dried : read;
    weight.add(*mass, own ? own : movement.material.moisture());
    (is_dried                                  ? yield.dried
     : movement.material.name == "dark larvae" ? yield.dark
                                               : yield.light) += *mass;
  }
  if (last && yield.unweighed_harvests == 0) yield.run.larvae_out = weight.wet;
  if (last) yield.run.duration = measure::Days{1.0 * days_between(course.seeded, *last)};
  yield.moistures.larvae_out = weight.moisture();
}

std::string basis_of_moistures(const model::History& history) {
  std::string read;
  for (const auto& [quantity, name] :
       {std::pair{"feed_moisture", "feed"}, std::pair{"frass_moisture", "frass"},
        std::pair{"larvae_moisture", "larvae"}, std::pair{"young_moisture", "young larvae"}}) {
    if (history.all(quantity).empty()) continue;
    read += (read.empty() ? "" : ", ") + std::string(name);
  }
  if (read.empty()) return "moistures from the catalogue, none was read";
  return "moisture read of: " + read + "; the rest from the catalogue";
}

}  // namespace

std::optional<Fraction> read_moisture(const model::History& history, std::string_view quantity) {
  double sum = 0;
  int days = 0;
  for (const model::DayRoll& roll : model::pooled_days(history.all(quantity))) {
    sum += roll.mean();
    ++days;
  }
  if (days == 0) return std::nullopt;
  return Fraction{sum / days};
}

std::optional<Kilograms> mass_of(const model::Movement& movement,
                                 const std::optional<Weighing>& sample) {
  if (const auto mass = movement.mass()) return mass;
  if (movement.amount.dimension != measure::Dimension::kCount || !sample) return std::nullopt;
  return sample->mass * movement.amount.si;
}

bool is_harvest(const model::Movement& movement, const Course& course) {
  return is_larvae(movement) && movement.day >= course.seeded;
}

Yield yield_of(const model::History& history, const model::Rules& rules, const Course& course) {
  Yield yield;
  const auto sample = last_sound(weighings_of(history, rules));
  add_feed(history, yield);
  add_frass(history, course, yield);
  add_harvest(history, course, sample, yield);
  yield.young_weighed = course.mass_in.has_value();
  yield.run.larvae_in = course.mass_in.value_or(Kilograms{0});
  const auto young = read_moisture(history, "young_moisture");
  yield.moistures.larvae_in = young ? young : young_larvae_moisture();
  yield.run.larvae_count = course.count;
  if (const auto area = history.batch.number("area")) {
    yield.run.area = measure::SquareMetres{area->si};
  }
  yield.moisture_basis = basis_of_moistures(history);
  const bool both = yield.run.larvae_out.has_value() && yield.run.residue.has_value();
  yield.complete = both || history.batch.ended.has_value();
  return yield;
}

std::string unweighed_words(const Yield& yield) {
  if (yield.unweighed_feeds == 0) return "";
  return fmt::format("{} of {} feeds without a weight ({})", yield.unweighed_feeds, yield.feeds,
                     measure::joined(yield.unweighed_materials, ", "));
}

void judge_records(const model::History& history, const model::Rules& rules, const Course& course,
                   model::Assessment& into) {
  for (const model::Movement& movement : history.out) {
    if (!is_larvae(movement) || movement.day >= course.seeded) continue;
    model::Told made = finding("larvae.record", Urgency::kToday, "the records themselves");
    made.words.says =
        fmt::format("{} {} went out on {}, before the seeding on {}", movement.typed,
                    movement.material.name, measure::day_words(movement.day, history.today),
                    measure::day_words(course.seeded, history.today));
    made.words.action = "amend the day of one of them; until then that harvest is left out";
    into.findings.push_back(std::move(made));
    break;
  }
  const Yield yield = yield_of(history, rules, course);
  const auto metrics = science::metrics_as_weighed(yield.run);
  if (yield.run.larvae_out && yield.run.feed && metrics.gain && *metrics.gain > *yield.run.feed) {
    const measure::Printer print(history.units);
    model::Told made = finding("larvae.record", Urgency::kToday, "the records themselves");
    made.words.says = fmt::format("{} of larvae came out of {} of feed, more than can be",
                                  print(*yield.run.larvae_out), print(*yield.run.feed));
    made.words.action = "look for a feed that was not logged, or a slip in a weight, and amend it";
    into.findings.push_back(std::move(made));
  }
}

}  // namespace kinds::larvae
