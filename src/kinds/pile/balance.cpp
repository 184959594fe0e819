#include "kinds/pile/balance.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/pile/blend.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;
using measure::Celsius;
using measure::Days;
using measure::Fraction;
using measure::Kilograms;
using measure::Litres;

// The correction's logarithm lies within this, either way.
constexpr double kMostLog = 1.1;
constexpr int kLogSteps = 55;  // to either side
// The weight of a day's balance halves in so many days.
constexpr double kHalfLife = 3;

struct Size {
  Litres volume;
  Kilograms mass;
  Fraction moisture;
};

// What had gone in by a day, and how damp the pile was last read to be.
Size size_by(const model::History& history, const model::Rules& rules, model::Day as_of) {
  Size size{rules(limits::foresee_volume), Kilograms{0}, rules(limits::foresee_moisture)};
  Litres in{0};
  double water = 0;
  Kilograms known{0};
  for (const model::Movement& one : history.in) {
    if (one.day > as_of) continue;
    if (const auto volume = one.volume()) in += *volume;
    const auto mass = one.mass();
    const auto moisture = one.material.moisture();
    if (!mass || !moisture) continue;
    known += *mass;
    water += mass->value * moisture->value;
  }
  if (in.value > 0) size.volume = in;
  if (const auto said = history.batch.number(kBuiltVolume)) size.volume = Litres{said->si};
  if (known.value > 0) size.moisture = Fraction{water / known.value};
  size.mass = known.value > 0
                  ? known
                  : Kilograms{size.volume.value * rules(limits::foresee_density).value / 1000};
  // What went in and what stands there have to agree, or one of them is not all of it.
  const double density = size.mass.value / size.volume.value * 1000;
  if (density < 100 || density > 1100) {
    size.mass = Kilograms{size.volume.value * rules(limits::foresee_density).value / 1000};
  }
  for (const model::Series* series : history.all(kMoisture)) {
    for (const model::DayRoll& roll : series->days) {
      if (roll.day <= as_of) size.moisture = Fraction{roll.last};
    }
  }
  return size;
}

// The heat balance of the model at one temperature, a day's worth.
struct Balance {
  const science::PileModel& pile;

  double decay(double temperature) const {  // of the degradable matter, a day
    double rate = pile.rate.value * science::stombaugh_nokes_factor(Celsius{temperature}).value *
                  science::haug_moisture_factor(pile.moisture).value;
    if (pile.oxygen) rate *= science::oxygen_factor(*pile.oxygen).value;
    return rate;
  }
  double burning(double temperature, double degradable) const {  // kJ
    const double dry = pile.mass.value * (1 - pile.moisture.value);
    return decay(temperature) * degradable * dry * pile.megajoules_per_kilogram.value * 1000;
  }
  double losing(double temperature, double air) const {  // kJ
    const double warmer = temperature - air;
    const double through =
        pile.watts_per_square_metre_kelvin.value * pile.surface.value * warmer * 86.4;
    return warmer > 0 ? through / (1 - pile.evaporative_share.value) : through;
  }
};

// Sums over the days' balances C dT = g burning - losing / g, for the least squares of g.
class Fit {
 public:
  void add(double weight, double gained, double burning, double losing) {
    gained_burning_ += weight * gained * burning;
    gained_losing_ += weight * gained * losing;
    burning_ += weight * burning * burning;
    losing_ += weight * losing * losing;
  }
  double best_log() const {
    double best = 0, least = cost(1);
    static const std::vector<Tried> kTried = all_tried();
    for (const Tried& tried : kTried) {
      const double here = cost(tried.g);
      if (here >= least) continue;
      least = here;
      best = tried.log;
    }
    return best;
  }

 private:
  struct Tried {
    double log, g;
  };
  static std::vector<Tried> all_tried() {
    std::vector<Tried> all;
    for (int step = -kLogSteps; step <= kLogSteps; ++step) {
      const double log = kMostLog * step / kLogSteps;
      all.push_back({log, std::exp(log)});
    }
    return all;
  }

