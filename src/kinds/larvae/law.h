#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/feed_law.h"
#include "kinds/study.h"
#include "model/finding.h"

// What speaks against a feed, where the larvae go to animals and otherwise. A reminder, not legal
// advice.
namespace kinds::larvae {

class Study;

enum class Unfit {
  kNever,      // forbidden or synthetic
  kManure,     //
  kSlaughter,  // meat, bones, offal, carcasses, blood
  kFish,       // fish and shellfish
  kOffFood,    // other animal matter of a kitchen or a store: leftovers, fat, eggs
  kPapers,     // animal matter that EU law takes with its papers
  kKitchen,    // kitchen waste, in EU law
  kFood,       // plant food that may have passed through a kitchen, or is not feed-grade
  kSmells      // salty or oily: no matter of law
};
// None where nothing speaks against it under that law.
std::optional<Unfit> unfit_of(const model::Material& material, Law law);
// Whether such a feed keeps the larvae from animals under it, unless they are heated.
bool keeps_from_animals(Unfit unfit, Law law);

// `larvae.banned`, or only `larvae.care`: against a feed.
std::optional<Objection> objects_to_feed(const model::Material& material, const model::Batch& batch,
                                         const model::Rules& rules);

// The feeds up to a moment that keep these larvae from animals, by name, sorted.
std::vector<std::string> kept_from_animals(const model::History& history, model::Instant until);

// Against larvae of such a bin that are about to go to animals.
std::optional<Objection> against_feeding(const model::Movement& load, const Study& study);

// `larvae.banned` where such larvae went there.
std::optional<model::Finding> judge_banned(const Study& study);

}  // namespace kinds::larvae
