#include <fmt/format.h>

#include <algorithm>

#include "kinds/caution.h"
#include "kinds/finding.h"
#include "kinds/tank/says.h"
#include "kinds/tank/sizing.h"
#include "kinds/tank/study.h"
#include "kinds/thresholds.h"

// What is said of a tank's size.
namespace kinds::tank {
namespace {

namespace limits = thresholds::tank;
using measure::Litres;
using measure::Printer;

std::string unsized_words(Unsized why) {
  switch (why) {
    case Unsized::kNoRoof:
      return "the roof's area was not given at the start, so the catch cannot be worked out";
    case Unsized::kNoRain:
      return "no rain is on record, so no size can be judged";
    case Unsized::kNoDemand:
      break;
  }
  return "nothing was drawn and no uses were given at its start, so no size can be judged";
}

std::string demand_words(const Demand& demand, const Study& study) {
  switch (demand.basis) {
    case DemandBasis::kByUses:
      return "the uses given";
    case DemandBasis::kMonths:
      return fmt::format("each month's own draws since {}",
                         measure::day_words(*demand.since, study.history().today));
    case DemandBasis::kPresentDraw:
      break;
  }
  const Draw& draw = *study.draw();
  return draw_words(draw.basis, draw.draws, draw.days) + ", the same all year";
}

void add_sizes(const Sizing& sizing, const Printer& print, model::Record& into) {
  const double years = years_of(sizing);
  model::Record::Table table{
      "sizes",
      "by size; the last column is what one more of it gives a year",
      {"size", "water met", "days met", "given/year", "spilt/year",
       print.system() == measure::UnitSystem::kUs ? "1 gal more" : "1 L more"},
      {}};
  model::Record::Picture picture{"share of the water wanted that each size gives", {}};
  for (const Sized& one : sizing.sizes) {
    const std::string size = water_words(one.size, print);
    table.rows.push_back({size + (one.is_own ? " (this)" : ""), print(one.run.by_volume()),
                          print(one.run.by_days()), water_words(one.run.supplied / years, print),
                          water_words(one.run.spilt / years, print),
                          measure::print_number(one.a_litre_more, 1)});
    picture.bars.push_back({size, one.run.by_volume().value, print(one.run.by_volume())});
  }
  into.tables.push_back(std::move(table));
  into.pictures.push_back(std::move(picture));
}

std::string own_words(const Sized& own, const Sizing& sizing, const Printer& print) {
  return fmt::format(
      "{} met {} of the water wanted, and all of it on {} of {}; {}, had each day's rain come "
      "before its draws",
      water_words(own.size, print), print(own.run.by_volume()), own.run.days_met,
      days_words(own.run.days_wanted), print(sizing.rain_first->by_volume()));
}

// Up to which size an added part is used often enough.
std::string worth_words(const std::vector<Sized>& sizes, double worth, const Printer& print) {
  const auto past = std::find_if(sizes.begin(), sizes.end(),
                                 [&](const Sized& one) { return one.a_litre_more < worth; });
  if (past == sizes.end()) {
    return fmt::format("up to {} a larger tank is still worth it",
                       water_words(sizes.back().size, print));
  }
  return fmt::format(
      "past {} more tank buys little: there an added part is used {} times a year, below {}",
      water_words(past->size, print), measure::print_number(past->a_litre_more, 1),
      measure::print_number(worth, 1));
}

// What it is taken to hold on the first day.
std::string start_words(const Sizing& sizing, const Study& study) {
  if (!sizing.start) return "taken as empty at first, as no level was read by then";
  return fmt::format("at first it holds {}, as read {}",
                     water_words(sizing.start->held, study.print()),
                     measure::full_day_words(sizing.start->day));
}

}  // namespace

model::Record sizing_record(const Sizing& sizing, const Study& study) {
  model::Record record;
  record.title = study.history().batch.code + ", its size";
  if (sizing.why_none) {
    record.outcome.push_back(unsized_words(*sizing.why_none));
    return record;
  }
  const Printer print = study.print();
  const model::Rules& rules = study.rules();
  add_sizes(sizing, print, record);
  for (const Sized& one : sizing.sizes) {
    if (one.is_own) record.outcome.push_back(own_words(one, sizing, print));
  }
  record.outcome.push_back(worth_words(sizing.sizes, rules(limits::size_worth).value, print));
  if (sizing.days < rules(limits::size_least_days).value) {
    record.outcome.push_back(
        fmt::format("the rain record is {} long: a size judged from less than a year misleads",
                    days_words(static_cast<int>(sizing.days))));
  }
  if (sizing.dry_days > 0) {
    record.outcome.push_back(
        fmt::format("it was read empty on {}: what was drawn is what there was, so at least so "
                    "much was wanted; "
                    "uses= tells what is",
                    days_words(sizing.dry_days)));
  }
  record.outcome.emplace_back(find_caution(kNotForDrinking)->full);
  const Roof& roof = *study.roof();
  const auto& rain = study.rain();
  record.facts = {
      {"roof", fmt::format("{}, {} of the rain runs off ({} to {})", print(roof.area),
                           print(roof.usual), print(roof.least), print(roof.most))},
      {"rain", fmt::format("{} with rain logged from {} to {}; days without are taken as dry",
                           days_words(static_cast<int>(rain.size())),
                           measure::full_day_words(rain.front().day),
                           measure::full_day_words(study.history().today))},
      {"wanted", fmt::format("{} a day on average, by {}", water_words(sizing.a_day, print),
                             demand_words(sizing.demand, study))},
      {"how",
       "a day's water is taken from what stood there in the morning (yield after spillage); " +
           start_words(sizing, study)}};
  return record;
}

}  // namespace kinds::tank
