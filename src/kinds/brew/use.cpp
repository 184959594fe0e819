#include "kinds/brew/use.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "kinds/brew/says.h"
#include "kinds/brew/study.h"
#include "kinds/brew/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;
using measure::DecisiemensPerMetre;
using measure::Kilograms;
using measure::Litres;
using measure::Number;
using science::BrewParts;
using science::MilligramsPerLitre;

Number usual_water(Base base, const model::Rules& rules) {
  switch (base) {
    case Base::kPlant:
      return rules(limits::dilute_plant);
    case Base::kManure:
      return rules(limits::dilute_manure);
    case Base::kFish:
      return rules(limits::dilute_fish);
    case Base::kFrass:
      return rules(limits::dilute_frass);
    case Base::kEffluent:
      return rules(limits::dilute_effluent);
  }
  return rules(limits::dilute_plant);
}

// A round area of about ten square metres, as a grower names one.
measure::SquareMetres plot(measure::UnitSystem units) {
  constexpr double kSquareFoot = 0.3048 * 0.3048;
  return measure::SquareMetres{units == measure::UnitSystem::kUs ? 100 * kSquareFoot : 10};
}

// The EC, where it says of the brew as it is: read lately, and nothing went in since.
bool ec_is_of_now(const model::History& history, const model::Rules& rules) {
  const model::Series* ec = history.find(kEc);
  if (ec == nullptr || !ec->last) return false;
  const double days = elapsed_days(ec->last->at, history.now);
  const bool changed = std::any_of(history.in.begin(), history.in.end(),
                                   [&](const auto& load) { return load.at > ec->last->at; });
  return days <= rules(limits::dilute_fresh).value && !changed;
}

// What was carried to such batches; none: taken away.
template <class Goes>
Litres carried(const model::History& history, const Goes& goes) {
  Litres sum;
  for (const model::Movement& one : history.out) {
    if (goes(one)) sum += one.volume().value_or(Litres{});
  }
  return sum;
}

struct Row {
  const Quantity& nutrient;
  Kilograms dissolved;
};
std::array<Row, 3> rows_of(const science::NutrientMass& made) {
  return {Row{kNitrogen, made.nitrogen}, Row{kPhosphorus, made.phosphorus},
          Row{kPotassium, made.potassium}};
}

void add_nutrients(const Study& study, std::vector<model::Measure>& into) {
  const Litres liquid = study.contents().liquid;
  for (const Row& row : rows_of(study.nutrients().dissolved)) {
    const std::string name(row.nutrient.name);
    if (row.dissolved.value > 0) {
      into.push_back({fmt::format("brew.{}.estimated", name),
                      estimated_words(name),
                      {name, measure::value_of(row.dissolved), ""},
                      estimate_basis(study.nutrients())});
      const double doubt = study.rules()(thresholds::brew::extract_doubt).value;
      into.back().range = {row.dissolved.value * (1 - doubt), row.dissolved.value * (1 + doubt)};
    }
    const auto read = latest(study.history(), row.nutrient);
    if (read && liquid > Litres{0}) {
      into.push_back({fmt::format("brew.{}.measured", name),
                      analysed_words(name),
                      {name, measure::value_of(Kilograms{*read * liquid.value / 1e6}), ""},
                      kAnalysisBasis});
    }
  }
}

}  // namespace

Dilution dilution_of(const Study& study) {
  const model::History& history = study.history();
  const model::Rules& rules = study.rules();
  const auto ec = latest(history, kEc);
  const auto held = study.nitrogen();
  const bool all_known = study.nutrients().all_nitrogen_known;
  const auto by_nitrogen =
      held ? science::dilution_to_nitrogen(held->content,
                                           MilligramsPerLitre{rules(limits::dilute_nitrogen).value})
           : std::nullopt;
  Dilution best{{Number{1}, usual_water(study.contents().base, rules)}};
  if (study.contents().sweetened && rules(limits::dilute_sugar) > best.parts.water) {
    best = {{Number{1}, rules(limits::dilute_sugar)}, ThinnedFor::kSugar};
  }
  // Salt and nitrogen together say how strong it is; then custom asks for no more water than they.
  if (ec && held && ec_is_of_now(history, rules) && (held->measured || all_known)) {
    best = {{Number{1}, rules(limits::dilute_least)}, ThinnedFor::kWeak};
  } else if (by_nitrogen && all_known && best.by == ThinnedFor::kCustom &&
             by_nitrogen->water * 2 < best.parts.water) {
    best.nitrogen_asks_less = true;
  }
  const auto ask = [&](const std::optional<BrewParts>& asked, ThinnedFor by) {
    if (!asked) return;
    // Rounded to the weaker side.
    const Number water{std::ceil(asked->water.value - 1e-9)};
    if (water > best.parts.water) best = {{Number{1}, water}, by};
  };
  if (is_for_leaf(history.batch))
    ask(BrewParts{Number{1}, rules(limits::dilute_leaf)}, ThinnedFor::kLeaves);
  if (ec)
    ask(science::dilution_to_ec(DecisiemensPerMetre{*ec}, rules(limits::dilute_ec)),
        ThinnedFor::kSalt);
  ask(by_nitrogen, ThinnedFor::kMuchNitrogen);
  return best;
}

