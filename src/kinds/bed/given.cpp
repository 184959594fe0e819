#include "kinds/bed/given.h"

#include <algorithm>
#include <map>

#include "kinds/bed/needs.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"
#include "science/soil/crop_removal.h"

namespace kinds::bed {
namespace {

namespace limits = thresholds::bed;
using measure::Fraction;
using measure::Kilograms;
using model::Material;
using model::Urgency;
using science::NutrientMass;

// Fresh plants and meals give more the richer they are in nitrogen.
Fraction by_nitrogen(const Material& material, const model::Rules& rules) {
  const double percent = 100 * material.nitrogen().value_or(Fraction{}).value;
  const double share = rules(limits::available_green).value * (percent - 1) / 100;
  return Fraction{std::clamp(share, 0.0, rules(limits::available_most).value)};
}

Fraction of_manure(const Material& material, const model::Rules& rules) {
  if (material.is("treated")) return rules(limits::available_dried);
  if (material.is("liquid")) return rules(limits::available_slurry);
  const bool small = material.name.find("rabbit") != std::string::npos;
  if (material.is("poultry") || small) return rules(limits::available_poultry);
  if (material.name.starts_with("pig")) return rules(limits::available_pig);
  return rules(limits::available_manure);
}

// A laboratory's ammonium tells more than the kind of manure does.
std::optional<Fraction> by_ammonium(const Material& material, const model::Rules& rules) {
  const auto total = material.nitrogen();
  const auto ammonium = material.share(model::Property::kAmmonium);
  if (!total || !ammonium || !(total->value > 0)) return std::nullopt;
  // Of a tonne of dry mass.
  const science::ManureNitrogen manure{
      .total = science::KilogramsPerTonne{total->value * 1000},
      .ammonium = science::KilogramsPerTonne{ammonium->value * 1000}};
  const auto first_year =
      science::first_year_nitrogen(manure, {.organic_mineralised = rules(limits::available_organic),
                                            .ammonium_kept = rules(limits::available_ammonium)});
  if (!first_year) return std::nullopt;
  return Fraction{first_year->available / manure.total};
}

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

std::string missing_of(const model::Load& load) {
  if (!load.mass) return "its weight";
  std::vector<std::string> names;
  if (!load.nitrogen) names.emplace_back("N");
  if (!load.phosphorus) names.emplace_back("P");
  if (!load.potassium) names.emplace_back("K");
  return measure::joined(names, ", ");
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
  const std::string missing = missing_of(holds);
  if (!missing.empty()) into.left_out = missing;
}

std::string npk_words(const NutrientMass& mass, const measure::Printer& print) {
  return fmt::format("N {}, P {}, K {}", print(mass.nitrogen), print(mass.phosphorus),
                     print(mass.potassium));
}

// The same of what was given: what is nothing by the records is none, or not known of any of it.
std::string given_words(const NutrientMass& mass, const std::vector<Given>& given,
                        const measure::Printer& print) {
  const auto one = [&](const char* symbol, Kilograms of) {
    if (of.value > 0) return fmt::format("{} {}", symbol, print(of));
    const bool unknown = std::any_of(given.begin(), given.end(), [&](const Given& load) {
      return load.left_out.starts_with("its") || load.left_out.find(symbol) != std::string::npos;
    });
    return fmt::format("{} {}", symbol, unknown ? "not known" : "none");
  };
  return fmt::format("{}, {}, {}", one("N", mass.nitrogen), one("P", mass.phosphorus),
                     one("K", mass.potassium));
}

std::string left_out_words(const std::vector<Given>& given) {
  std::vector<std::string> names;
  for (const Given& one : given) {
    if (!one.left_out.empty()) names.push_back(fmt::format("{} ({})", one.material, one.left_out));
  }
  return names.empty() ? "" : "; not known and left out: " + measure::joined(names, "; ");
}

// "that 20 lb of carrots takes", "that the soil test asks for".
std::string need_words(const Need& need, const model::History& history) {
  if (need.by_soil_test) return "that the soil test asks for";
  return fmt::format("that {} of {} takes", measure::Printer(history.units)(need.harvest),
                     history.batch.text("crop", "crop"));
}

struct Against {
  const model::History& history;
  const model::Rules& rules;
  NutrientMass given;
  Need need;
  std::string left_out;
};

void judge_short(const Against& it, model::Assessment& into) {
  if (!(it.need.nutrients.nitrogen.value > 0)) return;
  const Fraction share{it.given.nitrogen / it.need.nutrients.nitrogen};
  if (share >= it.rules(limits::short_below) || !it.history.last_deed("planted")) return;
  const measure::Printer print(it.history.units);
  const Kilograms lacking = it.need.nutrients.nitrogen - it.given.nitrogen;
  model::Told made = finding("bed.short", Urgency::kSoon, limits::short_below, it.rules);
  made.value = model::Measured{"nitrogen", measure::value_of(share), ""};
  const std::string wanted = fmt::format("of the {} {}", print(it.need.nutrients.nitrogen),
                                         need_words(it.need, it.history));
  made.words.says =
      it.given.nitrogen.value > 0
          ? fmt::format("{} of nitrogen for this year's crop, {} {}: {} short",
                        print(it.given.nitrogen), print(share), wanted, print(lacking))
          : fmt::format("no nitrogen that the records know of for this year's crop, {}", wanted);
  made.words.why = "what the soil gives by itself is not in it" + it.left_out;
  made.words.action = "feed it little by little with a brew or frass, or have the soil tested first";
  into.findings.push_back(std::move(made));
}

void judge_over(const Against& it, model::Assessment& into) {
  struct Row {
    const char* name;
    Kilograms given, need;
    model::Threshold<Fraction> most;
    const char* why;
  };
  const std::array rows{
      Row{"nitrogen", it.given.nitrogen, it.need.nutrients.nitrogen, limits::over_nitrogen,
          "what is left over washes out with the winter rain"},
      Row{"phosphorus", it.given.phosphorus, it.need.nutrients.phosphorus, limits::over_phosphorus,
          "it builds up in the soil and runs off into streams"}};
  const measure::Printer print(it.history.units);
  for (const Row& row : rows) {
    if (!(row.need.value > 0)) continue;
    const Fraction share{row.given / row.need};
    if (share <= it.rules(row.most)) continue;
    model::Told made = finding("bed.over", Urgency::kSoon, row.most, it.rules);
    made.value = model::Measured{row.name, measure::value_of(share), ""};
    made.words.says =
        fmt::format("{} of {} for this year's crop, {} of the {} {}", print(row.given), row.name,
                    print(share), print(row.need), need_words(it.need, it.history));
    made.words.why = row.why;
    made.words.action = "put no more of it on, and have the soil tested before the next crop";
    into.findings.push_back(std::move(made));
  }
}

}  // namespace

std::optional<Fraction> first_year_share(const Material& material, const model::Rules& rules) {
  if (material.group == "brew") return rules(limits::available_brew);
  if (material.group == "effluent") {
    return material.is("liquid") ? rules(limits::available_effluent)
                                 : rules(limits::available_solids);
  }
  if (material.name == "mushroom compost") return rules(limits::available_mushroom);
  if (material.group == "compost") return rules(limits::available_compost);
  if (material.group == "frass") return rules(limits::available_frass);
  if (const auto analysed = by_ammonium(material, rules)) return analysed;
  if (material.group == "manure") return of_manure(material, rules);
  const bool plants = material.group == "green" || material.group == "food" ||
                      material.group == "feed" || material.group == "mineral";
  if (plants && material.nitrogen()) return by_nitrogen(material, rules);
  return std::nullopt;
}

std::vector<Given> given_to(const model::History& history, const model::Rules& rules) {
  std::map<std::string, Given> rows;
  for (const model::Movement& load : history.in) {
    if (load.material.group == "water" || load.material.group == "crop") continue;
    Given& row = rows[load.material.name];
    row.material = load.material.name;
    row.group = load.material.group;
    add_load(load, rules, row);
  }
  std::vector<Given> given;
  for (auto& [name, row] : rows) given.push_back(std::move(row));
  return given;
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
    if (out.material.group != "crop") continue;
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
  const std::string asked = history.batch.text("needs", "");
  if (const auto rate = read_needs(asked); !asked.empty() && rate && area) {
    return Need{science::on_area(*rate, *area), true, {}};
  }
  const auto expected = history.batch.number("expected");
  const auto removal = removal_of(measure::folded(history.batch.text("crop", "")));
  if (!expected || !removal) return std::nullopt;
  const Kilograms harvest{expected->si};
  return Need{science::removed_by_harvest(harvest, removal->content), false, harvest};
}

std::optional<measure::SquareMetres> area_of(const model::Batch& batch) {
  const auto area = batch.number("area");
  if (!area || !(area->si > 0)) return std::nullopt;
  return measure::SquareMetres{area->si};
}

std::optional<CharInBed> char_in(const model::History& history, const model::Rules& rules) {
  const auto area = area_of(history.batch);
  measure::Litres volume;
  for (const auto* loads : {&history.earlier_in, &history.in}) {
    for (const model::Movement& load : *loads) {
      if (load.material.group == "char") volume += load.volume().value_or(measure::Litres{});
    }
  }
  if (!area || !(volume.value > 0)) return std::nullopt;
  const auto share = science::char_share_by_volume(volume, *area, rules(limits::char_depth));
  if (!share) return std::nullopt;
  return CharInBed{volume, *share};
}

void judge_nutrients(const model::History& history, const model::Rules& rules,
                     model::Assessment& into) {
  const std::vector<Given> given = given_to(history, rules);
  const NutrientMass first_year = first_year_of(given);
  const measure::Printer print(history.units);
  const std::string left_out = left_out_words(given);
  if (!given.empty()) {
    into.progress.push_back({"for this year's crop",
                             given_words(first_year, given, print) + ", estimated" + left_out,
                             std::nullopt});
  }
  const auto need = need_of(history);
  if (!need) return;
  if (need->by_soil_test) {
    into.progress.push_back(
        {"the soil test asks for",
         fmt::format("{} on {}", npk_words(need->nutrients, print), print(*area_of(history.batch))),
         std::nullopt});
  } else {
    into.progress.push_back({"its harvest takes",
                             fmt::format("{} with the {} that is expected",
                                         npk_words(need->nutrients, print), print(need->harvest)),
                             std::nullopt});
  }
  const Against it{history, rules, first_year, *need, left_out};
  judge_short(it, into);
  judge_over(it, into);
}

}  // namespace kinds::bed
