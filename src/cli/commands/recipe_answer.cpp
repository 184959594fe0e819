#include "cli/commands/recipe_answer.h"

#include <fmt/format.h>

#include <cmath>
#include <ostream>

#include "kinds/blend.h"
#include "measure/text.h"
#include "render/text.h"

namespace cli {
namespace {

using measure::Kilograms;
using science::MixOutcome;

std::string_view outcome_words(MixOutcome outcome) {
  switch (outcome) {
    case MixOutcome::Found:
      return "found";
    case MixOutcome::Partly:
      return "partly";
    case MixOutcome::Infeasible:
      return "infeasible";
    case MixOutcome::NothingAsked:
      return "nothing asked";
    case MixOutcome::Boundless:
      return "boundless";
    case MixOutcome::Unusable:
      return "unusable";
  }
  return "unusable";
}

std::string_view measure_words(science::MixMeasure measure) {
  switch (measure) {
    case science::MixMeasure::CToN:
      return "carbon to nitrogen";
    case science::MixMeasure::Moisture:
      return "moisture";
    case science::MixMeasure::BulkDensity:
      return "bulk density";
    case science::MixMeasure::TotalMass:
      return "total mass";
    case science::MixMeasure::TotalVolume:
      return "total volume";
  }
  return "carbon to nitrogen";
}

std::string value_words(science::MixMeasure measure, double value, const measure::Printer& print) {
  switch (measure) {
    case science::MixMeasure::CToN:
      return measure::print_number(value, 1) + ":1";
    case science::MixMeasure::Moisture:
      return print(measure::Fraction{value});
    case science::MixMeasure::BulkDensity:
      return density_words(value, print);
    case science::MixMeasure::TotalMass:
      return print(Kilograms{value});
    case science::MixMeasure::TotalVolume:
      return print(measure::Litres{value});
  }
  return "";
}

std::string obstacle_words(const science::MixObstacle& one, const measure::Printer& print) {
  std::string text =
      fmt::format("{} {} {}", measure_words(one.measure),
                  one.bound == science::Bound::AtLeast ? "of at least" : "of at most",
                  value_words(one.measure, one.limit.value, print));
  if (one.nearest)
    text +=
        fmt::format(" (the nearest is {})", value_words(one.measure, one.nearest->value, print));
  return text;
}

// The container in which the largest amount is a handful of loads.
const measure::Container* container_for(const season::Recipe& recipe, const Desk& desk) {
  double largest = 0;
  for (const auto& line : recipe.lines)
    largest = std::max(largest, line.volume.value_or(measure::Litres{}).value);
  const measure::Container* best = nullptr;
  for (const measure::Container& one : desk.containers()) {
    if (one.content.value <= 0 || largest / one.content.value > 60) continue;
    if (best == nullptr || one.content < best->content) best = &one;
  }
  return best;
}

std::string loads_words(const season::RecipeLine& line, const measure::Container& container) {
  if (!line.volume) return "";
  const double loads = line.volume->value / container.content.value;
  const double shown = loads < 3 ? std::round(loads * 4) / 4 : std::round(loads);
  const std::string number = shown == 0 ? "less than 1/4" : measure::print_number(shown, 2);
  return fmt::format("{} {}{}", number, container.name, shown > 1 ? "s" : "");
}

void print_lines(std::ostream& out, const season::Recipe& recipe, const Desk& desk,
                 std::size_t width) {
  const measure::Container* container = container_for(recipe, desk);
  render::Table table({{"", true}, {""}, {""}, {""}});
  for (const season::RecipeLine& line : recipe.lines) {
    std::string remark = line.bought ? "to buy" : "";
    if (line.left) remark = fmt::format("{} is left over", desk.print()(*line.left));
    const std::string volume = container != nullptr ? loads_words(line, *container)
                               : line.volume        ? desk.print()(*line.volume)
                                                    : "";
    table.add({desk.print()(line.mass), line.material, volume, remark});
  }
  out << table.text(width, 2);
}

void print_blend(std::ostream& out, const season::Recipe& recipe, const Desk& desk,
                 std::size_t width) {
  const science::Blend& blend = *recipe.blend;
  const measure::Printer& print = desk.print();
  std::string text = fmt::format("  makes {}", print(blend.mass));
  if (recipe.loose.empty() && blend.volume) {
    text += fmt::format(", {} before it settles, {}", print(*blend.volume),
                        density_words(blend.bulk_density->value, print));
  }
  out << render::wrapped(text + ": " + kinds::blend_words(blend, print), width, 4) << '\n';
  std::vector<std::string> nutrients;
  const auto add = [&](const char* name, const std::optional<science::ElementContent>& content) {
    if (content) nutrients.push_back(fmt::format("{} {}", print(content->mass), name));
  };
  add("nitrogen", blend.nitrogen);
  add("phosphorus (P)", blend.phosphorus);
  add("potassium (K)", blend.potassium);
  if (!nutrients.empty()) {
    out << render::wrapped(fmt::format("  holds about {}, by the materials' figures",
                                       measure::listed(nutrients, "and")),
                           width, 4)
        << '\n';
  }
  if (!recipe.loose.empty()) {
    out << render::wrapped(fmt::format("  bulk density is not judged: that of {} is not known",
                                       measure::listed(recipe.loose, "and")),
                           width, 4)
        << '\n';
  }
}

void print_parts(std::ostream& out, const season::Recipe& recipe, const Desk& desk,
                 std::size_t width) {
  if (!recipe.parts) return;
  const measure::Container* container = container_for(recipe, desk);
  std::string text = container != nullptr ? fmt::format("  in {}s: ", container->name)
                                          : std::string("  by volume: ");
  for (std::size_t i = 0; i < recipe.parts->parts.size(); ++i) {
    const auto& [name, count] = recipe.parts->parts[i];
    text += fmt::format("{}{} of {}", i == 0 ? "" : i == 1 ? " to " : " and ", count, name);
  }
  out << render::wrapped(fmt::format("{} (then {})", text,
                                     kinds::blend_words(recipe.parts->blend, desk.print())),
                         width, 4)
      << '\n';
}

void print_obstacles(std::ostream& out, const season::Recipe& recipe, const Desk& desk,
                     std::size_t width) {
  std::vector<std::string> conditions;
  for (const auto& one : recipe.obstacles) conditions.push_back(obstacle_words(one, desk.print()));
  const bool partly = recipe.outcome == MixOutcome::Partly;
  if (!conditions.empty()) {
    const std::string text = partly ? "what stands in the way of all of it: " : "cannot be met: ";
    out << render::wrapped(
               "  " + text + measure::listed(conditions, recipe.together ? "and" : "or"), width, 4)
        << '\n';
  }
  if (recipe.remedies.empty()) {
    out << "  no single material in this logbook would bring it there\n";
    return;
  }
  std::vector<std::string> additions;
  for (const auto& [name, mass] : recipe.remedies) {
    additions.push_back(fmt::format("{} of {}", desk.print()(mass), name));
    if (additions.size() == 3) break;
  }
  out << render::wrapped(fmt::format("  {} would {}", measure::listed(additions, "or"),
                                     partly ? "let all of it go in" : "make it so"),
                         width, 4)
      << '\n';
}

// Where an aim that the person set is missed, by how much, and what would bring it there.
void print_missed_aims(std::ostream& out, const season::Recipe& recipe,
                       const season::RecipeAsk& ask, const Desk& desk, std::size_t width) {
  if (!recipe.blend) return;
  constexpr double kNearRatio = 0.02;  // of the ratio asked for
  constexpr double kNearMoisture = 0.01;
  std::vector<std::string> missed;
  std::string remedy;
  if (ask.c_to_n && recipe.blend->c_to_n &&
      std::fabs(recipe.blend->c_to_n->value / ask.c_to_n->value - 1) > kNearRatio) {
    missed.push_back(fmt::format("{}:1 where {}:1 was asked for",
                                 measure::print_number(recipe.blend->c_to_n->value, 1),
                                 measure::print_number(ask.c_to_n->value, 1)));
    remedy =
        recipe.blend->c_to_n->value > ask.c_to_n->value ? "richer in nitrogen" : "richer in carbon";
  }
  if (ask.moisture &&
      std::fabs(recipe.blend->moisture.value - ask.moisture->value) > kNearMoisture) {
    missed.push_back(fmt::format("{} moisture where {} was asked for",
                                 desk.print()(recipe.blend->moisture),
                                 desk.print()(*ask.moisture)));
    // Water is always at hand: only too wet a mix misses it.
    remedy += remedy.empty() ? "drier" : " and drier";
  }
  if (missed.empty()) return;
  out << render::wrapped(
             fmt::format("  of these {}: {}; something {} would bring it there",
                         missed.size() > 1 ? "both cannot be had" : "that cannot be had",
                         measure::listed(missed, "and"), remedy),
             width, 4)
      << '\n';
}

}  // namespace

std::string density_words(double kilograms_per_cubic_metre, const measure::Printer& print) {
  if (print.system() == measure::UnitSystem::kMetric) {
    return fmt::format("{:.0f} kg/m3", kilograms_per_cubic_metre);
  }
  const double pounds =
      kilograms_per_cubic_metre / 1000 / measure::unit("lb").factor * measure::unit("yd3").factor;
  return fmt::format("{:.0f} lb/yd3", pounds);
}

std::string left_out_words(const season::Recipe& recipe) {
  std::vector<std::string> names;
  for (const season::RecipeMissing& one : recipe.missing) {
    names.push_back(fmt::format("{} ({} not known)", one.material, one.lacks));
  }
  return fmt::format(
      "{}; 'roundbook material \"{}\" moisture=60% nitrogen=2% cn=20' gives the figures, from a "
      "laboratory or a handbook",
      measure::listed(names, "and"), recipe.missing.front().material);
}

void print_recipe(Context& context, const Desk& desk, const season::Recipe& recipe,
                  const season::RecipeAsk& ask, const RecipeSetting& setting,
                  const model::Rules& rules) {
  std::ostream& out = context.out;
  const auto width = static_cast<std::size_t>(context.width);
  const kinds::MixRanges ranges = kinds::mix_ranges(rules);
  out << render::wrapped(
             fmt::format(
                 "for {}: {} to {} carbon to nitrogen, {} to {} moisture, aiming at {} and {}",
                 setting.what, measure::print_number(ranges.c_to_n.at_least->value, 1),
                 measure::print_number(ranges.c_to_n.at_most->value, 1),
                 desk.print()(*ranges.moisture.at_least), desk.print()(*ranges.moisture.at_most),
                 measure::print_number(ask.c_to_n.value_or(ranges.best_c_to_n).value, 1),
                 desk.print()(ask.moisture.value_or(ranges.best_moisture))),
             width, 2)
      << '\n';
  if (setting.from_the_book) {
    out << render::wrapped(
               "  no store is kept of raw materials, so these are the ones that went into this "
               "site's piles within a year, each in any amount",
               width, 4)
        << '\n';
  }
  if (!setting.not_counted.empty()) {
    out << render::wrapped(
               fmt::format("  without its {}, whose weight, moisture, carbon or nitrogen is "
                           "not known",
                           measure::listed(setting.not_counted, "and")),
               width, 4)
        << '\n';
  }
  if (!recipe.missing.empty()) {
    out << render::wrapped("  left out: " + left_out_words(recipe), width, 4) << '\n';
  }
  switch (recipe.outcome) {
    case MixOutcome::Found:
    case MixOutcome::Partly:
      if (recipe.lines.empty()) {
        out << "  nothing has to be added\n";
      } else {
        print_lines(out, recipe, desk, width);
      }
      print_blend(out, recipe, desk, width);
      print_missed_aims(out, recipe, ask, desk, width);
      print_parts(out, recipe, desk, width);
      if (recipe.outcome == MixOutcome::Partly) print_obstacles(out, recipe, desk, width);
      break;
    case MixOutcome::Infeasible:
      out << "  these materials do not make such a mix, whatever the amounts\n";
      print_obstacles(out, recipe, desk, width);
      break;
    case MixOutcome::NothingAsked:
      out << "  say an amount, like grounds=40kg, or --volume 1yd3\n";
      break;
    case MixOutcome::Boundless:
      out << "  say how much there is, like grounds=40kg, or --volume 1yd3\n";
      break;
    case MixOutcome::Unusable:
      out << "  a figure of these materials cannot be right; 'roundbook material NAME' shows "
             "them\n";
      break;
  }
}

render::Json json_of(const season::Recipe& recipe, const RecipeSetting& setting, const Desk& desk) {
  const auto number = [](const auto& value) {
    return value ? render::Json(value->value) : render::Json(nullptr);
  };
  render::Json json{{"for", setting.what},
                    {"outcome", std::string(outcome_words(recipe.outcome))},
                    {"materials", render::Json::array()},
                    {"blend", nullptr},
                    {"parts", render::Json::array()},
                    {"obstacles", render::Json::array()},
                    {"together", recipe.together},
                    {"remedies", render::Json::array()},
                    {"left_out", render::Json::array()},
                    {"not_counted", setting.not_counted},
                    {"without_bulk_density", recipe.loose}};
  for (const auto& one : recipe.missing) {
    json["left_out"].push_back({{"material", one.material}, {"lacks", one.lacks}});
  }
  for (const auto& line : recipe.lines) {
    json["materials"].push_back({{"material", line.material},
                                 {"kg", line.mass.value},
                                 {"shown", desk.print()(line.mass)},
                                 {"L", number(line.volume)},
                                 {"left_kg", number(line.left)},
                                 {"bought", line.bought}});
  }
  if (recipe.blend) {
    const bool judged = recipe.loose.empty();  // else its volume is that of some materials only
    const auto element = [](const auto& content) {
      return content ? render::Json(content->mass.value) : render::Json(nullptr);
    };
    json["blend"] = {{"kg", recipe.blend->mass.value},
                     {"moisture", recipe.blend->moisture.value},
                     {"cn", number(recipe.blend->c_to_n)},
                     {"L", judged ? number(recipe.blend->volume) : nullptr},
                     {"kg_per_m3", judged ? number(recipe.blend->bulk_density) : nullptr},
                     {"nitrogen_kg", element(recipe.blend->nitrogen)},
                     {"phosphorus_kg", element(recipe.blend->phosphorus)},
                     {"potassium_kg", element(recipe.blend->potassium)}};
  }
  if (recipe.parts) {
    for (const auto& [name, count] : recipe.parts->parts)
      json["parts"].push_back({{"material", name}, {"parts", count}});
  }
  for (const auto& one : recipe.obstacles) {
    json["obstacles"].push_back(
        {{"measure", std::string(measure_words(one.measure))},
         {"bound", one.bound == science::Bound::AtLeast ? "at least" : "at most"},
         {"limit", one.limit.value},
         {"nearest", number(one.nearest)}});
  }
  for (const auto& [name, mass] : recipe.remedies)
    json["remedies"].push_back({{"material", name}, {"kg", mass.value}});
  return json;
}

}  // namespace cli
