#include "kinds/brew/use.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "measure/text.h"
#include "science/soil/salinity.h"

namespace kinds::brew {
namespace {

namespace limits = thresholds::brew;
using measure::DecisiemensPerMetre;
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

std::string parts(double number) {
  return fmt::format("{} part{}", measure::print_number(number, 1), number == 1 ? "" : "s");
}

// A round area of about ten square metres, as a grower names one.
measure::SquareMetres plot(measure::UnitSystem units) {
  constexpr double kSquareFoot = 0.3048 * 0.3048;
  return measure::SquareMetres{units == measure::UnitSystem::kUs ? 100 * kSquareFoot : 10};
}

std::string risk_words(science::SaltRisk risk) {
  switch (risk) {
    case science::SaltRisk::none:
      return "no harm";
    case science::SaltRisk::slight_to_moderate:
      return "slight to moderate harm to sensitive crops";
    case science::SaltRisk::severe:
      return "severe harm";
  }
  return "";
}

std::optional<model::Progress> salt_line(const model::History& history, const model::Rules& rules,
                                         const BrewParts& mix) {
  const auto ec = latest(history, "ec");
  const auto share = science::brew_share(mix);
  if (!ec || !share) return std::nullopt;
  const science::SaltBands bands{rules(limits::salt_slight), rules(limits::salt_severe)};
  const DecisiemensPerMetre neat{*ec}, mixed{*ec * share->value};
  const measure::Printer print(history.units);
  return model::Progress{
      "salt",
      fmt::format(
          "undiluted {}, {} if poured all season; in this mix about {}, {} (the water's own "
          "salt comes on top)",
          print(neat), risk_words(science::salt_risk(neat, bands)), print(mixed),
          risk_words(science::salt_risk(mixed, bands))),
      std::nullopt, true};
}

// One watering of a plot, what it brings, and how many bring what a feeding should.
std::optional<model::Progress> plot_line(const model::History& history, const model::Rules& rules,
                                         const Contents& contents, const BrewParts& mix) {
  const auto held = nitrogen(history, contents);
  const measure::SquareMetres area = plot(history.units);
  const Litres watering{rules(limits::use_water).value * area.value};
  const auto pour = science::brew_portions(mix, watering);
  if (!held || !pour || held->content.value <= 0) return std::nullopt;
  const measure::Kilograms brings{pour->brew.value * held->content.value / 1e6};
  const measure::Kilograms wanted{rules(limits::use_nitrogen).value * area.value / 1000};
  const measure::Printer print(history.units);
  std::string says = fmt::format(
      "a watering of {} takes {}, {} of it brew, and brings about {} of nitrogen ({} {})",
      print(area), print(watering), print(pour->brew), print(brings),
      measure::Printer::labelled(std::round(held->content.value), "mg/L in the brew,"),
      held->measured ? "by the laboratory" : "estimated from what went in");
  const double waterings = std::round(wanted / brings);
  if (waterings > rules(limits::use_waterings).value) {
    says += fmt::format(
        "; it waters more than it feeds: {:.0f} of them would bring the {} of a "
        "light feeding",
        waterings, print(wanted));
  } else if (waterings > 1) {
    says +=
        fmt::format("; {:.0f} waterings bring the {} of a light feeding", waterings, print(wanted));
  }
  return model::Progress{"for a bed", std::move(says), std::nullopt, true};
}

std::string content_words(const char* symbol, std::optional<double> estimated,
                          std::optional<double> read) {
  return fmt::format("{} {} / {}", symbol,
                     estimated ? measure::print_number(std::round(*estimated), 0) : "?",
                     read ? measure::print_number(*read, 0) : "not analysed");
}

std::optional<double> concentration(measure::Kilograms mass, Litres liquid) {
  if (mass.value <= 0) return std::nullopt;
  const auto content = science::nutrient_concentration(mass, liquid);
  if (!content) return std::nullopt;
  return content->value;
}

std::string unknown_words(const Contents& contents) {
  if (contents.unknown.empty()) return "";
  return "not known and left out: " + measure::joined(contents.unknown, "; ");
}

Litres carried(const model::History& history, bool to_bed, bool to_batch) {
  Litres sum;
  for (const model::Movement& movement : history.out) {
    if (movement.to.empty() == to_batch || (to_batch && (movement.to_kind == "bed") != to_bed))
      continue;
    sum += movement.volume().value_or(Litres{});
  }
  return sum;
}

void add_nutrients(const model::History& history, const Contents& contents,
                   std::vector<model::Measure>& into) {
  struct Row {
    const char* name;
    measure::Kilograms dissolved;
  };
  const std::array rows{Row{"nitrogen", contents.dissolved.nitrogen},
                        Row{"phosphorus", contents.dissolved.phosphorus},
                        Row{"potassium", contents.dissolved.potassium}};
  const std::string gaps = unknown_words(contents);
  for (const Row& row : rows) {
    if (row.dissolved.value > 0) {
      into.push_back({fmt::format("brew.{}.estimated", row.name),
                      fmt::format("{} made, estimated", row.name),
                      {row.name, measure::value_of(row.dissolved), ""},
                      "what went in by its handbook figures, times the share that dissolves (rules "
                      "brew.extract)" +
                          (gaps.empty() ? "" : "; " + gaps)});
    }
    const auto read = latest(history, row.name);
    if (read && contents.liquid > Litres{0}) {
      const measure::Kilograms mass{*read * contents.liquid.value / 1e6};
      into.push_back({fmt::format("brew.{}.measured", row.name),
                      fmt::format("{} made, by the laboratory", row.name),
                      {row.name, measure::value_of(mass), ""},
                      "the latest analysis, taken for all that was made"});
    }
  }
}

// The EC, where it says of the brew as it is: read lately, and nothing went in since.
bool ec_is_of_now(const model::History& history, const model::Rules& rules) {
  const model::Series* ec = history.find("ec");
  if (ec == nullptr || !ec->last) return false;
  const double days = elapsed_days(ec->last->at, history.now);
  const bool changed = std::any_of(history.in.begin(), history.in.end(),
                                   [&](const auto& load) { return load.at > ec->last->at; });
  return days <= rules(limits::dilute_fresh).value && !changed;
}

std::string nitrogen_words(const Nitrogen& held) {
  return fmt::format("its nitrogen of {} {}",
                     measure::Printer::labelled(std::round(held.content.value), "mg/L"),
                     held.measured ? "by the laboratory" : "as estimated");
}

}  // namespace

Dilution dilution_of(const model::History& history, const model::Rules& rules,
                     const Contents& contents) {
  const measure::Printer print(history.units);
  const auto ec = latest(history, "ec");
  const auto held = nitrogen(history, contents);
  // Salt and nitrogen together say how strong it is; then custom asks for no more water than they.
  const bool is_known =
      ec && held && ec_is_of_now(history, rules) && (held->measured || contents.all_nitrogen_known);
  const auto by_nitrogen =
      held ? science::dilution_to_nitrogen(held->content,
                                           MilligramsPerLitre{rules(limits::dilute_nitrogen).value})
           : std::nullopt;
  Dilution best{{Number{1}, usual_water(contents.base, rules)},
                fmt::format("usual for {}{}", word(contents.base),
                            contents.base == Base::kEffluent ? "" : " brew")};
  if (is_known) {
    best = {{Number{1}, rules(limits::dilute_least)},
            fmt::format("weak by its EC of {} and {}", print(DecisiemensPerMetre{*ec}),
                        nitrogen_words(*held))};
  } else if (by_nitrogen && contents.all_nitrogen_known &&
             by_nitrogen->water * 2 < best.parts.water) {
    best.by += fmt::format("; {} asks for less, and its EC would tell", nitrogen_words(*held));
  }
  const auto ask = [&](const std::optional<BrewParts>& asked, const std::string& by) {
    if (!asked) return;
    // Rounded to the weaker side.
    const Number water{std::ceil(asked->water.value - 1e-9)};
    if (water <= best.parts.water) return;
    best = {{Number{1}, water}, by};
  };
  if (is_for_leaf(history.batch)) {
    ask(BrewParts{Number{1}, rules(limits::dilute_leaf)}, "least for leaves");
  }
  if (ec) {
    ask(science::dilution_to_ec(DecisiemensPerMetre{*ec}, rules(limits::dilute_ec)),
        fmt::format("by its EC of {}", print(DecisiemensPerMetre{*ec})));
  }
  ask(by_nitrogen, held ? "by " + nitrogen_words(*held) : "");
  return best;
}

std::string parts_words(const BrewParts& mix) {
  return fmt::format("{} of brew to {} of water", parts(mix.brew.value), parts(mix.water.value));
}

std::string dilution_words(const model::History& history, const model::Rules& rules,
                           const Contents& contents) {
  const Dilution dilution = dilution_of(history, rules, contents);
  return fmt::format("{} ({})", parts_words(dilution.parts), dilution.by);
}

std::string manure_caution(const model::Rules& rules, const Contents& contents) {
  const auto days = [&](const auto& rule) {
    return static_cast<int>(std::ceil(rules(rule).value));
  };
  return fmt::format(
      "It holds {} and counts as raw manure: brewing does not kill its germs. Never on leaves "
      "or on parts that are eaten; into the soil at least {} before a harvest that touches "
      "soil, {} before one that does not (7 CFR 205.203(c)). Gloves on, hands washed, tools "
      "kept apart.",
      contents.manure, days_words(days(limits::manure_contact)),
      days_words(days(limits::manure_apart)));
}

std::vector<model::Progress> use_lines(const model::History& history, const model::Rules& rules,
                                       const Contents& contents) {
  const Dilution dilution = dilution_of(history, rules, contents);
  const measure::Printer print(history.units);
  std::vector<model::Progress> lines{
      {"to pour", dilution_words(history, rules, contents), std::nullopt, true}};
  const Litres can{history.units == measure::UnitSystem::kUs ? 2 * 3.785411784 : 10};
  if (const auto pour = science::brew_portions(dilution.parts, can)) {
    lines.front().says += fmt::format(": in a can of {}, {} of brew and {} of water", print(can),
                                      print(pour->brew), print(pour->water));
  }
  if (auto line = plot_line(history, rules, contents, dilution.parts)) lines.push_back(*line);
  if (auto line = salt_line(history, rules, dilution.parts)) lines.push_back(*line);
  return lines;
}

std::vector<std::string> pouring_lines(const model::Movement& out, const model::History& history,
                                       const model::Rules& rules, const Contents& contents) {
  const Dilution dilution = dilution_of(history, rules, contents);
  const measure::Printer print(history.units);
  std::string pour = "pour it as " + dilution_words(history, rules, contents);
  if (const auto volume = out.volume()) {
    const Litres water{volume->value * dilution.parts.water.value / dilution.parts.brew.value};
    pour += fmt::format(": {} of brew and {} of water", print(*volume), print(water));
  }
  std::vector<std::string> lines{std::move(pour)};
  if (const auto salt = salt_line(history, rules, dilution.parts)) {
    lines.push_back("salt: " + salt->says);
  } else {
    lines.push_back("salt: not known, its EC was not read; read it before you pour on seedlings");
  }
  return lines;
}

std::optional<model::Load> load_of(const model::Movement& out, const model::History& history,
                                   const Contents& contents) {
  const auto volume = out.volume();
  if (!volume) return std::nullopt;
  const auto held = [&](std::string_view nutrient, measure::Kilograms dissolved) {
    std::optional<measure::Kilograms> mass;
    const auto read = latest(history, nutrient);
    const auto content = read ? read : concentration(dissolved, contents.liquid);
    if (content) mass = measure::Kilograms{*content * volume->value / 1e6};
    return mass;
  };
  model::Load load;
  load.mass = out.mass();
  load.nitrogen = held("nitrogen", contents.dissolved.nitrogen);
  load.phosphorus = held("phosphorus", contents.dissolved.phosphorus);
  load.potassium = held("potassium", contents.dissolved.potassium);
  if (!load.nitrogen && !load.phosphorus && !load.potassium) return std::nullopt;
  load.basis =
      latest(history, "nitrogen") ? "by the laboratory" : "estimated from what went into the brew";
  return load;
}

model::Progress nutrient_line(const model::History& history, const Contents& contents) {
  const auto& made = contents.dissolved;
  std::string says = fmt::format("{}; {}; {}",
                                 content_words("N", concentration(made.nitrogen, contents.liquid),
                                               latest(history, "nitrogen")),
                                 content_words("P", concentration(made.phosphorus, contents.liquid),
                                               latest(history, "phosphorus")),
                                 content_words("K", concentration(made.potassium, contents.liquid),
                                               latest(history, "potassium")));
  const std::string gaps = unknown_words(contents);
  if (!gaps.empty()) says += "; " + gaps;
  return {"mg/L, estimated / analysed", says, std::nullopt, true};
}

std::vector<model::Measure> measures_of(const model::History& history, const Contents& contents,
                                        const Clock& clock) {
  std::vector<model::Measure> measures;
  const auto add = [&](std::string key, std::string name, measure::Value value, std::string basis) {
    measures.push_back({std::move(key), name, {name, value, ""}, std::move(basis)});
  };
  if (contents.liquid > Litres{0}) {
    add("brew.made", "liquid made", measure::value_of(contents.liquid), contents.liquid_basis);
  }
  add("brew.used", "liquid used", measure::value_of(contents.taken), "");
  const auto add_carried = [&](const char* key, const char* name, Litres litres) {
    if (litres > Litres{0}) add(key, name, measure::value_of(litres), "");
  };
  add_carried("brew.to_beds", "of it to beds", carried(history, true, true));
  add_carried("brew.to_batches", "of it to other batches", carried(history, false, true));
  add_carried("brew.away", "of it taken away", carried(history, false, false));
  add_nutrients(history, contents, measures);
  if (clock.full_on) {
    add("brew.days", "days until its time was full",
        measure::value_of(
            measure::Days{static_cast<double>(days_between(clock.from, *clock.full_on))}),
        clock.thermometer == Thermometer::kNone
            ? "no temperature was read"
            : fmt::format("{} of {} read", clock.measured, days_words(clock.counted())));
  }
  return measures;
}

}  // namespace kinds::brew
