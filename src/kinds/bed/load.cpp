#include "kinds/bed/load.h"

#include "kinds/available.h"
#include "kinds/bed/study.h"
#include "kinds/thresholds.h"
#include "science/soil/nutrients.h"

namespace kinds::bed {
namespace {

namespace limits = thresholds::bed;
using measure::Kilograms;
using science::NutrientMass;

constexpr const char* kSymbolOfNitrogen = "N";

}  // namespace

std::vector<Wanted> wanted_before(const model::Movement& load, const Study& bed) {
  const model::Rules& rules = bed.rules();
  const auto area = area_of(bed.history().batch);
  const auto& need = bed.need();
  const model::Load holds = model::load_of(load);
  const auto share = first_year_share(load.material, rules);
  if (!area || !need || !share || !holds.mass || !(holds.mass->value > 0)) return {};
  const NutrientMass wanted = need->nutrients - first_year_of(bed.given());
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
  add(kSymbolOfNitrogen, need->nutrients.nitrogen, wanted.nitrogen, gives.nitrogen,
      rates.by_nitrogen);
  add("P", need->nutrients.phosphorus, wanted.phosphorus, gives.phosphorus, rates.by_phosphorus);
  add("K", need->nutrients.potassium, wanted.potassium, gives.potassium, rates.by_potassium);
  const auto range = first_year_range(load.material, rules);
  if (range && !rows.empty() && rows.front().symbol == kSymbolOfNitrogen) {
    const Kilograms all = holds.nitrogen.value_or(Kilograms{});
    rows.front().least = all * range->least.value;
    rows.front().most = all * range->most.value;
  }
  return rows;
}

}  // namespace kinds::bed
