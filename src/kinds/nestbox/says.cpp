#include "kinds/nestbox/says.h"

#include "kinds/finding.h"
#include "kinds/nestbox/facts.h"

namespace kinds::nestbox {

model::Words words_of(const model::Finding& finding, model::Day today) {
  const auto& facts = finding.facts;
  if (finding.rule == kRuleClean) {
    return {
        .line = "clean it out: season over, old nest in it",
        .says = fmt::format("the season is over, and the nest of {} is still in it",
                            measure::day_words(facts(kLeftOn), today)),
        .action = "take the old nest out, brush the box, look at roof and hole, and log cleaned",
        .tag = "old nest"};
  }
  const std::string days = days_words(facts(kDays));
  if (finding.rule == kRuleCheck) {
    const bool never = facts.is(kNeverLooked);
    return {
        .line = fmt::format("look in: {} {}", never ? "never yet, up" : "nobody has for", days),
        .says = fmt::format(fmt::runtime(never ? "nobody has looked in since it was put up {} ago"
                                               : "nobody looked in for {}"),
                            days),
        .action = "look in, and log eggs=, young= or empty",
        .tag = "a look in"};
  }
  if (finding.rule == kRuleLeave) {
    return {
        .line = "leave it shut: young nearly ready to fly",
        .says = fmt::format("its young were first seen {} ago and are nearly ready to fly", days),
        .action = "leave it shut and watch from afar"};
  }
  if (finding.rule == kRuleFledged) {
    return {
        .line = fmt::format("look in, log fledged: young for {}", days),
        .says = fmt::format("its young were first seen {} ago: they have flown or are dead", days),
        .action = "look in, and log fledged= with how many flew (0 where none did)"};
  }
  return {.line = fmt::format("see if a bird sits: eggs for {}", days),
          .says = fmt::format("eggs first counted {} ago have not hatched", days),
          .action = "look whether a bird still sits; log abandoned if none does"};
}

std::string brood_words(const Brood& brood, model::Day today) {
  const bool young = brood.young_since.has_value();
  return fmt::format("{} {}, since {}", measure::print_number(young ? brood.young : brood.eggs, 0),
                     young ? "young" : "eggs",
                     measure::day_words(brood.young_since.value_or(brood.first), today));
}

std::string flying_line(bool young) {
  return young ? "young fly: leave the box shut" : "eggs hatch";
}

std::string foreseen_words(model::Day from, model::Day first, model::Day last, model::Day today) {
  return fmt::format("between {} and {}, as small songbirds do, counted from {}",
                     measure::day_words(first, today), measure::day_words(last, today),
                     measure::day_words(from, today));
}

}  // namespace kinds::nestbox
