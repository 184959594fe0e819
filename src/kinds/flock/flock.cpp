#include <array>

#include "kinds/flock/days.h"
#include "kinds/flock/laying.h"
#include "kinds/flock/measures.h"
#include "kinds/flock/ration.h"
#include "kinds/larvae/law.h"
#include "kinds/old_kind.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"
#include "science/animals/hens.h"

// A flock of laying hens.
namespace kinds {
namespace {

namespace limits = thresholds::flock;
using measure::Dimension;

constexpr std::array kQuantities{
    Quantity{"birds", "hens", Dimension::kCount, 0, 1e5, "hens counted"},
    Quantity{"eggs",
             "",
             Dimension::kCount,
             0,
             1e5,
             "eggs found in the nests; several collections of a day add up",
             {},
             0,
             false,
             false,
             true},
    Quantity{"egg_mass", "egg", Dimension::kMass, 0.02, 0.12, "mass of an egg", {"g", "g"}},
};

constexpr std::array kWords{
    Word{"cleaned", "mucked", "", "the house was cleaned out"},
    Word{"bedded", "bedding", "", "fresh bedding was put down"},
    Word{"watered", "", "", "water was filled up"},
    Word{"well", "bright", "condition", "the hens look well"},
    Word{"moulting", "molting", "condition", "hens are losing feathers"},
    Word{"broody", "", "condition", "hens sit and will not leave the nest"},
    Word{"ailing", "sick dull", "condition", "hens look ill"},
};

constexpr std::array kSettings{
    SettingSpec{"hens", Dimension::kCount, "", "how many there are at the start"},
    SettingSpec{"breed", Dimension::kNumber, "text", "which breed"},
    SettingSpec{"law", Dimension::kNumber, "none us eu", "whose rules on feed hold", "none"},
};

Objection objection(bool refuses, std::string says, std::string source) {
  return {refuses, refuses ? "flock.banned" : "flock.care", std::move(says), std::move(source)};
}

std::optional<Objection> objects_to_feed(const model::Material& material, const model::Batch& batch,
                                         const model::Rules&) {
  const std::string& name = material.name;
  if (material.is("forbidden") || material.is("synthetic")) {
    return objection(true, fmt::format("{} never goes to hens", name), "common practice");
  }
  if (material.is("manure") && material.group != "bedding") {
    return objection(true, fmt::format("{} is no feed for hens", name), "common practice");
  }
  if (batch.text("law", "") == "eu" && larvae::is_kitchen_waste(material)) {
    return objection(true, fmt::format("EU law forbids feeding kitchen waste ({}) to hens", name),
                     "(EC) 1069/2009 art. 11, from memory");
  }
  if (name == "avocado waste" || name == "cull potatoes") {
    return objection(false, fmt::format("{} can poison hens: skins, pits and green parts", name),
                     "common practice");
  }
  if (material.is("salty") && material.group != "mineral") {
    return objection(false, fmt::format("{} is too salty for hens in more than bits", name),
                     "common practice");
  }
  return std::nullopt;
}

void judge_health(const model::History& history, const model::Rules& rules,
                  model::Assessment& into) {
  const model::Sensed* condition = history.last_sensed("condition");
  if (condition == nullptr || condition->word != "ailing" ||
      days_between(condition->day, history.today) > rules(limits::told_days).value) {
    return;
  }
  model::Told made = finding("flock.ailing", model::Urgency::kNow, "common practice");
  made.words.says =
      fmt::format("hens were seen ailing {}", measure::day_words(condition->day, history.today));
  made.words.action = "set ill birds apart, and log well once they are";
  made.old_caution =
      "Several ill or dead birds at once can be bird flu: call a vet or the state veterinarian, "
      "keep others away and wash your hands.";
  into.findings.push_back(std::move(made));
}

std::string stage_of(const model::History& history, const model::Rules& rules) {
  const int days = static_cast<int>(rules(limits::laying_days).value);
  const auto eggs = flock::eggs_between(
      history, rules, std::max(history.batch.started_day, history.today - date::days{days}),
      history.today);
  if (eggs.days == 0) return "uncounted";
  return eggs.laid > measure::Number{0} ? "laying" : "not laying";
}

std::string well_words(const model::Assessment& assessment) {
  for (const model::Progress& one : assessment.progress) {
    if (one.goal == "laying") return one.says;
  }
  return assessment.stage;
}

model::Assessment assess_flock(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  const std::string short_of = flock::judge_needs(history, rules, assessment);
  flock::judge_laying(history, rules, short_of, assessment);
  flock::judge_share(history, rules, assessment);
  flock::judge_counts(history, rules, assessment);
  judge_health(history, rules, assessment);
  flock::measure_laying(history, rules, assessment);
  flock::measure_manure(history, assessment);
  assessment.stage = stage_of(history, rules);
  assessment.well = well_words(assessment);
  return assessment;
}

// A hen lays one egg a day, hardly ever two.
std::optional<std::string> doubts_reading(const Quantity& quantity, double si,
                                          const model::History& history,
                                          const measure::Printer& /*print*/) {
  if (quantity.name != "eggs") return std::nullopt;
  const auto birds = flock::birds_on(history, history.today);
  const model::Series* counts = history.find("eggs");
  const double eggs = si + (counts != nullptr ? counts->total_on(history.today) : 0);
  if (!birds || eggs <= birds->value) return std::nullopt;
  return fmt::format(
      "more than {} can lay in a day{} (log birds= if there are more)",
      birds->value == 1 ? "1 hen" : measure::print_number(birds->value, 0) + " hens",
      eggs > si ? fmt::format(", with the {} logged before", measure::print_number(eggs - si, 0))
                : "");
}

}  // namespace

const OldKind kFlockOld{
    .name = "flock",
    .meaning = "a flock of laying hens",
    .begun = "hens hens=12 breed='mixed layers'",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "",
    .temperature = "",
    .percentage = "",
    .product = "eggs",
    .rhythm = "",
    .unread_after = &limits::unread_days_info,
    .keeps_mass = false,
    .learns = false,
    .assess = assess_flock,
    .objects_to = objects_to_feed,
    .doubts_reading = doubts_reading,
};

}  // namespace kinds
