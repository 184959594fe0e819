#include "tests/support/compost_heat.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>

namespace science {
namespace {

using measure::Celsius;
using measure::Days;
using measure::Fraction;
using measure::Kilograms;
using measure::KilowattHours;
using measure::Litres;
using measure::Number;
using measure::SquareMetres;

constexpr double kSecondsPerDay = 86400;
constexpr double kWaterHeat = 4.186;  // kJ/(kg K)
// Steps this short, in units of the pile's quickest response, follow it without overshoot.
constexpr double kStepOfResponse = 0.25;
constexpr double kQuickestPerDay = 5000;  // a response of about 17 s

bool within(double x, double low, double high) {
  return x >= low && x <= high;
}

bool within(const std::optional<Fraction>& x, double low, double high) {
  return !x || within(x->value, low, high);
}

bool is_in_range(const PileModel& p) {
  return std::isfinite(p.mass.value) && p.mass.value > 0 && within(p.moisture.value, 0, 1) &&
         std::isfinite(p.surface.value) && p.surface.value >= 0 &&
         within(p.degradable.value, 0, 1) && within(p.rate.value, 0, 1) &&
         within(p.megajoules_per_kilogram.value, 0, 30) && within(p.free_air_space, 0, 1) &&
         within(p.oxygen, 0, 0.21) && within(p.watts_per_square_metre_kelvin.value, 0, 20) &&
         within(p.evaporative_share.value, 0, 0.95) &&
         within(p.dry_kilojoules_per_kilogram_kelvin.value, 0.5, 4);
}

bool is_in_range(Celsius t) {
  return within(t.value, -60, 120);
}

// Of the public function below; here it is asked for millions of times.
inline double stombaugh_nokes(double t) {
  if (!(t > 0 && t < 85)) return 0;
  return std::min(std::min(t / 30, 1.0), (85 - t) / 30);
}

inline double temperature_factor(TemperatureResponse response, double t) {
  switch (response) {
    case TemperatureResponse::Haug:
      return haug_temperature_factor(Celsius{t}).value;
    case TemperatureResponse::Cardinal:
      return cardinal_temperature_factor(Celsius{t}).value;
    case TemperatureResponse::StombaughNokes:
      return stombaugh_nokes(t);
  }
  return 0;
}

// Not less than the factor's slope anywhere, per kelvin: all are steepest where heat ends them.
double steepest(TemperatureResponse response) {
  switch (response) {
    case TemperatureResponse::Haug:
      return 6;
    case TemperatureResponse::Cardinal:
      return 0.25;
    case TemperatureResponse::StombaughNokes:
      return 1.0 / 30;
  }
  return 0;
}

struct State {
  double temperature;  // degC
  double degradable;   // kg
};

State moved(const State& from, const State& by, double factor) {
  return {from.temperature + by.temperature * factor, from.degradable + by.degradable * factor};
}

// The balance in units of days.
class Balance {
 public:
  explicit Balance(const PileModel& p) : response_(p.response) {
    const double capacity = heat_capacity(p).value;
    rate_ = p.rate.value * haug_moisture_factor(p.moisture).value;
    if (p.free_air_space) rate_ *= haug_free_air_space_factor(*p.free_air_space).value;
    if (p.oxygen) rate_ *= oxygen_factor(*p.oxygen).value;
    kelvins_per_kilogram_ = p.megajoules_per_kilogram.value * 1000 / capacity;
    cooling_ = p.watts_per_square_metre_kelvin.value * p.surface.value * kSecondsPerDay /
               (1000 * capacity);
    warm_cooling_ = cooling_ / (1 - p.evaporative_share.value);
    degradable_ = p.mass.value * (1 - p.moisture.value) * p.degradable.value;
  }

  double degradable() const { return degradable_; }

  // Per day, no slower than anything that the pile does.
  double quickest() const {
    return warm_cooling_ + steepest(response_) * rate_ * degradable_ * kelvins_per_kilogram_;
  }

  State change(const State& s, double air) const {
    const double gone = rate_ * temperature_factor(response_, s.temperature) * s.degradable;
    const double above = s.temperature - air;
    return {gone * kelvins_per_kilogram_ - above * (above > 0 ? warm_cooling_ : cooling_), -gone};
  }

