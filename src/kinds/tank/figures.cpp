#include "kinds/tank/figures.h"

#include <fmt/format.h>

#include "kinds/finding.h"
#include "kinds/tank/says.h"
#include "kinds/tank/study.h"
#include "kinds/tank/vocabulary.h"
#include "kinds/thresholds.h"
#include "science/weather/rain.h"

namespace kinds::tank {
namespace {

using measure::Fraction;
using measure::Litres;
using measure::Metres;

struct Adder {
  std::vector<model::Measure>& into;

  template <class T>
  void operator()(std::string_view key, std::string_view name, T value, std::string basis,
                  measure::ShownIn shown_in = kWater) const {
    if (value <= T{0}) return;
    into.push_back({"tank." + std::string(key),
                    std::string(name),
                    {"", measure::value_of(value), "", shown_in},
                    std::move(basis)});
  }
};

// What overflowed, by a run from level to level: each level sets it right again.
Litres spilt(const Study& study) {
  Litres sum;
  const auto& all = study.levels();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool is_last = i + 1 == all.size();
    sum += expected_from(all[i], is_last ? study.history().now : all[i + 1].at, study).spilt;
  }
  return sum;
}

// What the first-flush pipe leaves of the roof's dirt, before the tank takes in.
void add_flush(const Study& study, const Roof& roof, const Adder& add) {
  const auto told = flush_of(study.history().batch);
  const Fraction wanted = study.rules()(thresholds::tank::flush_left);
  if (!told || roof.usual <= Fraction{0} || wanted <= Fraction{0}) return;
  const measure::Printer print = study.print();
  const Metres depth = science::flush_depth(*told, roof.area, roof.usual);
  const Fraction left = science::dirt_left_after(depth);
  std::string basis = fmt::format("by the {} of the pipe; it halves with each mm of rain",
                                  water_words(*told, print));
  if (left > wanted) {
    const Litres needed =
        science::roof_catch(roof.area, science::rain_until_dirt_left(wanted), roof.usual);
    basis += fmt::format("; {} would leave {}", water_words(needed, print), print(wanted));
  }
  add("flush_left", "dirt the first flush leaves", left, std::move(basis), {});
}

}  // namespace

std::vector<model::Measure> figures_of(const Study& study) {
  std::vector<model::Measure> made;
  const Adder add{made};
  const model::History& history = study.history();
  const auto& roof = study.roof();
  Metres rain;
  Litres came;
  for (const RainDay& day : study.rain()) {
    rain += day.rain;
    if (roof) came += caught(day, *roof, roof->usual);
  }
  add("rain", "rain", rain,
      fmt::format("{} with rain logged", days_words(static_cast<int>(study.rain().size()))),
      kRainDepth);
  const measure::Printer print = study.print();
  if (roof) {
    add("caught", "ran off the roof", came,
        fmt::format("estimate: {} to {} of the rain runs off, {} taken{}", print(roof->least),
                    print(roof->most), print(roof->usual),
                    history.batch.number(kFlush) ? "; less the first flush" : ""));
    add_flush(study, *roof, add);
  }
  if (study.capacity() && !study.levels().empty()) {
    add("spilt", "spilt", spilt(study), "estimate by rain, draws and levels");
  }
  Litres drawn, added;
  for (const model::Movement& movement : history.out) drawn += water_of(movement);
  for (const model::Movement& movement : history.in) added += water_of(movement);
  add("drawn", "drawn", drawn, "");
  add("added", "added from elsewhere", added, "");
  add("replaced", "mains water replaced", drawn - added, "what was drawn less what was added");
  return made;
}

}  // namespace kinds::tank
