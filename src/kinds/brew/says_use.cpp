#include <cmath>

#include "kinds/brew/says.h"
#include "kinds/brew/study.h"
#include "kinds/brew/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

namespace kinds::brew {
namespace {

using measure::Litres;

std::string parts_words(measure::Number number) {
  return fmt::format("{} part{}", measure::print_number(number.value, 1),
                     number.value == 1 ? "" : "s");
}

std::string content_words(double milligrams_per_litre, std::string_view then) {
  return measure::Printer::labelled(std::round(milligrams_per_litre), then);
}

std::string nitrogen_words(const Nitrogen& held) {
  return fmt::format("its nitrogen of {} {}", content_words(held.content.value, "mg/L"),
                     held.measured ? "by the laboratory" : "as estimated");
}

std::string ec_words(const Study& study) {
  return "its EC of " +
         study.print()(measure::DecisiemensPerMetre{latest(study.history(), kEc).value_or(0)});
}

// What asked for so much water.
std::string asked_by_words(const Study& study) {
  const Base base = study.contents().base;
  switch (study.dilution().by) {
    case ThinnedFor::kSugar:
      return "usual with sugar or molasses in it";
    case ThinnedFor::kWeak:
      return fmt::format("weak by {} and {}", ec_words(study), nitrogen_words(*study.nitrogen()));
    case ThinnedFor::kLeaves:
      return "least for leaves";
    case ThinnedFor::kSalt:
      return "by " + ec_words(study);
    case ThinnedFor::kMuchNitrogen:
      return "by " + nitrogen_words(*study.nitrogen());
    case ThinnedFor::kCustom:
      break;
  }
  std::string by =
      fmt::format("usual for {}{}", word(base), base == Base::kEffluent ? "" : " brew");
  if (!study.dilution().nitrogen_asks_less) return by;
  return by + fmt::format("; {} asks for less, and its EC would tell",
                          nitrogen_words(*study.nitrogen()));
}

std::string leaf_words(const Study& study) {
  const auto& rule = thresholds::brew::use_leaves;
  return fmt::format("leaves that got any: pick none for {}",
                     days_words(whole(study.rules()(rule))));
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

std::string salt_words(const Salt& salt, const measure::Printer& print) {
  return fmt::format(
      "undiluted {}, {} if poured all season; in this mix about {}, {} (the water's own salt comes "
      "on top)",
      print(salt.neat), risk_words(salt.neat_risk), print(salt.mixed), risk_words(salt.mixed_risk));
}

std::string watering_words(const Watering& one, const Nitrogen& held, const Study& study) {
  const measure::Printer print = study.print();
  const double doubt = study.rules()(thresholds::brew::extract_doubt).value;
  std::string says =
      fmt::format("a watering of {} takes {}, {} of it brew, and brings {} of nitrogen ({} {})",
                  print(one.area), print(one.poured), print(one.brew),
                  held.measured ? print(one.brings)
                                : print.between(measure::value_of(one.brings * (1 - doubt)),
                                                measure::value_of(one.brings * (1 + doubt))),
                  content_words(held.content.value, "mg/L in the brew,"),
                  held.measured ? "by the laboratory" : "estimated from what went in");
  if (one.waters_more_than_it_feeds) {
    return says +
           fmt::format(
               "; it waters more than it feeds: {:.0f} of them would bring the {} of a light "
               "feeding",
               one.waterings, print(one.wanted));
  }
  if (one.waterings <= 1) return says;
  return says + fmt::format("; {:.0f} waterings bring the {} of a light feeding", one.waterings,
                            print(one.wanted));
}

std::string nutrient_words(const char* symbol, std::optional<double> estimated,
                           std::optional<double> read) {
  return fmt::format("{} {} / {}", symbol,
                     estimated ? measure::print_number(std::round(*estimated), 0) : "?",
                     read ? measure::print_number(*read, 0) : "not analysed");
}

std::string gaps_words(const Nutrients& nutrients) {
  if (nutrients.unknown.empty()) return "";
  return "; not known and left out: " + measure::joined(nutrients.unknown, "; ");
}

}  // namespace

std::string dilution_words(const Study& study) {
  const auto& [brew, water] = study.dilution().parts;
  return fmt::format("{} of brew to {} of water ({})", parts_words(brew), parts_words(water),
                     asked_by_words(study));
}

std::vector<model::Progress> use_lines(const Study& study) {
  const measure::Printer print = study.print();
  std::string pour = dilution_words(study);
  const Litres can{study.history().units == measure::UnitSystem::kUs ? 2 * 3.785411784 : 10};
  if (const auto portions = science::brew_portions(study.dilution().parts, can)) {
    pour += fmt::format(": in a can of {}, {} of brew and {} of water", print(can),
                        print(portions->brew), print(portions->water));
  }
  std::vector<model::Progress> lines{{"to pour", std::move(pour), std::nullopt, true}};
  if (const auto one = watering_of(study)) {
    lines.push_back(
        {"for a bed", watering_words(*one, *study.nitrogen(), study), std::nullopt, true});
  }
  if (const auto salt = salt_of(study))
    lines.push_back({"salt", salt_words(*salt, print), std::nullopt, true});
  return lines;
}

std::vector<std::string> pouring_lines(const model::Movement& out, const Study& study) {
  const measure::Printer print = study.print();
  // What was made for leaves and may go there is thinned for them.
  const bool to_leaves = is_for_leaf(study.history().batch) && !study.contents().raw;
  const auto& [brew, water] = study.dilution().parts;
  // What asked for so much water is for `show` to say.
  std::string pour =
      fmt::format("pour it {}1 to {} with water", to_leaves ? "" : "on the soil, not the leaves, ",
                  measure::print_number(water / brew, 1));
  if (const auto volume = out.volume()) {
    pour += fmt::format(": {} of brew in {}", print(*volume), print(*volume * (water / brew)));
  }
  const auto salt = salt_of(study);
  std::vector<std::string> lines{
      std::move(pour), "salt: " + (salt ? salt_words(*salt, print)
                                        : "EC not read; read it before it goes on seedlings")};
  // Raw manure waits longer: the bed that gets it says its day.
  if (!study.contents().raw) lines.push_back(leaf_words(study));
  return lines;
}

model::Progress nutrient_line(const Study& study) {
  const science::NutrientMass& made = study.nutrients().dissolved;
  const auto words = [&](const char* symbol, const Quantity& nutrient,
                         measure::Kilograms dissolved) {
    return nutrient_words(symbol, concentration(dissolved, study.contents().liquid),
                          latest(study.history(), nutrient));
  };
  return {"mg/L, estimated / analysed",
          fmt::format("{}; {}; {}{}", words("N", kNitrogen, made.nitrogen),
                      words("P", kPhosphorus, made.phosphorus),
                      words("K", kPotassium, made.potassium), gaps_words(study.nutrients())),
          std::nullopt, true};
}

std::string estimated_words(std::string_view nutrient) {
  return fmt::format("{} made, estimated", nutrient);
}

std::string analysed_words(std::string_view nutrient) {
  return fmt::format("{} made, by the laboratory", nutrient);
}

std::string estimate_basis(const Nutrients& nutrients) {
  return "what went in by its handbook figures, times the share that dissolves (rules "
         "brew.extract)" +
         gaps_words(nutrients);
}

std::string load_basis(bool analysed) {
  return analysed ? "by the laboratory" : "estimated from what went into the brew";
}

std::string liquid_basis(const Contents& contents) {
  return contents.liquid_is_assumed ? "no water is recorded: the drum's volume, taken as full"
                                    : "water and liquids put in, as recorded";
}

std::string days_basis(const Clock& clock) {
  if (clock.thermometer == Thermometer::kNone) return "no temperature was read";
  return fmt::format("{} of {} read", clock.measured, days_words(clock.counted()));
}

}  // namespace kinds::brew
