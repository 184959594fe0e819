#include "kinds/larvae/law.h"

#include <algorithm>
#include <array>
#include <set>

#include "kinds/finding.h"
#include "kinds/larvae/course.h"
#include "kinds/larvae/facts.h"
#include "kinds/larvae/says.h"
#include "kinds/larvae/study.h"
#include "kinds/larvae/vocabulary.h"
#include "model/material_groups.h"

namespace kinds::larvae {
namespace {

using model::Urgency;

constexpr std::string_view kEuSource =
    "Regulation (EU) 2017/893 in annex X of (EU) 142/2011; catering waste: (EC) 1069/2009 art. 11";
constexpr std::string_view kUsSource = "AAFCO T60.117: feedstock of feed-grade materials alone";
constexpr std::string_view kBothSources =
    "AAFCO T60.117 in the US, Regulation (EU) 2017/893 in the EU";
constexpr std::string_view kPractice = "common practice";

template <std::size_t N>
bool is_one_of(const model::Material& material, const std::array<std::string_view, N>& names) {
  return std::find(names.begin(), names.end(), material.name) != names.end();
}

bool is_manure(const model::Material& material) {
  return material.is(kFlagManure) || material.group == model::group::kManure;
}

// Animal matter that EU law lets farmed insects have: category 3 fishmeal, blood products and
// hydrolysed protein of non-ruminants, eggs. Milk is no animal matter here: the catalogue calls it
// dairy.
constexpr std::array<std::string_view, 4> kEuAllowed{"fish meal", "blood meal", "feather meal",
                                                     "spoiled eggs"};
// Animal matter that a kitchen or a store lets go, where meat is only a part or none.
constexpr std::array<std::string_view, 4> kOther{"cooked leftovers", "grease", "dog food",
                                                 "spoiled eggs"};

Unfit sort_of_animal(const model::Material& material) {
  if (material.is(kFlagFish)) return Unfit::kFish;
  return is_one_of(material, kOther) ? Unfit::kOffFood : Unfit::kSlaughter;
}

std::optional<Unfit> by_eu(const model::Material& material) {
  if (is_kitchen_waste(material)) return Unfit::kKitchen;
  if (material.is(kFlagAnimal))
    return is_one_of(material, kEuAllowed) ? Unfit::kPapers : sort_of_animal(material);
  return material.group == model::group::kFood ? std::optional(Unfit::kFood) : std::nullopt;
}

// What a law says is said of the bin for good with the first of them, or of each such feed once.
bool is_of_the_bin(Unfit unfit) {
  return unfit == Unfit::kFood;
}

bool refuses(Unfit unfit, Law law) {
  switch (unfit) {
    case Unfit::kNever:
      return true;
    case Unfit::kManure:
      return law == Law::kEu || law == Law::kUs;
    case Unfit::kSlaughter:
    case Unfit::kFish:
    case Unfit::kOffFood:
    case Unfit::kKitchen:
      return law == Law::kEu;
    case Unfit::kPapers:
    case Unfit::kFood:
    case Unfit::kSmells:
      return false;
  }
  return false;
}

std::string_view source_of(Unfit unfit, Law law) {
  if (unfit == Unfit::kNever || unfit == Unfit::kSmells) return kPractice;
  switch (law) {
    case Law::kEu:
      return kEuSource;
    case Law::kUs:
      return kUsSource;
    case Law::kNotTold:
      return kBothSources;
    case Law::kNone:
      return kPractice;
  }
  return kPractice;
}

}  // namespace

std::optional<Unfit> unfit_of(const model::Material& material, Law law) {
  if (material.is(kFlagForbidden) || material.is(kFlagSynthetic)) return Unfit::kNever;
  if (is_manure(material)) return Unfit::kManure;
  if (law == Law::kEu) {
    if (const auto unfit = by_eu(material)) return unfit;
  } else if (material.is(kFlagAnimal)) {
    return sort_of_animal(material);
  } else if (law == Law::kUs && material.group == model::group::kFood) {
    return Unfit::kFood;
  }
  if (material.is(kFlagSalty) || material.is(kFlagOil)) return Unfit::kSmells;
  return std::nullopt;
}

bool keeps_from_animals(Unfit unfit, Law law) {
  switch (unfit) {
    case Unfit::kNever:
    case Unfit::kManure:
    case Unfit::kSlaughter:
    case Unfit::kFish:
    case Unfit::kOffFood:
      return true;  // where no law says so, for their germs
    case Unfit::kKitchen:
      return law == Law::kEu;
    case Unfit::kPapers:
    case Unfit::kFood:
    case Unfit::kSmells:
      return false;
  }
  return true;
}

std::optional<Objection> objects_to_feed(const model::Material& material, const model::Batch& batch,
                                         const model::Rules& /*rules*/) {
  const Law law = law_of(batch, kLaw);
  const auto unfit = unfit_of(material, law);
  if (!unfit) return std::nullopt;
  const bool care = *unfit == Unfit::kSmells;
  Objection made{refuses(*unfit, law), std::string(care ? kRuleCare : kRuleBanned),
                 feed_words(*unfit, law, material), std::string(source_of(*unfit, law))};
  made.once = !made.refuses && *unfit != Unfit::kSmells;
  if (made.once && !is_of_the_bin(*unfit)) made.about = material.name;
  return made;
}

std::vector<std::string> kept_from_animals(const model::History& history, model::Instant until) {
  const Law law = law_of(history.batch, kLaw);
  std::set<std::string> feeds;
  for (const model::Movement& movement : history.in) {
    const auto unfit = unfit_of(movement.material, law);
    if (movement.at > until) continue;
    if (unfit && keeps_from_animals(*unfit, law)) feeds.insert(movement.material.name);
    // Raw manure in what another batch gave.
    for (const model::ManureTrail& trail : movement.manure) feeds.insert(trail.material);
  }
  return {feeds.begin(), feeds.end()};
}

// Whoever buys larvae, or is given them for a reason not said, feeds them.
bool goes_to_animals(const model::Movement& load) {
  if (!is_larvae(load)) return false;
  return has_role(load.to_kind, &Roles::animals) ||
         (load.to_kind.empty() && (load.sold_cents || !load.purpose.empty()));
}

std::optional<Objection> against_feeding(const model::Movement& load, const Study& study) {
  if (!goes_to_animals(load)) return std::nullopt;
  const auto feeds = kept_from_animals(study.history(), load.at);
  if (feeds.empty()) return std::nullopt;
  const Law law = law_of(study.history().batch, kLaw);
  return Objection{true, std::string(kRuleBanned), to_animals_words(feeds, study),
                   std::string(source_of(Unfit::kManure, law))};
}

std::optional<model::Finding> judge_banned(const Study& study) {
  const model::History& history = study.history();
  for (const model::Movement& movement : history.out) {
    if (!goes_to_animals(movement)) continue;
    const auto feeds = kept_from_animals(history, movement.at);
    if (feeds.empty()) continue;
    model::Finding made = finding(kRuleBanned, Urgency::kToday,
                                  source_of(Unfit::kManure, law_of(history.batch, kLaw)));
    made.job = kJobAsk;
    made.since = movement.day;
    made.facts.set(kTo, movement.to);
    made.facts.set(kFeeds, feeds);
    made.ends = {{.by = model::Ending::By::kEndOfBatch}};
    return made;
  }
  return std::nullopt;
}

}  // namespace kinds::larvae
