#include "kinds/tank/measures.h"

#include "kinds/tank/water.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "science/weather/rain.h"

namespace kinds::tank {
namespace {

using measure::Fraction;
using measure::Litres;
using measure::Metres;

struct Adder {
  model::Assessment& into;

  template <class T>
  void operator()(std::string_view key, std::string_view name, T value, std::string basis,
                  measure::ShownIn shown_in = kWater) const {
    if (value <= T{0}) return;
    into.measures.push_back({"tank." + std::string(key),
                             std::string(name),
                             {"", measure::value_of(value), "", shown_in},
                             std::move(basis)});
  }
};

// What overflowed, by a run from level to level: each level sets it right again.
Litres spilt(const model::History& history, const model::Rules& rules) {
  Litres sum;
  const auto all = levels(history);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool is_last = i + 1 == all.size();
    sum += expected_from(all[i], is_last ? history.now : all[i + 1].at, history, rules).spilt;
  }
  return sum;
}

// What the first-flush pipe leaves of the roof's dirt, before the tank takes in.
void measure_flush(const model::History& history, const Roof& roof, const model::Rules& rules,
                   const Adder& add) {
  const auto told = history.batch.number("flush");
  const Fraction wanted = rules(thresholds::tank::flush_left);
  if (!told || told->si <= 0 || roof.usual <= Fraction{0} || wanted <= Fraction{0}) return;
  const measure::Printer print(history.units);
  const Metres depth = science::flush_depth(Litres{told->si}, roof.area, roof.usual);
  const Fraction left = science::dirt_left_after(depth);
  std::string basis =
      fmt::format("by the {} of the pipe; it halves with each mm of rain", print(*told, kWater));
  if (left > wanted) {
    const Litres needed =
        science::roof_catch(roof.area, science::rain_until_dirt_left(wanted), roof.usual);
    basis +=
        fmt::format("; {} would leave {}", print(measure::value_of(needed), kWater), print(wanted));
  }
  add("flush_left", "dirt the first flush leaves", left, std::move(basis), {});
}

}  // namespace

void measure_water(const model::History& history, const model::Rules& rules,
                   model::Assessment& into) {
  const Adder add{into};
  const auto roof = roof_of(history, rules);
  Metres rain;
  Litres came;
  const auto days = rain_days(history, rules);
  for (const RainDay& day : days) {
    rain += day.rain;
    if (roof) came += caught(day, *roof, roof->usual);
  }
  add("rain", "rain", rain,
      fmt::format("{} with rain logged", days_words(static_cast<int>(days.size()))), kRain);
  const measure::Printer print(history.units);
  if (roof) {
    add("caught", "ran off the roof", came,
        fmt::format("estimate: {} to {} of the rain runs off, {} taken{}", print(roof->least),
                    print(roof->most), print(roof->usual),
                    history.batch.number("flush") ? "; less the first flush" : ""));
  }
  if (roof) measure_flush(history, *roof, rules, add);
  if (capacity_of(history) && !levels(history).empty()) {
    add("spilt", "spilt", spilt(history, rules), "estimate by rain, draws and levels");
  }
  Litres drawn, added;
  for (const model::Movement& movement : history.out) drawn += water_of(movement);
  for (const model::Movement& movement : history.in) added += water_of(movement);
  add("drawn", "drawn", drawn, "");
  add("added", "added from elsewhere", added, "");
  add("replaced", "mains water replaced", drawn - added, "what was drawn less what was added");
}

}  // namespace kinds::tank
