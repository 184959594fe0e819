#include "kinds/digester/gas.h"

#include <algorithm>
#include <map>

#include "kinds/digester/vocabulary.h"
#include "kinds/thresholds.h"
#include "science/gas/gas.h"
#include "science/gas/gas_use.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Celsius;
using measure::Kilopascals;
using measure::Litres;
using model::Day;
using model::DayRoll;
using science::Hours;
using science::LitresPerHour;

struct Metered {
  Day from, to;
  Litres volume;
};

// A counter's differences. Where it went back it was changed or wound on: that stretch is not
// counted.
std::vector<Metered> by_counter(const model::Series& meter) {
  std::vector<Metered> spans;
  for (std::size_t i = 1; i < meter.days.size(); ++i) {
    const DayRoll& before = meter.days[i - 1];
    const DayRoll& now = meter.days[i];
    if (now.last < before.last) continue;
    spans.push_back({before.day, now.day, Litres{now.last - before.last}});
  }
  return spans;
}

// Volumes since the reading before.
std::vector<Metered> by_volume(const std::vector<DayRoll>& days) {
  std::vector<Metered> spans;
  for (std::size_t i = 0; i < days.size(); ++i) {
    spans.push_back({i == 0 ? days[i].day : days[i - 1].day, days[i].day, Litres{days[i].total}});
  }
  return spans;
}

std::optional<double> mean_by(const std::vector<DayRoll>& days, Day day) {
  const DayRoll* found = nullptr;
  for (const DayRoll& roll : days) {
    if (roll.day <= day) found = &roll;
  }
  if (found == nullptr) return std::nullopt;
  return found->mean();
}

// What is known of the gas on a day, and in what words.
class States {
 public:
  explicit States(const model::History& history)
      : gas_(model::pooled_days(history.all(kGasTemperature))),
        air_(model::pooled_days(history.all(kAir))),
        slurry_(model::pooled_days(history.all(kTemperature))),
        gauge_(model::pooled_days(history.all(kGasPressure))) {
    const auto* barometer = history.find(kBarometer);
    const auto altitude = history.batch.number(kAltitude);
    const auto pressure =
        altitude ? science::station_pressure(measure::Metres{altitude->si}) : std::nullopt;
    const bool is_read = barometer != nullptr && barometer->last;
    barometric_ = is_read ? Kilopascals{barometer->last->value}
                          : pressure.value_or(science::kStandardPressure);
    basis_ = is_read    ? "air pressure as read last"
             : pressure ? "air pressure by its altitude"
                        : "air pressure of sea level, no altitude said";
    basis_ += !gas_.empty()      ? ", gas temperature as read"
              : !air_.empty()    ? ", gas as warm as the air"
              : !slurry_.empty() ? ", gas as warm as the slurry"
                                 : "; no temperature was read, so not counted";
    basis_ += gauge_.empty() ? ", no gas pressure read" : ", gas pressure as read";
    basis_ += ", saturated with water";
  }

  std::optional<science::GasState> on(Day day) const {
    for (const auto* days : {&gas_, &air_, &slurry_}) {
      if (const auto warmth = mean_by(*days, day)) {
        return science::GasState{.temperature = Celsius{*warmth},
                                 .barometric = barometric_,
                                 .gauge = Kilopascals{mean_by(gauge_, day).value_or(0)}};
      }
    }
    return std::nullopt;
  }
  const std::string& basis() const { return basis_; }

 private:
  std::vector<DayRoll> gas_, air_, slurry_, gauge_;
  Kilopascals barometric_;
  std::string basis_;
};

LitresPerHour burner_of(const model::History& history, const model::Rules& rules) {
  const auto said = history.batch.number(kBurner);
  return LitresPerHour{said ? said->si : rules(limits::gas_burner).value};
}

}  // namespace

Gas gas_of(const model::History& history) {
  const model::Series* meter = history.find(kMeter);
  const auto metered = meter != nullptr && meter->days.size() > 1
                           ? by_counter(*meter)
                           : by_volume(model::pooled_days(history.all(kGas)));
  const States states(history);
  Gas gas;
  gas.basis = states.basis();
  for (const Metered& one : metered) {
    gas.metered += one.volume;
    const auto state = states.on(one.to);
    const auto normal = state ? science::normal_volume(one.volume, *state) : std::nullopt;
    if (!normal) continue;
    gas.normal += *normal;
    gas.spans.push_back({one.from, one.to, one.volume, *normal});
  }
  return gas;
}

std::optional<GasRate> gas_rate(const Gas& gas, Day from, Day to) {
  std::optional<GasRate> rate;
  science::NormalLitres sum;
  Litres metered;
  int days = 0;
  for (const GasSpan& span : gas.spans) {
    if (span.from < from || span.to > to || span.from == span.to) continue;
    if (!rate) rate = GasRate{span.from, span.to, {}, {}};
    rate->to = span.to;
    sum += span.normal;
    metered += span.metered;
    days += (span.to - span.from).count();
  }
  if (!rate) return std::nullopt;
  rate->a_day = sum / days;
  rate->metered_a_day = metered / days;
  return rate;
}

measure::Fraction methane_share(const model::History& history, const model::Rules& rules) {
  const model::Series* read = history.find(kMethane);
  if (read != nullptr && read->last && read->last->value > 0)
    return measure::Fraction{read->last->value};
  return rules(limits::gas_methane);
}

GasUse gas_use_of(const model::History& history, const model::Rules& rules) {
  const LitresPerHour rating = burner_of(history, rules);
  std::map<Day, Litres> carried, burned;
  GasUse use;
  for (const model::Movement& movement : history.out) {
    if (!is_burned(movement)) continue;
    carried[movement.day] += movement.volume().value_or(Litres{});
  }
  for (const DayRoll& roll : model::pooled_days(history.all(kCooking))) {
    const Hours hours{roll.total * 24};
    use.flame += hours;
    burned[roll.day] += science::burner_gas(hours, rating).value_or(Litres{});
  }
  for (const auto& [day, litres] : burned) carried[day] = std::max(carried[day], litres);
  for (const auto& [day, litres] : carried) use.gas += litres;
  use.basis =
      history.batch.number(kBurner) ? "by the burner's rating" : "by a stove's usual rating";
  if (use.flame.value <= 0) use.flame = science::burner_hours(use.gas, rating).value_or(Hours{});
  return use;
}

}  // namespace kinds::digester
