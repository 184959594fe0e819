#include "kinds/bed/says.h"

#include <algorithm>

#include "kinds/bed/facts.h"
#include "kinds/bed/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/remark.h"
#include "measure/text.h"

namespace kinds::bed {
namespace {

using measure::Kilograms;
using measure::Printer;
using model::Finding;
using model::Words;
using science::NutrientMass;

std::string contact_words(bool touches, bool said) {
  if (!said) return "taken as touching soil: touches_soil= was not given";
  return touches ? "the edible part touches soil" : "the edible part does not touch soil";
}

std::string contact_words(const Finding& one) {
  return contact_words(one.facts(kTouches), one.facts(kContactSaid));
}

std::string crop_words(const model::Batch& batch) {
  return batch.text(kCrop, "a crop that people eat");
}

std::string whole_percent(measure::Fraction share) {
  return measure::print_number(share.value * 100, 0) + " %";
}

std::string way_words(const std::vector<std::string>& way, const std::string& bed) {
  return measure::joined(way, " → ") + " → " + bed;
}

Words wait_words(const Finding& one, const Study& study) {
  const auto& facts = one.facts;
  const model::Batch& batch = study.history().batch;
  const auto ripe = facts.get(kRipe);
  const std::string safe = measure::full_day_words(facts(kSafe));
  return {.line = fmt::format("pick none before {}: raw manure", safe),
          .says = fmt::format("no harvest of {} before {}: day {} of {} after {} went on",
                              crop_words(batch), safe, facts(kDaysSince), facts(kDays),
                              facts(kMaterial)),
          .why = fmt::format("{} ({}); {}", way_words(facts(kWay), batch.code), facts(kBecause),
                             contact_words(one)),
          .why_briefly = fmt::format("'roundbook show {}' traces the manure", batch.code),
          .action = ripe ? fmt::format("its crop ripens about {}, before that day: leave it until "
                                       "then; picked earlier, it is not for people to eat",
                                       measure::day_words(*ripe, study.history().today))
                         : "leave the crop until then",
          .tag = batch.text(kCrop, "harvest")};
}

Words early_words(const Finding& one) {
  return {
      .line = fmt::format("hold back the harvest: {} too soon", days_words(one.facts(kDaysEarly))),
      .says = fmt::format("{} {} was taken on {}, inside the harvest interval after raw manure",
                          one.facts(kTyped), one.facts(kMaterial),
                          measure::full_day_words(one.facts(kTakenOn))),
      .why = "germs of raw manure may be on it",
      .action =
          "hold back what is left of it: not for people to eat and not for sale; tell whoever got "
          "some, and the certifier if there is one"};
}

Words safe_words(const Finding& one, const Study& study) {
  const auto& facts = one.facts;
  const model::Day today = study.history().today;
  return {
      .line = fmt::format("pick when ripe: {} since raw manure", days_words(facts(kDaysSince))),
      .says = fmt::format("{} may be harvested{}: {} days have passed since {} went on",
                          crop_words(study.history().batch),
                          facts(kSafe) == today
                              ? " from today"
                              : fmt::format(" since {}", measure::day_words(facts(kSafe), today)),
                          facts(kDays), facts(kMaterial)),
      .why = contact_words(one),
      .action = "pick it when it is ripe",
      .tag = "may be picked"};
}

// "that 20 lb of carrots takes", "that the soil test asks for".
std::string wanted_by_words(const Study& study) {
  const Need& need = *study.need();
  if (need.by_soil_test) return "that the soil test asks for";
  return fmt::format("that {} of {} takes", study.print()(need.harvest),
                     study.history().batch.text(kCrop, "crop"));
}

std::string left_out_words(const std::vector<Given>& given) {
  const std::string gaps = gaps_words(given, "; ");
  return gaps.empty() ? "" : "; not known and left out: " + gaps;
}

Words short_words(const Finding& one, const Study& study) {
  const auto& facts = one.facts;
  const Printer print = study.print();
  const std::string wanted =
      fmt::format("of the {} {}", print(facts(kWanted)), wanted_by_words(study));
  const bool some = facts(kGiven).value > 0;
  return {.line = some ? fmt::format("feed it: {} of the nitrogen it wants",
                                     whole_percent(facts(kShare)))
                       : "feed it: no nitrogen on record for this crop",
          .says = some ? fmt::format("{} of nitrogen for this year's crop, {} {}: {} short",
                                     print(facts(kGiven)), print(facts(kShare)), wanted,
                                     print(facts(kLacking)))
                       : fmt::format("no nitrogen on record for this year's crop, {}", wanted),
          .why = "what the soil itself supplies is not counted" + left_out_words(study.given()),
          .action = "feed it little by little with a brew or frass, or have the soil tested first",
          .tag = "feed"};
}

Words over_words(const Finding& one, const Study& study) {
  const auto& facts = one.facts;
  const Printer print = study.print();
  const std::string name = facts(kNutrient);
  return {
      .line = fmt::format("give no more: {} {} of its need", name, whole_percent(facts(kShare))),
      .says =
          fmt::format("{} of {} for this year's crop, {} of the {} {}", print(facts(kGiven)), name,
                      print(facts(kShare)), print(facts(kWanted)), wanted_by_words(study)),
      .why = name == kNitrogen ? "what is left over washes out with the winter rain"
                               : "it builds up in the soil and runs off into streams",
      .action = "put on no more of it, and have the soil tested before the next crop",
      .tag = "no more " + name};
}

Words carryover_finding_words(const Finding& one, const Study& study) {
  const std::string crop = crop_words(study.history().batch);
  const std::string material = one.facts(kMaterial);
  if (one.facts(kFailed)) {
    return {.line = fmt::format("no {} here: the bioassay failed", crop),
            .says = fmt::format("the bioassay failed: a lasting herbicide is in the soil, from {} "
                                "perhaps",
                                material),
            .why = fmt::format("such a herbicide harms {} for a season and longer", crop),
            .action = "grow grass, sweet corn or cabbages there, and test again next spring",
            .tag = "herbicide"};
  }
  return {
      .line = "sow test peas before the crop: herbicide?",
      .says = fmt::format("{} went on untested: it can carry a lasting herbicide, which harms {}",
                          material, crop),
      .why = "hay, straw, horse manure and bought compost have carried it",
      .action =
          "sow peas or beans in pots of that soil, three weeks; log bioassay-passed or "
          "bioassay-failed",
      .tag = "bioassay"};
}

std::string npk_words(const NutrientMass& mass, const Printer& print) {
  return fmt::format("N {}, P {}, K {}", print(mass.nitrogen), print(mass.phosphorus),
                     print(mass.potassium));
}

std::string missing_words(const Missing& missing) {
  if (missing.weight) return "its weight";
  std::vector<std::string> names;
  if (missing.nitrogen) names.emplace_back("N");
  if (missing.phosphorus) names.emplace_back("P");
  if (missing.potassium) names.emplace_back("K");
  return measure::joined(names, ", ");
}

}  // namespace

Words words_of(const Finding& one, const Study& study) {
  if (one.rule == kRuleWait) return wait_words(one, study);
  if (one.rule == kRuleEarly) return early_words(one);
  if (one.rule == kRuleSafe) return safe_words(one, study);
  if (one.rule == kRuleBanned) return poison_words(one, study);
  if (one.rule == kRuleShort) return short_words(one, study);
  if (one.rule == kRuleCarryover) return carryover_finding_words(one, study);
  return over_words(one, study);
}

std::string stage_words(const Study& study) {
  if (study.waits_now()) return "waiting";
  if (!study.stands()) return "bare";
  return study.in_harvest() ? "in harvest" : "growing";
}

std::string well_words(const Study& study) {
  const std::string crop = study.history().batch.text(kCrop, "");
  return crop.empty() ? stage_words(study) : crop + ", " + stage_words(study);
}

std::string marked_words(const Study& study) {
  const auto& early = study.early();
  const model::Movement& last = *early.back();
  return fmt::format(
      "{} taken inside the harvest interval, the last {} {} on {}",
      early.size() == 1 ? "1 harvest was" : fmt::format("{} harvests were", early.size()),
      last.typed, last.material.name, measure::full_day_words(last.day));
}

std::string interval_words(int since, int days) {
  return fmt::format("day {} of {}", since, days);
}

std::string safe_then_words(const Wait& wait) {
  return fmt::format("{} days after {} went on", wait.days, wait.load.material.name);
}

std::string chain_words(const model::ManureTrail& trail, const std::string& bed) {
  std::vector<std::string> way{trail.material};
  way.insert(way.end(), trail.way.begin(), trail.way.end());
  return way_words(way, bed);
}

// What is nothing by the records is none, or not known of any of it.
std::string for_crop_words(const std::vector<Given>& given, const Printer& print) {
  const NutrientMass mass = first_year_of(given);
  const auto one = [&](const char* symbol, Kilograms of, bool Missing::*unknown) {
    if (of.value > 0) return fmt::format("{} {}", symbol, print(of));
    const bool any = std::any_of(given.begin(), given.end(), [&](const Given& load) {
      return load.missing.weight || load.missing.*unknown;
    });
    return fmt::format("{} {}", symbol, any ? "not known" : "none");
  };
  const auto range = nitrogen_range(given);
  const std::string nitrogen =
      range ? "N " + print.between({Dimension::kMass, range->low}, {Dimension::kMass, range->high})
            : one("N", mass.nitrogen, &Missing::nitrogen);
  return fmt::format("{}, {}, {}, estimated{}", nitrogen,
                     one("P", mass.phosphorus, &Missing::phosphorus),
                     one("K", mass.potassium, &Missing::potassium), left_out_words(given));
}

std::string need_words(const Need& need, const Study& study) {
  const Printer print = study.print();
  const std::string all = npk_words(need.nutrients, print);
  return need.by_soil_test
             ? fmt::format("{} on {}", all, print(*area_of(study.history().batch)))
             : fmt::format("{} with the {} that is expected", all, print(need.harvest));
}

std::string gaps_words(const std::vector<Given>& given, std::string_view between) {
  std::vector<std::string> names;
  for (const Given& one : given) {
    if (one.missing.any()) {
      names.push_back(fmt::format("{} ({})", one.material, missing_words(one.missing)));
    }
  }
  return measure::joined(names, between);
}

std::string never_for_food_words(const std::string& bed) {
  return fmt::format(
      "no days make it safe: nothing of {} is for eating until the soil was taken "
      "out or tested",
      bed);
}

std::string poisoned_words(const std::string& material, const std::string& bed) {
  return fmt::format("{} went on {}: nothing of it is for eating", material, bed);
}

model::Words poison_words(const model::Finding& finding, const Study& study) {
  const std::string& code = study.history().batch.code;
  return {
      .line = "eat nothing of it: what never goes on is on",
      .says = poisoned_words(finding.facts(kMaterial), code),
      .action = fmt::format("take the soil out or have it tested; 'log {} {}' ends this once it "
                            "is clean",
                            code, kAllClear),
      .tag = "eat nothing of it"};
}

std::string not_eaten_doubt_words(const std::string& crop) {
  return fmt::format("eaten=no: people eat {}, and 'no' lifts every wait for it", crop);
}

std::string off_soil_doubt_words(const std::string& crop) {
  return fmt::format(
      "touches_soil=no: {} grows on the soil or is splashed by it, and 'no' cuts "
      "its wait to 90 days",
      crop);
}

std::string banned_words(const model::Material& material, bool refused) {
  return material.name + (refused ? " must not go on a bed that feeds people"
                                  : " ends organic growing on this bed");
}

std::string not_yet_words(const model::Material& material, const Wait& wait,
                          const std::string& bed) {
  return fmt::format("{} of {} is not to be eaten before {}, {} days after {} went on: {}; {}",
                     material.name, bed, measure::full_day_words(wait.safe), wait.days,
                     wait.load.material.name, chain_words(wait.trail, bed), wait.trail.because);
}

}  // namespace kinds::bed
