#include <algorithm>
#include <array>

#include "kinds/tank_measures.h"
#include "kinds/tank_water.h"
#include "kinds/thresholds.h"
#include "kinds/words.h"
#include "science/store.h"

namespace kinds::tank {
namespace {

namespace limits = thresholds::tank;
using measure::Fraction;
using measure::Litres;
using science::StoreRun;

constexpr double kDaysInYear = 365.25;
constexpr std::array kTimesItsSize{0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0};
constexpr std::array kDaysOfDemand{3.0, 7.0, 14.0, 30.0, 60.0, 90.0, 120.0, 180.0, 270.0, 365.0};

// What is wanted on each day: by the month's own draws where a year of them is on record, else the
// same every day.
struct Demand {
  std::array<Litres, 12> by_month{};
  std::string basis;
};

unsigned month_of(model::Day day) {
  return static_cast<unsigned>(date::year_month_day{day}.month()) - 1;
}

std::optional<Demand> demand_of(const model::History& history, const model::Rules& rules) {
  Demand demand;
  if (const auto wanted = wanted_a_day(history)) {
    demand.by_month.fill(*wanted);
    demand.basis = "the uses told";
    return demand;
  }
  if (history.out.empty()) return std::nullopt;
  const model::Day first = history.out.front().day;
  if (days_between(first, history.today) + 1 < rules(limits::size_least_days).value) {
    const auto draw = present_draw(history, rules);
    if (!draw) return std::nullopt;
    demand.by_month.fill(draw->a_day);
    demand.basis = draw->basis + ", the same all year";
    return demand;
  }
  std::array<double, 12> days{};
  for (model::Day day = first; day <= history.today; day += date::days{1}) ++days[month_of(day)];
  for (const model::Movement& movement : history.out) {
    demand.by_month[month_of(movement.day)] += water_of(movement);
  }
  for (std::size_t month = 0; month < 12; ++month) {
    if (days[month] > 0) demand.by_month[month] = demand.by_month[month] / days[month];
  }
  demand.basis =
      fmt::format("each month's own draws since {}", measure::day_words(first, history.today));
  return demand;
}

std::vector<science::StoreDay> days_of(const model::History& history, const Roof& roof,
                                       const std::vector<RainDay>& rain, const Demand& demand) {
  std::vector<science::StoreDay> days;
  auto wet = rain.begin();
  for (model::Day day = rain.front().day; day <= history.today; day += date::days{1}) {
    science::StoreDay one{{}, demand.by_month[month_of(day)]};
    if (wet != rain.end() && wet->day == day) {
      one.inflow = caught(*wet, roof, roof.usual);
      ++wet;
    }
    days.push_back(one);
  }
  return days;
}

struct Sized {
  Litres size{};
  StoreRun run;
  double a_litre_more{};  // litres a year that a litre added to it gives
};

std::vector<Sized> run_sizes(const std::vector<science::StoreDay>& days,
                             const std::vector<Litres>& sizes) {
  const double years = static_cast<double>(days.size()) / kDaysInYear;
  const auto run = [&](Litres size) {
    return science::run_store(days, size, Litres{0}, science::StoreOrder::kYieldAfterSpill);
  };
  std::vector<Sized> made;
  for (const Litres size : sizes) {
    const StoreRun at = run(size);
    const Litres more = size * 0.05;
    made.push_back({size, at, (run(size + more).supplied - at.supplied) / more / years});
  }
  return made;
}

model::Record empty_record(const model::History& history, std::string why) {
  return {history.batch.code + ", its size", {std::move(why)}, {}, {}, {}};
}

}  // namespace

model::Record sizing(const model::History& history, const model::Rules& rules) {
  const auto roof = roof_of(history, rules);
  const auto rain = rain_days(history, rules);
  if (!roof || rain.empty()) {
    return empty_record(history, !roof ? "the roof's area was not told at its start, so no catch "
                                         "can be reckoned"
                                       : "no rain is on record, so no size can be judged");
  }
  const auto demand = demand_of(history, rules);
  if (!demand) {
    return empty_record(history,
                        "nothing was drawn and no uses were told at its start, so no size can be "
                        "judged");
  }
  const measure::Printer print(history.units);
  const auto shown = [&](Litres litres) { return print(measure::value_of(litres), kWater); };
  const auto days = days_of(history, *roof, rain, *demand);
  const double years = static_cast<double>(days.size()) / kDaysInYear;
  std::vector<Litres> sizes;
  const auto capacity = capacity_of(history);
  Litres wanted;
  for (const auto& day : days) wanted += day.demand;
  const Litres a_day = wanted / static_cast<double>(days.size());
  if (capacity) {
    for (const double times : kTimesItsSize) sizes.push_back(*capacity * times);
  } else {
    for (const double many : kDaysOfDemand) sizes.push_back(a_day * many);
  }
  const auto sized = run_sizes(days, sizes);

  model::Record record;
  record.title = history.batch.code + ", its size";
  model::Record::Table table{
      "sizes",
      "by size; the last column is what one more of it gives a year",
      {"size", "water met", "days met", "given/year", "spilt/year",
       history.units == measure::UnitSystem::kUs ? "1 gal more" : "1 L more"},
      {}};
  model::Record::Picture picture{"share of the water wanted that each size gives", {}};
  for (const Sized& one : sized) {
    const bool own = capacity && one.size == *capacity;
    table.rows.push_back({shown(one.size) + (own ? " (this)" : ""), print(one.run.by_volume()),
                          print(one.run.by_days()), shown(one.run.supplied / years),
                          shown(one.run.spilt / years),
                          measure::print_number(one.a_litre_more, 1)});
    picture.bars.push_back(
        {shown(one.size), one.run.by_volume().value, print(one.run.by_volume())});
    if (own) {
      record.outcome.push_back(fmt::format(
          "{} met {} of the water wanted, and all of it on {} of {}; {}, had each day's rain come "
          "before its draws",
          shown(one.size), print(one.run.by_volume()), one.run.days_met,
          days_words(one.run.days_wanted),
          print(
              science::run_store(days, one.size, Litres{0}, science::StoreOrder::kYieldBeforeSpill)
                  .by_volume())));
    }
  }
  const double worth = rules(limits::size_worth).value;
  const auto past = std::find_if(sized.begin(), sized.end(),
                                 [&](const Sized& one) { return one.a_litre_more < worth; });
  if (past == sized.end()) {
    record.outcome.push_back(
        fmt::format("up to {} a larger tank is still worth it", shown(sized.back().size)));
  } else {
    record.outcome.push_back(
        fmt::format("past {} more tank buys little: there an added part is used {} times a year, "
                    "below {}",
                    shown(past->size), measure::print_number(past->a_litre_more, 1),
                    measure::print_number(worth, 1)));
  }
  if (static_cast<double>(days.size()) < rules(limits::size_least_days).value) {
    record.outcome.push_back(
        fmt::format("the rain record is {} long: a size judged from less than "
                    "a year misleads",
                    days_words(static_cast<int>(days.size()))));
  }
  record.outcome.emplace_back(kNotForDrinking);
  record.facts = {
      {"roof", fmt::format("{}, {} of the rain runs off ({} to {})", print(roof->area),
                           print(roof->usual), print(roof->least), print(roof->most))},
      {"rain", fmt::format("{} with rain logged from {} to {}; days without are taken as dry",
                           days_words(static_cast<int>(rain.size())),
                           measure::full_day_words(rain.front().day),
                           measure::full_day_words(history.today))},
      {"wanted", fmt::format("{} a day on the mean, by {}", shown(a_day), demand->basis)},
      {"how",
       "a day's water is taken from what stood there in the morning (yield after "
       "spillage); empty at first"}};
  record.tables.push_back(std::move(table));
  record.pictures.push_back(std::move(picture));
  return record;
}

}  // namespace kinds::tank
