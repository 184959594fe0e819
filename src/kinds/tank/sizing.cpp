#include "kinds/tank/sizing.h"

#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/tank/study.h"
#include "kinds/thresholds.h"

namespace kinds::tank {
namespace {

namespace limits = thresholds::tank;
using measure::Litres;
using science::StoreRun;

constexpr double kDaysInYear = 365.25;
constexpr std::array kTimesItsSize{0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0};
constexpr std::array kDaysOfDemand{3.0, 7.0, 14.0, 30.0, 60.0, 90.0, 120.0, 180.0, 270.0, 365.0};

unsigned month_of(model::Day day) {
  return static_cast<unsigned>(date::year_month_day{day}.month()) - 1;
}

std::optional<Demand> demand_of(const Study& study) {
  const model::History& history = study.history();
  Demand demand;
  if (const auto wanted = wanted_a_day(history.batch)) {
    demand.by_month.fill(*wanted);
    demand.basis = DemandBasis::kByUses;
    return demand;
  }
  if (history.out.empty()) return std::nullopt;
  const model::Day first = history.out.front().day;
  if (days_between(first, history.today) + 1 < study.rules()(limits::size_least_days).value) {
    const auto& draw = study.draw();
    if (!draw) return std::nullopt;
    demand.by_month.fill(draw->a_day);
    demand.basis = DemandBasis::kPresentDraw;
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
  demand.basis = DemandBasis::kMonths;
  demand.since = first;
  return demand;
}

std::vector<science::StoreDay> days_of(const Study& study, const Demand& demand) {
  std::vector<science::StoreDay> days;
  const Roof& roof = *study.roof();
  auto wet = study.rain().begin();
  for (model::Day day = wet->day; day <= study.history().today; day += date::days{1}) {
    science::StoreDay one{{}, demand.by_month[month_of(day)]};
    if (wet != study.rain().end() && wet->day == day) {
      one.inflow = caught(*wet, roof, roof.usual);
      ++wet;
    }
    days.push_back(one);
  }
  return days;
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

// The last level that was read before that day was over.
std::optional<Level> level_by(model::Day day, const Study& study) {
  std::optional<Level> found;
  for (const Level& one : study.levels()) {
    if (one.day <= day) found = one;
  }
  return found;
}

int dry_days_of(const Study& study) {
  const auto capacity = study.capacity();
  const Litres empty = capacity ? *capacity * study.rules()(limits::level_slack).value : Litres{0};
  return static_cast<int>(std::count_if(study.levels().begin(), study.levels().end(),
                                        [&](const Level& one) { return one.held <= empty; }));
}

}  // namespace

double years_of(const Sizing& sizing) {
  return sizing.days / kDaysInYear;
}

Sizing sizing_of(const Study& study) {
  if (!study.roof()) return Sizing{.why_none = Unsized::kNoRoof};
  if (study.rain().empty()) return Sizing{.why_none = Unsized::kNoRain};
  const auto demand = demand_of(study);
  if (!demand) return Sizing{.why_none = Unsized::kNoDemand};
  const auto days = days_of(study, *demand);
  Sizing made{std::nullopt, *demand};
  made.days = static_cast<double>(days.size());
  for (const auto& day : days) made.a_day += day.demand;
  made.a_day = made.a_day / made.days;
  made.start = level_by(study.rain().front().day, study);
  if (demand->basis != DemandBasis::kByUses) made.dry_days = dry_days_of(study);
  const Litres at_first = made.start ? made.start->held : Litres{0};
  const auto run = [&](Litres size, science::StoreOrder order) {
    return science::run_store(days, size, std::min(at_first, size), order);
  };
  const auto capacity = study.capacity();
  constexpr auto kCautious = science::StoreOrder::kYieldAfterSpill;
  for (const Litres size : tried_sizes(capacity, made.a_day)) {
    const StoreRun at = run(size, kCautious);
    const Litres more = size * 0.05;
    const Litres gained = run(size + more, kCautious).supplied - at.supplied;
    made.sizes.push_back({size, capacity && size == *capacity, at, gained / more / years_of(made)});
  }
  if (capacity) made.rain_first = run(*capacity, science::StoreOrder::kYieldBeforeSpill);
  return made;
}

}  // namespace kinds::tank
