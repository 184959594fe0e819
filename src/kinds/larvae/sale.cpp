#include "kinds/larvae/sale.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "kinds/thresholds.h"
#include "model/material_groups.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Celsius;
using measure::Days;
using measure::Fraction;
using model::Ending;
using model::Finding;
using model::Urgency;

// A minute typed as a share of a day must not fail by its last digit.
constexpr double kLastDigit = 1e-9;

std::optional<double> last_of(const model::History& history, std::string_view quantity) {
  const model::Series* series = history.find(quantity);
  if (series == nullptr || !series->last) return std::nullopt;
  return series->last->value;
}

Finding short_of(std::string_view rule, std::string_view case_of, auto threshold,
                 const model::Rules& rules, const Quantity& quantity) {
  Finding made = finding(rule, Urgency::kToday, threshold, rules);
  made.case_of = case_of;
  made.job = kJobSale;
  made.ends = {{.by = Ending::By::kReading, .name = std::string(quantity)}};
  return made;
}

// What was read of it, as its value and as a fact.
template <class T>
Finding with(Finding made, const Quantity& quantity, model::Fact<T> fact, T value) {
  made.value = model::Measured{std::string(quantity), measure::value_of(value), ""};
  made.facts.set(fact, value);
  return made;
}

// What was read of the frass against the EU's rule; the first that fails. None where all was shown.
std::optional<Finding> frass_fails(const model::History& history, const model::Rules& rules) {
  const auto heat = last_of(history, kFrassHeat);
  const auto held = last_of(history, kFrassHeld);
  if (!heat || !held)
    return short_of(kRuleFrass, kCaseNotHeated, limits::frass_heat, rules, kFrassHeat);
  if (Celsius{*heat + kLastDigit} < rules(limits::frass_heat)) {
    return with(short_of(kRuleFrass, kCaseTooCool, limits::frass_heat, rules, kFrassHeat),
                kFrassHeat, kRead, Celsius{*heat});
  }
  if (Days{*held + kLastDigit} < rules(limits::frass_held)) {
    return with(short_of(kRuleFrass, kCaseTooShort, limits::frass_held, rules, kFrassHeld),
                kFrassHeld, kHeld, Days{*held});
  }
  const auto weight = last_of(history, kDeadWeight);
  if (weight && Fraction{*weight - kLastDigit} > rules(limits::frass_dead_weight)) {
    return with(
        short_of(kRuleFrass, kCaseDeadWeight, limits::frass_dead_weight, rules, kDeadWeight),
        kDeadWeight, kDeadShare, Fraction{*weight});
  }
  const auto volume = last_of(history, kDeadVolume);
  if (volume && Fraction{*volume - kLastDigit} > rules(limits::frass_dead_volume)) {
    return with(
        short_of(kRuleFrass, kCaseDeadVolume, limits::frass_dead_volume, rules, kDeadVolume),
        kDeadVolume, kDeadShare, Fraction{*volume});
  }
  return std::nullopt;
}

bool frass_left(const model::History& history) {
  return std::any_of(history.out.begin(), history.out.end(), [](const model::Movement& movement) {
    return movement.to.empty() && movement.material.group == model::group::kFrass;
  });
}

}  // namespace

void judge_sale(const Study& study, std::vector<Finding>& into) {
  const model::History& history = study.history();
  const model::Rules& rules = study.rules();
  const Law law = law_of(history.batch, kLaw);
  if (law == Law::kEu && frass_left(history)) {
    if (auto made = frass_fails(history, rules)) into.push_back(std::move(*made));
  }
  const auto dried = last_of(history, kDriedMoisture);
  if (law == Law::kUs && dried && Fraction{*dried - kLastDigit} > rules(limits::dried_moisture)) {
    into.push_back(with(short_of(kRuleDried, "", limits::dried_moisture, rules, kDriedMoisture),
                        kDriedMoisture, kMoist, Fraction{*dried}));
  }
}

}  // namespace kinds::larvae
