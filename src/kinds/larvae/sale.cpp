#include "kinds/larvae/sale.h"

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::larvae {
namespace {

namespace limits = thresholds::larvae;
using measure::Celsius;
using measure::Days;
using measure::Fraction;
using model::Urgency;

std::optional<double> last_of(const model::History& history, std::string_view quantity) {
  const model::Series* series = history.find(quantity);
  if (series == nullptr || !series->last) return std::nullopt;
  return series->last->value;
}

std::string minutes(Days time) {
  return measure::print_number(time.value * 24 * 60, 1);
}

model::Told short_of(std::string_view rule, auto threshold, const model::Rules& rules,
                     std::string_view quantity, measure::Value value, std::string says) {
  model::Told made = finding(rule, Urgency::kToday, threshold, rules);
  made.value = model::Measured{std::string(quantity), value, ""};
  made.words.says = std::move(says);
  return made;
}

// What was read of the frass against the EU's rule; the first that fails. None where all was shown.
std::optional<model::Told> frass_fails(const model::History& history, const model::Rules& rules) {
  constexpr std::string_view kFrass = "larvae.frass";
  const measure::Printer print(history.units);
  const auto heat = last_of(history, "frass_heat");
  const auto held = last_of(history, "frass_held");
  if (!heat || !held) {
    model::Told made = finding(kFrass, Urgency::kToday, limits::frass_heat, rules);
    made.words.says = "frass went out, and no heating of it is logged";
    return made;
  }
  // A minute typed as a share of a day must not fail by its last digit.
  constexpr double kRounding = 1e-9;
  if (Celsius{*heat + kRounding} < rules(limits::frass_heat)) {
    return short_of(kFrass, limits::frass_heat, rules, "frass_heat",
                    measure::value_of(Celsius{*heat}),
                    fmt::format("frass was heated to {}, below {}", print(Celsius{*heat}),
                                print(rules(limits::frass_heat))));
  }
  if (Days{*held + kRounding} < rules(limits::frass_held)) {
    return short_of(kFrass, limits::frass_held, rules, "frass_held", measure::value_of(Days{*held}),
                    fmt::format("frass was held hot for {} minutes, less than {}",
                                minutes(Days{*held}), minutes(rules(limits::frass_held))));
  }
  const auto weight = last_of(history, "dead_weight");
  if (weight && Fraction{*weight - kRounding} > rules(limits::frass_dead_weight)) {
    return short_of(kFrass, limits::frass_dead_weight, rules, "dead_weight",
                    measure::value_of(Fraction{*weight}),
                    fmt::format("{} of the frass is dead insects by weight, more than {}",
                                print(Fraction{*weight}), print(rules(limits::frass_dead_weight))));
  }
  const auto volume = last_of(history, "dead_volume");
  if (volume && Fraction{*volume - kRounding} > rules(limits::frass_dead_volume)) {
    return short_of(kFrass, limits::frass_dead_volume, rules, "dead_volume",
                    measure::value_of(Fraction{*volume}),
                    fmt::format("{} of the frass is dead insects by volume, more than {}",
                                print(Fraction{*volume}), print(rules(limits::frass_dead_volume))));
  }
  return std::nullopt;
}

bool went_out(const model::History& history, auto matches) {
  return std::any_of(history.out.begin(), history.out.end(), [&](const model::Movement& movement) {
    return movement.to.empty() && matches(movement.material);
  });
}

}  // namespace

void judge_sale(const model::History& history, const model::Rules& rules, model::Assessment& into) {
  const std::string law = history.batch.text("law", "");
  if (law == "eu" && went_out(history, [](const auto& what) { return what.group == "frass"; })) {
    if (auto made = frass_fails(history, rules)) {
      made->words.why = fmt::format(
          "the EU asks for {} for {} minutes, and few dead insects, before frass is sold",
          measure::Printer(history.units)(rules(limits::frass_heat)),
          minutes(rules(limits::frass_held)));
      made->words.action = "heat it and log frass_heat and frass_held; hold it back until then";
      into.findings.push_back(std::move(*made));
    }
  }
  const auto dried = last_of(history, "dried_moisture");
  if (law == "us" && dried && Fraction{*dried - 1e-9} > rules(limits::dried_moisture)) {
    model::Told made = short_of("larvae.dried", limits::dried_moisture, rules, "dried_moisture",
                                measure::value_of(Fraction{*dried}), "");
    const measure::Printer print(history.units);
    made.words.says = fmt::format("the dried larvae hold {} water, more than {}",
                                  print(Fraction{*dried}), print(rules(limits::dried_moisture)));
    made.words.action = "dry them further before they are sold as feed";
    into.findings.push_back(std::move(made));
  }
}

}  // namespace kinds::larvae
