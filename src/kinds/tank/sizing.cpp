#include <algorithm>
#include <array>

#include "kinds/tank/measures.h"
#include "kinds/tank/water.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "science/weather/store.h"

namespace kinds::tank {
namespace {

namespace limits = thresholds::tank;
using measure::Fraction;
using measure::Litres;
using measure::Printer;
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

// The sizes that are tried: about the tank's own, else by days of what is wanted.
std::vector<Litres> tried_sizes(const std::optional<Litres>& capacity, Litres a_day) {
  std::vector<Litres> sizes;
  if (capacity) {
    for (const double times : kTimesItsSize) sizes.push_back(*capacity * times);
  } else {
    for (const double many : kDaysOfDemand) sizes.push_back(a_day * many);
  }
  return sizes;
}

std::string size_words(Litres size, const Printer& print) {
  return print(measure::value_of(size), kWater);
}

void add_sizes(const std::vector<Sized>& sized, const std::optional<Litres>& capacity, double years,
               const Printer& print, model::Record& into) {
  model::Record::Table table{
      "sizes",
      "by size; the last column is what one more of it gives a year",
      {"size", "water met", "days met", "given/year", "spilt/year",
       print.system() == measure::UnitSystem::kUs ? "1 gal more" : "1 L more"},
      {}};
  model::Record::Picture picture{"share of the water wanted that each size gives", {}};
  for (const Sized& one : sized) {
    const bool own = capacity && one.size == *capacity;
    const std::string size = size_words(one.size, print);
    table.rows.push_back({size + (own ? " (this)" : ""), print(one.run.by_volume()),
                          print(one.run.by_days()), size_words(one.run.supplied / years, print),
                          size_words(one.run.spilt / years, print),
                          measure::print_number(one.a_litre_more, 1)});
    picture.bars.push_back({size, one.run.by_volume().value, print(one.run.by_volume())});
  }
  into.tables.push_back(std::move(table));
  into.pictures.push_back(std::move(picture));
}

std::string own_words(const Sized& own, const std::vector<science::StoreDay>& days,
                      const Printer& print) {
  const StoreRun rain_first =
      science::run_store(days, own.size, Litres{0}, science::StoreOrder::kYieldBeforeSpill);
  return fmt::format(
      "{} met {} of the water wanted, and all of it on {} of {}; {}, had each day's rain come "
      "before its draws",
      size_words(own.size, print), print(own.run.by_volume()), own.run.days_met,
      days_words(own.run.days_wanted), print(rain_first.by_volume()));
}

// Up to which size an added part is used often enough.
std::string worth_words(const std::vector<Sized>& sized, double worth, const Printer& print) {
  const auto past = std::find_if(sized.begin(), sized.end(),
                                 [&](const Sized& one) { return one.a_litre_more < worth; });
  if (past == sized.end()) {
    return fmt::format("up to {} a larger tank is still worth it",
                       size_words(sized.back().size, print));
  }
  return fmt::format(
      "past {} more tank buys little: there an added part is used {} times a year, below {}",
      size_words(past->size, print), measure::print_number(past->a_litre_more, 1),
      measure::print_number(worth, 1));
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
  const Printer print(history.units);
  const auto days = days_of(history, *roof, rain, *demand);
  Litres wanted;
  for (const auto& day : days) wanted += day.demand;
  const Litres a_day = wanted / static_cast<double>(days.size());
  const auto capacity = capacity_of(history);
  const auto sized = run_sizes(days, tried_sizes(capacity, a_day));

  model::Record record;
  record.title = history.batch.code + ", its size";
  add_sizes(sized, capacity, static_cast<double>(days.size()) / kDaysInYear, print, record);
  for (const Sized& one : sized) {
    if (capacity && one.size == *capacity) record.outcome.push_back(own_words(one, days, print));
  }
  record.outcome.push_back(worth_words(sized, rules(limits::size_worth).value, print));
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
      {"wanted",
       fmt::format("{} a day on the mean, by {}", size_words(a_day, print), demand->basis)},
      {"how",
       "a day's water is taken from what stood there in the morning (yield after "
       "spillage); empty at first"}};
  return record;
}

}  // namespace kinds::tank
