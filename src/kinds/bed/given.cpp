#include "kinds/bed/given.h"

#include <algorithm>
#include <map>

#include "kinds/available.h"
#include "kinds/bed/facts.h"
#include "kinds/bed/needs.h"
#include "kinds/bed/study.h"
#include "kinds/bed/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "model/material_groups.h"
#include "science/soil/crop_removal.h"

namespace kinds::bed {
namespace {

namespace limits = thresholds::bed;
using measure::Fraction;
using measure::Kilograms;
namespace group = model::group;
using model::Finding;
using model::Urgency;
using science::NutrientMass;

// The crop tables name crops in the singular: "carrots" is "carrot", "dry beans" "dry-bean".
std::optional<science::CropRemoval> removal_of(std::string crop) {
  std::replace(crop.begin(), crop.end(), ' ', '-');
  if (crop == "melons" || crop == "melon") crop = "muskmelon";
  if (auto found = science::find_crop_removal(crop)) return found;
  if (crop.ends_with('s')) crop.pop_back();
  return science::find_crop_removal(crop);
}

Kilograms known(const std::optional<Kilograms>& mass) {
  return mass.value_or(Kilograms{});
}

void note_missing(const model::Load& load, Missing& into) {
  if (!load.mass) {
    into.weight = true;
    return;
  }
  into.nitrogen = into.nitrogen || !load.nitrogen;
  into.phosphorus = into.phosphorus || !load.phosphorus;
  into.potassium = into.potassium || !load.potassium;
}

void add_load(const model::Movement& load, const model::Rules& rules, Given& into) {
  const model::Load holds = model::load_of(load);
  into.mass += known(holds.mass);
  into.volume += load.volume().value_or(measure::Litres{});
  const NutrientMass all{known(holds.nitrogen), known(holds.phosphorus), known(holds.potassium)};
  into.all = into.all + all;
  const double share = first_year_share(load.material, rules).value_or(Fraction{}).value;
  into.first_year =
      into.first_year + NutrientMass{all.nitrogen * share,
                                     all.phosphorus * rules(limits::available_phosphorus).value,
                                     all.potassium * rules(limits::available_potassium).value};
  const ShareRange range =
      first_year_range(load.material, rules).value_or(ShareRange{Fraction{share}, Fraction{share}});
  into.nitrogen_least += all.nitrogen * range.least.value;
  into.nitrogen_most += all.nitrogen * range.most.value;
  note_missing(holds, into.missing);
}

Finding against_need(std::string_view rule, model::Threshold<Fraction> limit, std::string_view name,
                     Kilograms given, Kilograms need, const Study& study) {
  Finding made = finding(rule, Urgency::kSoon, limit, study.rules());
  const Fraction share{given / need};
  made.job = kJobFeed;
  made.value = model::Measured{std::string(name), measure::value_of(share), ""};
  made.facts.set(kNutrient, std::string(name));
  made.facts.set(kGiven, given);
  made.facts.set(kWanted, need);
  made.facts.set(kLacking, need - given);
  made.facts.set(kShare, share);
  return made;
}

void judge_short(const NutrientMass& given, const NutrientMass& need, const Study& study,
                 std::vector<Finding>& into) {
  if (!(need.nitrogen.value > 0)) return;
  const Fraction share{given.nitrogen / need.nitrogen};
  if (share >= study.rules()(limits::short_below) ||
      study.history().last_deed(kPlanted) == nullptr) {
    return;
  }
  into.push_back(against_need(kRuleShort, limits::short_below, kNitrogen, given.nitrogen,
                              need.nitrogen, study));
  into.back().ends = {{.by = model::Ending::By::kAdding}};
}

void judge_over(const NutrientMass& given, const NutrientMass& need, const Study& study,
                std::vector<Finding>& into) {
  const auto judge = [&](std::string_view name, Kilograms of, Kilograms wanted,
                         model::Threshold<Fraction> most) {
    if (!(wanted.value > 0) || Fraction{of / wanted} <= study.rules()(most)) return;
    into.push_back(against_need(kRuleOver, most, name, of, wanted, study));
    into.back().ends = {{.by = model::Ending::By::kEndOfBatch}};
  };
  judge(kNitrogen, given.nitrogen, need.nitrogen, limits::over_nitrogen);
  judge(kPhosphorus, given.phosphorus, need.phosphorus, limits::over_phosphorus);
}

}  // namespace

namespace {

template <class Is>
std::vector<Given> given_where(const model::History& history, const model::Rules& rules, Is is) {
  std::map<std::string, Given> rows;
  for (const model::Movement& load : history.in) {
    if (load.material.group == group::kWater || load.material.group == group::kCrop) continue;
    if (!is(load)) continue;
    Given& row = rows[load.material.name];
    row.material = load.material.name;
    row.group = load.material.group;
    add_load(load, rules, row);
  }
  std::vector<Given> given;
  for (auto& [name, row] : rows) given.push_back(std::move(row));
  return given;
}

}  // namespace

std::vector<Given> given_to(const model::History& history, const model::Rules& rules) {
  return given_where(history, rules, [](const model::Movement&) { return true; });
}

std::optional<model::Measure::Range> nitrogen_range(const std::vector<Given>& given) {
  model::Measure::Range range;
  for (const Given& one : given) {
    range.low += one.nitrogen_least.value;
    range.high += one.nitrogen_most.value;
  }
  if (!(range.high > range.low)) return std::nullopt;
  return range;
}

std::optional<TookThePlace> took_the_place(const Study& study) {
  const auto own = given_where(study.history(), study.rules(),
                               [](const model::Movement& load) { return !load.from.empty(); });
  if (own.empty()) return std::nullopt;
  NutrientMass need;
  if (study.need()) {
    need = study.need()->nutrients;
  } else {
    const Taken taken = taken_from(study.history());
    if (!(taken.mass.value > 0)) return std::nullopt;
    need = taken.nutrients;
  }
  const NutrientMass gives = first_year_of(own);
  TookThePlace made{
      {std::min(gives.nitrogen, need.nitrogen), std::min(gives.phosphorus, need.phosphorus),
       std::min(gives.potassium, need.potassium)},
      {},
      {}};
  for (const Given& one : own) {
    made.nitrogen_least += one.nitrogen_least;
    made.nitrogen_most += one.nitrogen_most;
  }
  made.nitrogen_least = std::min(made.nitrogen_least, need.nitrogen);
  made.nitrogen_most = std::min(made.nitrogen_most, need.nitrogen);
  return made;
}

NutrientMass first_year_of(const std::vector<Given>& given) {
  NutrientMass sum;
  for (const Given& one : given) sum = sum + one.first_year;
  return sum;
}

Taken taken_from(const model::History& history) {
  Taken taken;
  const auto once = [](std::vector<std::string>& names, const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  for (const model::Movement& out : history.out) {
    if (out.material.group != group::kCrop) continue;
    const auto removal = removal_of(out.material.name);
    const auto mass = out.mass();
    if (!removal || !mass) {
      once(taken.left_out, out.material.name);
      continue;
    }
    taken.mass += *mass;
    taken.nutrients = taken.nutrients + science::removed_by_harvest(*mass, removal->content);
    once(taken.sources, std::string(removal->source));
  }
  return taken;
}

std::optional<Need> need_of(const model::History& history) {
  const auto area = area_of(history.batch);
  const std::string asked = history.batch.text(kNeeds, "");
  if (const auto rate = read_needs(asked); !asked.empty() && rate && area) {
    return Need{science::on_area(*rate, *area), true, {}};
  }
  const auto expected = history.batch.number(kExpected);
  const auto removal = removal_of(measure::folded(history.batch.text(kCrop, "")));
  if (!expected || !removal) return std::nullopt;
  const Kilograms harvest{expected->si};
  return Need{science::removed_by_harvest(harvest, removal->content), false, harvest};
}

std::optional<measure::SquareMetres> area_of(const model::Batch& batch) {
  const auto area = batch.number(kArea);
  if (!area || !(area->si > 0)) return std::nullopt;
  return measure::SquareMetres{area->si};
}

std::optional<CharInBed> char_in(const model::History& history, const model::Rules& rules) {
  const auto area = area_of(history.batch);
  measure::Litres volume;
  for (const auto* loads : {&history.earlier_in, &history.in}) {
    for (const model::Movement& load : *loads) {
      if (load.material.group == group::kChar) volume += load.volume().value_or(measure::Litres{});
    }
  }
  if (!area || !(volume.value > 0)) return std::nullopt;
  const auto share = science::char_share_by_volume(volume, *area, rules(limits::char_depth));
  if (!share) return std::nullopt;
  return CharInBed{volume, *share};
}

void judge_nutrients(const Study& study, std::vector<Finding>& into) {
  if (!study.need()) return;
  const NutrientMass given = first_year_of(study.given());
  judge_short(given, study.need()->nutrients, study, into);
  judge_over(given, study.need()->nutrients, study, into);
}

}  // namespace kinds::bed
