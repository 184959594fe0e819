#pragma once

#include <string>
#include <vector>

#include "cli/desk/desk.h"
#include "render/json.h"
#include "season/recipe.h"

namespace cli {

struct RecipeSetting {
  std::string what;                      // "a pile", "heap-3"
  std::vector<std::string> not_counted;  // in the pile already, but its figures are not known
  bool from_the_book = false;            // the materials were taken from the site's own records
};

// A bulk density in the system's own unit: "560 lb/yd3", "332 kg/m3".
std::string density_words(double kilograms_per_cubic_metre, const measure::Printer& print);

// "fish meal (its carbon is not known) ...": what was left out, and how its figures are given.
std::string left_out_words(const season::Recipe& recipe);

void print_recipe(Context& context, const Desk& desk, const season::Recipe& recipe,
                  const season::RecipeAsk& ask, const RecipeSetting& setting,
                  const model::Rules& rules);

render::Json json_of(const season::Recipe& recipe, const RecipeSetting& setting, const Desk& desk);

}  // namespace cli