std::optional<Salt> salt_of(const Study& study) {
  const auto ec = latest(study.history(), kEc);
  const auto share = science::brew_share(study.dilution().parts);
  if (!ec || !share) return std::nullopt;
  const science::SaltBands bands{study.rules()(limits::salt_slight),
                                 study.rules()(limits::salt_severe)};
  const DecisiemensPerMetre neat{*ec}, mixed{*ec * share->value};
  return Salt{neat, mixed, science::salt_risk(neat, bands), science::salt_risk(mixed, bands)};
}

std::optional<Watering> watering_of(const Study& study) {
  const auto held = study.nitrogen();
  Watering made{};
  made.area = plot(study.history().units);
  made.poured = Litres{study.rules()(limits::use_water).value * made.area.value};
  const auto portions = science::brew_portions(study.dilution().parts, made.poured);
  if (!held || !portions || held->content.value <= 0) return std::nullopt;
  made.brew = portions->brew;
  made.brings = Kilograms{portions->brew.value * held->content.value / 1e6};
  made.wanted = Kilograms{study.rules()(limits::use_nitrogen).value * made.area.value / 1000};
  made.waterings = std::round(made.wanted / made.brings);
  made.waters_more_than_it_feeds = made.waterings > study.rules()(limits::use_waterings).value;
  return made;
}

std::optional<double> concentration(Kilograms mass, Litres liquid) {
  if (mass.value <= 0) return std::nullopt;
  const auto content = science::nutrient_concentration(mass, liquid);
  return content ? std::optional(content->value) : std::nullopt;
}

std::optional<model::Load> load_of(const model::Movement& out, const Study& study) {
  const auto volume = out.volume();
  if (!volume) return std::nullopt;
  const auto held = [&](const Quantity& nutrient, Kilograms dissolved) {
    const auto read = latest(study.history(), nutrient);
    const auto content = read ? read : concentration(dissolved, study.contents().liquid);
    return content ? std::optional(Kilograms{*content * volume->value / 1e6}) : std::nullopt;
  };
  const science::NutrientMass& made = study.nutrients().dissolved;
  model::Load load;
  load.mass = out.mass();
  load.nitrogen = held(kNitrogen, made.nitrogen);
  load.phosphorus = held(kPhosphorus, made.phosphorus);
  load.potassium = held(kPotassium, made.potassium);
  if (!load.nitrogen && !load.phosphorus && !load.potassium) return std::nullopt;
  load.basis = load_basis(latest(study.history(), kNitrogen).has_value());
  return load;
}

std::vector<model::Measure> measures_of(const Study& study) {
  const Contents& contents = study.contents();
  const Clock& clock = study.clock();
  std::vector<model::Measure> measures;
  const auto add = [&](const char* key, const char* name, measure::Value value, std::string basis) {
    measures.push_back({key, name, {name, value, ""}, std::move(basis)});
  };
  if (contents.liquid > Litres{0}) {
    add("brew.made", "liquid made", measure::value_of(contents.liquid), liquid_basis(contents));
  }
  add("brew.used", "liquid used", measure::value_of(contents.taken), "");
  const auto add_carried = [&](const char* key, const char* name, const auto& goes) {
    const Litres litres = carried(study.history(), goes);
    if (litres > Litres{0}) add(key, name, measure::value_of(litres), "");
  };
  const auto to_ground = [](const auto& one) { return has_role(one.to_kind, &Roles::ground); };
  add_carried("brew.to_beds", "of it to beds", to_ground);
  add_carried("brew.to_batches", "of it to other batches",
              [&](const auto& one) { return !one.to.empty() && !to_ground(one); });
  add_carried("brew.away", "of it taken away", [](const auto& one) { return one.to.empty(); });
  add_nutrients(study, measures);
  if (clock.full_on) {
    const measure::Days days{static_cast<double>(days_between(clock.from, *clock.full_on))};
    add("brew.days", "days until its time was up", measure::value_of(days), days_basis(clock));
  }
  return measures;
}

}  // namespace kinds::brew
