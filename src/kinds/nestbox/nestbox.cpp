#include <array>

#include "kinds/nestbox/broods.h"
#include "kinds/old_kind.h"
#include "kinds/registry.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

// A nest box: birds that eat what eats the beds.
namespace kinds {
namespace {

namespace limits = thresholds::nestbox;
using measure::Dimension;
using nestbox::Brood;

constexpr std::string_view kActiveNest =
    "Nests with eggs or young of wild birds are protected by law in most places (in the USA the "
    "Migratory Bird Treaty Act): look in briefly, by day, and move nothing.";
constexpr std::string_view kDust =
    "Old nests hold mites, and droppings of mice can carry hantavirus: open air, gloves and a "
    "mask, and wet it before you brush.";

// Of the small birds that nest in boxes none lays more: chickadees and tits, with 13 to 16, the
// most (from memory).
constexpr double kLargestClutch = 16;

constexpr std::array kQuantities{
    Quantity{"eggs", "", Dimension::kCount, 0, kLargestClutch, "eggs in the nest"},
    Quantity{"young", "chicks nestlings", Dimension::kCount, 0, kLargestClutch,
             "young in the nest"},
    Quantity{"fledged", "flown", Dimension::kCount, 0, kLargestClutch,
             "young of this brood that have flown"},
};

constexpr std::array kWords{
    Word{"checked", "looked", "", "someone looked in"},
    Word{"cleaned", "", "", "the old nest was taken out and the box cleaned"},
    Word{"mended", "repaired", "", "the box was mended"},
    Word{"building", "", "nest", "birds carry in nest stuff"},
    Word{"empty", "", "nest", "no nest, or one that is not in use"},
    Word{"abandoned", "deserted", "nest", "eggs or young were left"},
    Word{"raided", "predated", "nest", "eggs or young were taken"},
    Word{"bluebird", "", "bird", "whose nest it is"},
    Word{"swallow", "", "bird", "whose nest it is"},
    Word{"wren", "", "bird", "whose nest it is"},
    Word{"chickadee", "tit", "bird", "whose nest it is"},
    Word{"nuthatch", "", "bird", "whose nest it is"},
    Word{"flycatcher", "", "bird", "whose nest it is"},
    Word{"sparrow", "", "bird", "whose nest it is"},
    Word{"starling", "", "bird", "whose nest it is"},
    Word{"owl", "", "bird", "whose nest it is"},
    Word{"kestrel", "", "bird", "whose nest it is"},
};

constexpr std::array kSettings{
    SettingSpec{"hole", Dimension::kLength, "", "width of the entrance"},
    SettingSpec{"height", Dimension::kLength, "", "of the entrance above the ground"},
    SettingSpec{"faces", Dimension::kNumber, "n ne e se s sw w nw", "where the entrance looks"},
    SettingSpec{"near", Dimension::kNumber, "text", "which bed or patch it stands by"},
};

void judge_checks(const model::History& history, const model::Rules& rules, const Brood* brood,
                  bool shut, model::Assessment& into) {
  if (shut || (brood == nullptr && !nestbox::in_season(history.today, history, rules))) return;
  const auto look = nestbox::last_look(history);
  const int since = days_between(look.value_or(history.batch.started_day), history.today);
  if (since <= rules(limits::check_days).value) return;
  model::Told made = finding("nestbox.check", model::Urgency::kSoon, limits::check_days, rules);
  made.words.says =
      look ? fmt::format("nobody looked in for {}", days_words(since))
           : fmt::format("nobody has looked in since it was put up {} ago", days_words(since));
  made.words.action = "look in, and log eggs=, young= or empty";
  made.old_caution = kActiveNest;
  into.findings.push_back(std::move(made));
}

// Young that are nearly ready to fly. Returns whether the box is to be left shut.
bool judge_young(const model::History& history, const model::Rules& rules, const Brood& brood,
                 model::Assessment& into) {
  if (!brood.young_since) return false;
  const int age = days_between(*brood.young_since, history.today);
  if (age < rules(limits::leave_days).value) return false;
  if (age <= rules(limits::leave_until).value) {
    model::Told made =
        finding("nestbox.leave", model::Urgency::kSoon, limits::leave_days, rules);
    made.words.says = fmt::format("its young were first seen {} ago and are nearly ready to fly",
                            days_words(age));
    made.words.action = "leave it shut and watch from afar";
    made.old_caution = kActiveNest;
    into.findings.push_back(std::move(made));
    return true;
  }
  model::Told made =
      finding("nestbox.fledged", model::Urgency::kSoon, limits::leave_until, rules);
  made.words.says =
      fmt::format("its young were first seen {} ago: they have flown or are dead", days_words(age));
  made.words.action = "look in, and log fledged= with how many flew (0 where none did)";
  into.findings.push_back(std::move(made));
  return true;
}

void judge_eggs(const model::History& history, const model::Rules& rules, const Brood& brood,
                model::Assessment& into) {
  if (brood.young_since || !brood.eggs_since) return;
  const int age = days_between(*brood.eggs_since, history.today);
  if (age <= rules(limits::cold_days).value) return;
  model::Told made = finding("nestbox.cold", model::Urgency::kSoon, limits::cold_days, rules);
  made.words.says = fmt::format("eggs first counted {} ago have not hatched", days_words(age));
  made.words.action = "look whether a bird still sits; log abandoned if none does";
  made.old_caution = kActiveNest;
  into.findings.push_back(std::move(made));
}

void judge_cleaning(const model::History& history, const model::Rules& rules,
                    const std::vector<Brood>& all, model::Assessment& into) {
  if (all.empty() || nestbox::present(all) != nullptr) return;
  const model::Day since = *all.back().ended;
  const model::Deed* cleaned = history.last_deed("cleaned");
  if (cleaned != nullptr && cleaned->day >= since) return;
  if (nestbox::in_season(history.today, history, rules)) return;
  model::Told made = finding("nestbox.clean", model::Urgency::kSoon, limits::season_last, rules);
  made.words.says = fmt::format("the season is over, and the nest of {} is still in it",
                          measure::day_words(since, history.today));
  made.words.action = "take the old nest out, brush the box, look at roof and hole, and log cleaned";
  made.old_caution = kDust;
  into.findings.push_back(std::move(made));
}

void foresee(const model::History& history, const model::Rules& rules, const Brood& brood,
             model::Assessment& into) {
  const bool young = brood.young_since.has_value();
  if (!young && !brood.eggs_since) return;
  const model::Day from = young ? *brood.young_since : *brood.eggs_since;
  const auto days = [&](model::Threshold<measure::Days> of) {
    return date::days{static_cast<int>(rules(of).value)};
  };
  const model::Day first = from + days(young ? limits::fledge_least : limits::hatch_least);
  const model::Day last = from + days(young ? limits::fledge_most : limits::hatch_most);
  if (last < history.today) return;
  into.forecasts.push_back({young ? "fledging" : "hatching", first, std::nullopt, last,
                            fmt::format("between {} and {}, as small songbirds do, counted from {}",
                                        measure::day_words(first, history.today),
                                        measure::day_words(last, history.today),
                                        measure::day_words(from, history.today))});
}

void measure(const model::History& history, const std::vector<Brood>& all,
             model::Assessment& into) {
  const auto add = [&](std::string_view key, std::string_view name, double value,
                       measure::Dimension dimension, std::string basis) {
    into.measures.push_back({"nestbox." + std::string(key),
                             std::string(name),
                             {"", {dimension, value}, "", {}},
                             std::move(basis)});
  };
  double eggs = 0, young = 0, fledged = 0, known = 0, flown = 0;
  for (const Brood& brood : all) {
    eggs += brood.eggs;
    young += brood.young;
    fledged += brood.fledged.value_or(0);
    if (brood.ended) ++known;
    if (brood.fledged.value_or(0) > 0) ++flown;
  }
  add("broods", "broods", static_cast<double>(all.size()), Dimension::kCount, "");
  if (!all.empty()) {
    add("eggs", "eggs", eggs, Dimension::kCount, "the most counted in each brood");
    add("young", "young", young, Dimension::kCount, "the most counted in each brood");
    add("fledged", "fledged", fledged, Dimension::kCount, "as logged; a brood without it counts 0");
  }
  if (known > 0) {
    add("fledged_brood", "fledged a brood", fledged / known, Dimension::kNumber,
        "of broods that are over");
    add("success", "broods from which any flew", flown / known, Dimension::kFraction, "");
  }
  add("checks", "times looked in",
      static_cast<double>(history.deeds_since("checked", history.batch.started_day)),
      Dimension::kCount, "as logged");
}

// A nest that was built is the one of the brood that has flown since.
bool is_older_than_a_brood(const model::Sensed& nest, const std::vector<Brood>& all) {
  return std::any_of(all.begin(), all.end(),
                     [&](const Brood& brood) { return brood.ended && *brood.ended >= nest.day; });
}

model::Assessment assess_nestbox(const model::History& history, const model::Rules& rules) {
  model::Assessment assessment;
  const auto all = nestbox::broods(history);
  const Brood* brood = nestbox::present(all);
  bool shut = false;
  assessment.stage = nestbox::in_season(history.today, history, rules) ? "free" : "resting";
  if (brood != nullptr) {
    shut = judge_young(history, rules, *brood, assessment);
    judge_eggs(history, rules, *brood, assessment);
    foresee(history, rules, *brood, assessment);
    assessment.stage = brood->young_since ? "young" : "eggs";
    const double count = brood->young_since ? brood->young : brood->eggs;
    assessment.progress.push_back(
        {"brood",
         fmt::format("{} {}, since {}", measure::print_number(count, 0),
                     brood->young_since ? "young" : "eggs",
                     measure::day_words(brood->young_since.value_or(brood->first), history.today)),
         std::nullopt});
  } else if (const model::Sensed* nest = history.last_sensed("nest");
             nest != nullptr && nest->word == "building" && !is_older_than_a_brood(*nest, all)) {
    assessment.stage = "building";
  }
  judge_checks(history, rules, brood, shut, assessment);
  judge_cleaning(history, rules, all, assessment);
  measure(history, all, assessment);
  assessment.well = assessment.progress.empty() ? assessment.stage : assessment.progress[0].says;
  return assessment;
}

}  // namespace

const OldKind kNestboxOld{
    .name = "nestbox",
    .meaning = "a nest box",
    .begun = "box-1 hole=1.5in height=5ft faces=e",
    .quantities = kQuantities,
    .words = kWords,
    .settings = kSettings,
    .positions = "",
    .temperature = "",
    .percentage = "",
    .product = "",
    .rhythm = "",
    .unread_after = nullptr,  // `nestbox.check` asks in the season, and nobody need look outside it
    .keeps_mass = false,
    .assess = assess_nestbox,
    .objects_to = nullptr,
};

}  // namespace kinds