  // Without the terms that g does not change.
  double cost(double g) const {
    return -2 * g * gained_burning_ + 2 / g * gained_losing_ + g * g * burning_ + losing_ / (g * g);
  }
  double gained_burning_ = 0, gained_losing_ = 0, burning_ = 0, losing_ = 0;
};

}  // namespace

science::PileModel model_by(const model::History& history, const model::Rules& rules,
                            model::Day as_of) {
  const Size size = size_by(history, rules, as_of);
  science::PileModel pile;
  pile.mass = size.mass;
  pile.moisture = Fraction{std::clamp(size.moisture.value, 0.05, 0.95)};
  const bool drum = method_of(history.batch) == Method::kVessel;
  pile.surface = science::cooling_surface(
      size.volume, drum ? science::PileShape::Drum : science::PileShape::Heap);
  return pile;
}

double air_on(const Course& course, const model::Rules& rules, model::Day day) {
  return course.air_before(day, kAirDays).value_or(rules(limits::foresee_air)).value;
}

HeatDays::HeatDays(const Course& course, const science::PileModel& pile, const model::Rules& rules)
    : fresh_(pile.degradable.value) {
  const Balance balance{pile};
  const double capacity = science::heat_capacity(pile).value;
  double degradable = fresh_;
  const DaySeen* before = nullptr;
  for (const DaySeen& day : course.days) {
    Balanced made{.day = day.day, .degradable = degradable};
    if (before != nullptr) {
      const int gap = days_between(before->day, day.day);
      const double middle = (before->peak() + day.peak()) / 2;
      // A turning cools a pile: neither the fall to it nor a reading just after it tells of its
      // heat.
      const bool mixed = course.turnings_between(before->day, day.day) > 0;
      made.counts = !mixed && gap <= kFreshDays;
      if (made.counts) {
        made.burning = balance.burning(middle, degradable);
        made.losing = balance.losing(middle, air_on(course, rules, day.day));
        made.gained = capacity * (day.peak() - before->peak()) / gap;
      }
      degradable *= std::exp(-balance.decay(middle) * gap);
      made.degradable = degradable;
    }
    days_.push_back(made);
    before = &day;
  }
}

Heat HeatDays::as_of(model::Day day, std::optional<int> back) const {
  const auto end = std::partition_point(days_.begin(), days_.end(),
                                        [&](const Balanced& one) { return one.day <= day; });
  const auto begin = back ? std::partition_point(days_.begin(), end,
                                                 [&](const Balanced& one) {
                                                   return days_between(one.day, day) >= *back;
                                                 })
                          : days_.begin();
  Heat heat;
  heat.degradable = end == days_.begin() ? fresh_ : std::prev(end)->degradable;
  Fit fit;
  for (auto one = begin; one != end; ++one) {
    if (!one->counts) continue;
    const double weight = back ? std::exp2(-days_between(one->day, day) / kHalfLife) : 1.0;
    fit.add(weight, one->gained, one->burning, one->losing);
    ++heat.pairs;
  }
  if (heat.pairs > 0) heat.log_factor = fit.best_log();
  return heat;
}

std::vector<double> simulated(science::PileModel pile, double degradable, double log_factor,
                              double start, double air, int days_ahead) {
  const double g = std::exp(log_factor);
  pile.degradable = Fraction{std::min(1.0, degradable * g)};
  pile.watts_per_square_metre_kelvin =
      measure::Number{pile.watts_per_square_metre_kelvin.value / g};
  // A day's mean lies half a day on: two means next to each other meet at a reading's hour.
  const std::vector<Celsius> ahead(static_cast<std::size_t>(days_ahead) + 1, Celsius{air});
  const auto means = science::simulate_pile(pile, Celsius{start}, ahead, Days{1.0 / 8});
  std::vector<double> out;
  for (std::size_t i = 0; i + 1 < means.size(); ++i) {
    out.push_back((means[i].value + means[i + 1].value) / 2);
  }
  return out;
}

}  // namespace kinds::pile
