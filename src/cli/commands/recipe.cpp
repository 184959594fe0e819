#include "season/recipe.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <set>

#include "cli/commands/recipe_answer.h"
#include "cli/desk/answer.h"
#include "cli/shell/commands.h"
#include "kinds/blend.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "model/material_groups.h"
#include "render/json.h"

namespace cli {
namespace {

using measure::Kilograms;
using measure::Mistake;

measure::Result<const model::Material*> material_named(std::string_view word, const Desk& desk) {
  if (const model::Material* found = desk.materials().find(word)) return found;
  return no_material(word, desk.materials());
}

// "40kg", "3 bucket" of a material, by weight.
measure::Result<Kilograms> amount_of(const std::string& typed, const model::Material& material,
                                     const Desk& desk) {
  const auto read = measure::parse_amount_then(typed, desk.containers());
  if (!read) return read.mistake();
  model::Movement moved;
  moved.material = material;
  moved.amount = read->amount.value;
  if (!read->rest.empty()) {
    return Mistake{typed, fmt::format("{} is not understood after {}", measure::quoted(read->rest),
                                      read->amount.typed)};
  }
  const auto mass = moved.mass();
  if (mass && mass->value > 0) return *mass;
  if (read->amount.value.dimension == measure::Dimension::kVolume && read->amount.value.si > 0) {
    return Mistake{
        typed, fmt::format("the bulk density of {0} is not known, so {1} cannot be weighed; give "
                           "its weight, or set it: 'roundbook material \"{0}\" bulk_density=...'",
                           material.name, typed)};
  }
  return Mistake{typed, fmt::format("{} is no amount to mix; write it like 40kg or '3 bucket'",
                                    measure::quoted(typed))};
}

// "grounds=40kg" (a waste), "straw=<20kg" (at hand), "leaves" (any amount).
measure::Result<season::RecipeOffer> offer_of(const std::string& word, const Desk& desk) {
  const std::size_t equals = word.find('=');
  const auto material = material_named(word.substr(0, equals), desk);
  if (!material) return material.mistake();
  season::RecipeOffer offer{**material, std::nullopt, false, false};
  if (equals == std::string::npos) return offer;
  std::string typed = word.substr(equals + 1);
  offer.use_up = !typed.starts_with('<');
  if (!offer.use_up) typed.erase(0, 1);
  if (typed.empty())
    return Mistake{word, fmt::format("{} lacks its amount", measure::quoted(word))};
  const auto mass = amount_of(typed, offer.material, desk);
  if (!mass) return mass.mistake();
  offer.at_most = *mass;
  return offer;
}

// Dead animals, meat, fish: never advised, whatever the figures say; ground meals are.
bool is_animal_matter(const model::Material& material) {
  return material.is("animal") && material.group != model::group::kMineral;
}

// Materials that went into the site's piles within a year, the commonest first.
std::vector<model::Material> usual(const Desk& desk) {
  std::vector<std::pair<int, model::Material>> counted;
  for (const model::Movement& one : book::movements(desk.logbook(), desk.materials(),
                                                    desk.now() - date::days{365}, desk.now())) {
    if (!kinds::has_role(one.to_kind, &kinds::Roles::composts)) continue;
    const auto found = std::find_if(counted.begin(), counted.end(), [&](const auto& other) {
      return other.second.name == one.material.name;
    });
    if (found == counted.end()) {
      counted.emplace_back(1, one.material);
    } else {
      ++found->first;
    }
  }
  std::stable_sort(counted.begin(), counted.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<model::Material> out;
  for (auto& [times, material] : counted) {
    if (!is_animal_matter(material)) out.push_back(std::move(material));
  }
  return out;
}

std::vector<model::Material> helpers(std::vector<model::Material> out, const Desk& desk) {
  for (const char* name :
       {"leaves", "straw", "wood chips", "coffee grounds", "grass clippings", "hen manure"}) {
    if (const model::Material* one = desk.materials().find(name)) out.push_back(*one);
  }
  std::set<std::string> seen;
  std::erase_if(
      out, [&](const auto& one) { return !seen.insert(one.name).second || one.is("forbidden"); });
  return out;
}

std::optional<Mistake> add_bought(const Arguments& arguments, const Desk& desk,
                                  season::RecipeAsk& ask) {
  const auto names = arguments.option("buy");
  if (!names) return std::nullopt;
  for (const std::string& name : measure::split(*names, ',')) {
    const auto material = material_named(name, desk);
    if (!material) return material.mistake();
    ask.offers.push_back({**material, std::nullopt, false, true});
  }
  return std::nullopt;
}

std::optional<Mistake> add_aims(const Arguments& arguments, const Desk& desk,
                                season::RecipeAsk& ask) {
  if (const auto typed = arguments.option("cn")) {
    const auto ratio = measure::parse_number(*typed);
    if (!ratio || *ratio <= 0) return Mistake{*typed, "--cn takes a ratio like 30"};
    ask.c_to_n = measure::Number{*ratio};
  }
  if (const auto typed = arguments.option("moisture")) {
    const auto share =
        measure::parse_value(*typed, measure::Dimension::kFraction, measure::unit("%"));
    if (!share || share->value.si <= 0 || share->value.si >= 1)
      return Mistake{*typed, "--moisture takes a share like 55%"};
    ask.moisture = measure::Fraction{share->value.si};
  }
  if (const auto typed = arguments.option("volume")) {
    const auto volume = measure::parse_value(
        *typed, measure::Dimension::kVolume,
        measure::usual_unit(measure::Dimension::kVolume, desk.print().system()), desk.containers());
    if (!volume) return volume.mistake();
    if (volume->value.si <= 0) return Mistake{*typed, "--volume takes a volume like 1yd3"};
    ask.volume = measure::Litres{volume->value.si};
  }
  return std::nullopt;
}

const kinds::Kind& composting() {
  return kinds::kind_with(&kinds::Roles::composts);
}

// The pile that the recipe adds to, where --for names one.
measure::Result<std::optional<model::Batch>> pile_of(const Arguments& arguments, const Desk& desk) {
  const std::string word = arguments.option("for").value_or("");
  if (word.empty() || measure::folded(word) == composting().name) {
    return std::optional<model::Batch>();
  }
  const auto batch = desk.open_batch(word, desk.now());
  if (!batch) return batch.mistake();
  if (!desk.kind(*batch).roles.composts) {
    return Mistake{word,
                   fmt::format("{} is a {}; a recipe is for a pile", batch->code, batch->kind)};
  }
  return std::optional(*batch);
}

std::optional<Mistake> banned(const season::RecipeAsk& ask, const model::Batch& batch,
                              const model::Rules& rules) {
  for (const season::RecipeOffer& one : ask.offers) {
    if (is_animal_matter(one.material)) {
      return Mistake{one.material.name,
                     fmt::format("no recipe is given for animal matter like {}: what may be done "
                                 "with it is for state and local law",
                                 one.material.name)};
    }
    const auto objection = composting().carrying.objects_to(one.material, batch, rules);
    if (objection && objection->refuses) {
      return Mistake{one.material.name, objection_text(*objection)};
    }
  }
  return std::nullopt;
}

}  // namespace

Outcome run_recipe(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const auto pile = pile_of(arguments, *desk);
  if (!pile) return pile.mistake();
  season::RecipeAsk ask;
  RecipeSetting setting{"a pile", {}, false};
  for (const std::string& word : arguments.words) {
    const auto offer = offer_of(word, *desk);
    if (!offer) return offer.mistake();
    ask.offers.push_back(*offer);
  }
  const std::vector<model::Material> used = usual(*desk);
  if (ask.offers.empty()) {
    for (const model::Material& one : used) ask.offers.push_back({one, std::nullopt, false, false});
    setting.from_the_book = true;
    if (ask.offers.empty()) {
      return Mistake{
          "",
          "say what is at hand, like recipe grounds=40kg leaves 'straw=<20kg'; nothing went into a "
          "pile of this site within a year that it could be taken from"};
    }
  }
  if (const auto mistake = add_bought(arguments, *desk, ask)) return *mistake;
  if (const auto mistake = add_aims(arguments, *desk, ask)) return *mistake;
  model::Batch batch;
  batch.kind = composting().name;
  if (*pile) {
    batch = **pile;
    const kinds::Inputs inputs = kinds::inputs_of(desk->history(batch));
    for (const science::Ingredient& one : inputs.ingredients) {
      if (season::has_figures(one)) ask.already.push_back(one);
    }
    setting.what = batch.code;
    setting.not_counted = inputs.unweighed;
    for (const std::string& name : inputs.lacking_c_to_n()) setting.not_counted.push_back(name);
  }
  const model::Rules rules = book::rules(desk->logbook(), batch);
  if (const auto mistake = banned(ask, batch, rules)) return *mistake;
  const bool amount_said =
      std::any_of(ask.offers.begin(), ask.offers.end(), [](const auto& one) { return one.use_up; });
  if (!ask.volume && !amount_said && ask.already.empty()) {
    ask.volume = rules(kinds::thresholds::pile::cold_small);
  }
  ask.helpers = helpers(used, *desk);
  const season::Recipe recipe = season::make_recipe(ask, rules);
  if (recipe.missing.size() == ask.offers.size() && ask.already.empty()) {
    return Mistake{recipe.missing.front().material,
                   fmt::format("no mix can be worked out from {}", left_out_words(recipe))};
  }
  if (context.json) {
    context.out << render::dumped(json_of(recipe, setting, *desk));
  } else {
    print_recipe(context, *desk, recipe, ask, setting, rules);
  }
  return kDone;
}

}  // namespace cli