  State step(const State& s, double air, double days) const {
    const State a = change(s, air);
    const State b = change(moved(s, a, days / 2), air);
    const State c = change(moved(s, b, days / 2), air);
    const State d = change(moved(s, c, days), air);
    return moved(moved(moved(moved(s, a, days / 6), b, days / 3), c, days / 3), d, days / 6);
  }

 private:
  TemperatureResponse response_;
  double rate_;                  // at the response's own temperature, per day
  double kelvins_per_kilogram_;  // warming by a kilogram burnt
  double cooling_;               // per day
  double warm_cooling_;          // with evaporation
  double degradable_;            // kg
};

}  // namespace

Number haug_temperature_factor(Celsius temperature) {
  const double t = temperature.value;
  if (!(t > 0)) return Number{0};
  return Number{std::max(0.0, std::pow(1.066, t - 20) - std::pow(1.21, t - 60))};
}

Fraction haug_moisture_factor(Fraction moisture) {
  return Fraction{1 / (std::exp(-17.684 * moisture.value + 7.0622) + 1)};
}

Fraction haug_free_air_space_factor(Fraction free_air_space) {
  return Fraction{1 / (std::exp(-23.675 * free_air_space.value + 3.4945) + 1)};
}

Fraction oxygen_factor(Fraction oxygen) {
  if (!(oxygen.value > 0)) return Fraction{0};
  return Fraction{oxygen.value / (oxygen.value + 0.02)};
}

Fraction cardinal_temperature_factor(Celsius temperature, const CardinalTemperatures& cardinal) {
  const double t = temperature.value;
  const double least = cardinal.least.value;
  const double best = cardinal.best.value;
  const double most = cardinal.most.value;
  assert(most > best && best > (least + most) / 2);
  if (!(t > least && t < most)) return Fraction{0};
  const double above = (t - most) * (t - least) * (t - least);
  const double below =
      (best - least) * ((best - least) * (t - best) - (best - most) * (best + least - 2 * t));
  return Fraction{above / below};
}

Fraction stombaugh_nokes_factor(Celsius temperature) {
  return Fraction{stombaugh_nokes(temperature.value)};
}

SquareMetres cooling_surface(Litres volume, PileShape shape) {
  if (!(volume.value > 0)) return SquareMetres{0};
  const double cubic_metres = volume.value / 1000;
  constexpr double pi = std::numbers::pi;
  switch (shape) {
    case PileShape::Heap: {
      const double radius = std::cbrt(3 * cubic_metres / (2 * pi));
      return SquareMetres{2 * pi * radius * radius};
    }
    case PileShape::Box: {
      const double side = std::cbrt(cubic_metres);
      return SquareMetres{5 * side * side};
    }
    case PileShape::Drum: {
      const double radius = std::cbrt(cubic_metres / (2 * pi));
      return SquareMetres{6 * pi * radius * radius};
    }
  }
  return SquareMetres{0};
}

Number heat_capacity(const PileModel& p) {
  const double per_kilogram = p.moisture.value * kWaterHeat +
                              (1 - p.moisture.value) * p.dry_kilojoules_per_kilogram_kelvin.value;
  return Number{p.mass.value * per_kilogram};
}

std::vector<Celsius> simulate_pile(const PileModel& pile, Celsius start,
                                   std::span<const Celsius> ambient_daily, Days step) {
  if (!is_in_range(pile) || !is_in_range(start) || !(step.value > 0 && step.value <= 1) ||
      !std::ranges::all_of(ambient_daily, [](Celsius t) { return is_in_range(t); })) {
    return {};
  }
  const Balance balance{pile};
  if (!(balance.quickest() <= kQuickestPerDay)) return {};
  const double steps = std::ceil(std::max(1 / step.value, balance.quickest() / kStepOfResponse));
  const auto count = static_cast<std::int64_t>(steps);
  State state{start.value, balance.degradable()};
  std::vector<Celsius> daily_means;
  for (const Celsius air : ambient_daily) {
    double sum = 0;
    for (std::int64_t n = 0; n < count; ++n) {
      const double before = state.temperature;
      state = balance.step(state, air.value, 1 / steps);
      sum += (before + state.temperature) / 2;
    }
    daily_means.emplace_back(sum / steps);
  }
  return daily_means;
}

}  // namespace science
