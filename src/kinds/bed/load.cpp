#include "kinds/bed/load.h"

#include <algorithm>

#include "kinds/bed/given.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"
#include "measure/unit.h"
#include "science/soil/nutrients.h"

namespace kinds::bed {
namespace {

namespace limits = thresholds::bed;
using measure::Fraction;
using measure::Kilograms;
using science::NutrientMass;

// "1.2 lb a 1,000 ft2", "6 g a m2": as growers' guides give it.
std::string density_words(Kilograms mass, measure::SquareMetres area, measure::UnitSystem units) {
  const double grams = mass.value * 1000 / area.value;
  if (units == measure::UnitSystem::kMetric) {
    return measure::Printer::labelled(std::round(grams * 10) / 10, "g") + " a m2";
  }
  const Kilograms on_thousand{grams / 1000 * measure::unit("ft2").to_base(1000)};
  return measure::Printer::labelled(measure::unit("lb").from_base(on_thousand.value), "lb") +
         " a 1,000 ft2";
}

// One nutrient of a load, against what the crop wanted of it before the load came.
struct Wanted {
  const char* symbol;
  Kilograms before;   // none or less: nothing
  Kilograms covered;  // by the load, for this year's crop
  double loads;       // so many of it would have met what was wanted

  bool was_wanted() const { return before.value > 0; }
  // To what such estimates are printed.
  bool is_met() const { return covered.value >= before.value * 0.995; }
};

// "N, P and K" of those for which `is` holds.
template <class Is>
std::string symbols(const std::vector<Wanted>& rows, Is is) {
  std::vector<std::string> names;
  for (const Wanted& one : rows) {
    if (is(one)) names.emplace_back(one.symbol);
  }
  return measure::listed(names, "and");
}

// "before it the crop wanted N 1.54 oz (11.7 gal of it), K 3.19 oz (4.28 gal of it); it covers 43 %
// of the N and all of the K; left to give: N 0.88 oz (6.7 gal of it)". Amounts of it are in the
// measure it was carried in.
std::string wanted_words(const std::vector<Wanted>& rows, measure::Value load,
                         const measure::Printer& print) {
  const auto is_met = [](const Wanted& one) { return one.is_met(); };
  const auto was_wanted = [](const Wanted& one) { return one.was_wanted(); };
  if (std::none_of(rows.begin(), rows.end(), was_wanted)) {
    return fmt::format("the crop wanted no more {} before it came: all of it is beyond the need",
                       symbols(rows, [](const Wanted&) { return true; }));
  }
  const auto amount = [&](const Wanted& one, Kilograms mass, double loads) {
    return fmt::format("{} {} ({} of it)", one.symbol, print(mass),
                       print(measure::Value{load.dimension, load.si * loads}));
  };
  std::vector<std::string> before, covers, left;
  for (const Wanted& one : rows) {
    if (!one.was_wanted()) {
      before.push_back(fmt::format("no more {}", one.symbol));
      continue;
    }
    before.push_back(amount(one, one.before, one.loads));
    if (one.is_met()) continue;
    covers.push_back(
        fmt::format("{} of the {}", print(Fraction{one.covered / one.before}), one.symbol));
    left.push_back(amount(one, one.before - one.covered, one.loads - 1));
  }
  const std::string met =
      symbols(rows, [&](const Wanted& one) { return one.was_wanted() && one.is_met(); });
  if (!met.empty()) covers.push_back("all of the " + met);
  std::string says = fmt::format("before it the crop wanted {}; it covers {}; ",
                                 measure::joined(before, ", "), measure::joined(covers, ", "));
  if (left.empty()) return says + "nothing is left to give";
  says += "left to give: " + measure::joined(left, ", ");
  const std::string beyond = symbols(rows, is_met);
  if (beyond.empty()) return says;
  return says + fmt::format("; more of it brings {} that the crop no longer wants", beyond);
}

}  // namespace

std::string brings_words(const model::Movement& load, const model::History& bed,
                         const model::Rules& rules) {
  const model::Load holds = model::load_of(load);
  if (!holds.nitrogen && !holds.phosphorus && !holds.potassium) return "";
  const measure::Printer print(bed.units);
  const auto amount = [&](const char* symbol, const std::optional<Kilograms>& mass) {
    return mass ? fmt::format("{} {}", symbol, print(*mass)) : fmt::format("{} not known", symbol);
  };
  std::string says = fmt::format("brings {}, {}, {}", amount("N", holds.nitrogen),
                                 amount("P", holds.phosphorus), amount("K", holds.potassium));
  if (const auto area = area_of(bed.batch)) {
    says += fmt::format(" on {}", print(*area));
    if (holds.nitrogen) says += ", N " + density_words(*holds.nitrogen, *area, bed.units);
  }
  if (const auto share = first_year_share(load.material, rules)) {
    says += fmt::format("; {} of its N for this year's crop", print(*share));
  }
  return says + (holds.basis.empty() ? " (by its material's figures)" : " (" + holds.basis + ")");
}

std::string rate_words(const model::Movement& load, const model::History& bed,
                       const model::Rules& rules) {
  const auto area = area_of(bed.batch);
  const auto need = need_of(bed);
  const model::Load holds = model::load_of(load);
  const auto share = first_year_share(load.material, rules);
  if (!area || !need || !share || !holds.mass || !(holds.mass->value > 0)) return "";
  const NutrientMass wanted = need->nutrients - first_year_of(given_to(bed, rules));
  const NutrientMass gives{
      holds.nitrogen.value_or(Kilograms{}) * share->value,
      holds.phosphorus.value_or(Kilograms{}) * rules(limits::available_phosphorus).value,
      holds.potassium.value_or(Kilograms{}) * rules(limits::available_potassium).value};
  const auto of_tonne = [&](Kilograms mass) {
    return science::KilogramsPerTonne{mass / *holds.mass * 1000};
  };
  const auto rates = science::application_rates(
      *science::spread_over(wanted, *area),
      {of_tonne(gives.nitrogen), of_tonne(gives.phosphorus), of_tonne(gives.potassium)});
  std::vector<Wanted> rows;
  const auto add = [&](const char* symbol, Kilograms asked, Kilograms before, Kilograms covered,
                       const std::optional<science::TonnesPerHectare>& rate) {
    if (!rate || !(asked.value > 0)) return;
    // A tonne a hectare is a tenth of a kilogram a square metre.
    rows.push_back({symbol, before, covered, rate->value / 10 * area->value / holds.mass->value});
  };
  add("N", need->nutrients.nitrogen, wanted.nitrogen, gives.nitrogen, rates.by_nitrogen);
  add("P", need->nutrients.phosphorus, wanted.phosphorus, gives.phosphorus, rates.by_phosphorus);
  add("K", need->nutrients.potassium, wanted.potassium, gives.potassium, rates.by_potassium);
  return rows.empty() ? "" : wanted_words(rows, load.amount, measure::Printer(bed.units));
}

}  // namespace kinds::bed
