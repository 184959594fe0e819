#include <fmt/format.h>

#include "kinds/finding.h"
#include "kinds/pile/facts.h"
#include "kinds/pile/says.h"
#include "measure/text.h"

// What is said of what goes into a pile, and of compost that leaves it.
namespace kinds::pile {
namespace {

using measure::Celsius;

std::string unripe_words(const Standing& at, const Study& study) {
  const std::string heat = fmt::format("({})", study.print()(Celsius{at.peak_now}));
  switch (at.stage) {
    case Stage::kUnread:
      return "its temperature was never read";
    case Stage::kWarming:
      return fmt::format("it had just begun to warm {}", heat);
    case Stage::kNotHeating:
      return fmt::format("it never heated {}", heat);
    case Stage::kWarm:
    case Stage::kHot:
      return at.dipped ? fmt::format("it was still hot, just turned {}", heat)
                       : fmt::format("it was still {} {}", word(at.stage), heat);
    case Stage::kCooling:
      return fmt::format("it was cooling and had not cured {}", heat);
    case Stage::kCuring:
    case Stage::kResting:
      return "it had not cured: it needed " + wanting_words(at, study);
    case Stage::kReady:
      return "";
  }
  return "";
}

std::string lack_words(const std::string& unripe, std::string_view treatment) {
  std::string text = unripe;
  if (treatment.empty()) return text;
  return text + (text.empty() ? "" : ", and ") + std::string(treatment) + " was not shown";
}

std::string harm_words(bool unripe) {
  return unripe ? "unfinished compost takes nitrogen from the soil and harms seeds and young roots"
                : "nothing shows that germs and weed seeds in it are dead";
}

Standing standing_of(const model::Facts& facts) {
  Standing at;
  at.stage = facts(kStageThen);
  at.peak_now = facts(kNow).value;
  at.dipped = facts.is(kJustDipped);
  at.wants = {facts(kWants), facts(kWantsDays), facts(kAboveAir)};
  at.curing_days = facts(kCuringDays);
  return at;
}

}  // namespace

std::string use_words(const Lack& lack, const Study& study) {
  const std::string treatment = lack.treatment ? std::string(lack.treatment->name) : "";
  if (!lack.unripe) {
    return fmt::format(
        "not shown to be treated ({}: {}). Where manure went in, treat the bed as after raw manure",
        treatment, reason_words(*lack.treatment, study));
  }
  return fmt::format("not done yet: {}. Keep seeds and young roots away from it for some weeks",
                     lack_words(unripe_words(study.at(), study), treatment));
}

model::Words unready_words(const model::Finding& finding, const Study& study) {
  const model::Facts& facts = finding.facts;
  const std::string bed = facts(kBed);
  const bool unripe = finding.case_of == kCaseUnfinished;
  model::Words words;
  words.line =
      unripe ? "sow nothing tender there: compost not done" : "keep the bed as after raw manure";
  words.says = fmt::format("{} went to {} on {} {}: {}", facts(kMaterial), bed,
                           measure::day_words(facts(kCarried), study.history().today),
                           unripe ? "before it was done" : "untreated by the records",
                           lack_words(unripe ? unripe_words(standing_of(facts), study) : "",
                                      facts.get(kNotShown).value_or("")));
  words.why = harm_words(unripe);
  words.tag = fmt::format("{} in {}", unripe ? "nothing tender" : "handle as raw", bed);
  words.action = unripe
                     ? fmt::format(
                           "sow and plant nothing tender in {} for some weeks, and carry no more "
                           "until the pile is done",
                           bed)
                     : fmt::format("where manure went in, keep {} as after raw manure", bed);
  return words;
}

std::string adding_words(const Treatment& one, int kept, const Study& study) {
  const std::string days =
      one.window ? count_words(one, study.print()) : days_words(one.tally.counted);
  if (one.outcome == Outcome::kShown) {
    return fmt::format(
        "{} is shown, and adding this means treating the whole pile again; a pile of its own "
        "avoids that",
        one.name);
  }
  return fmt::format("the days for {} would {}: {} so far; a pile of its own keeps them", one.name,
                     kept > 0
                         ? fmt::format("fall back to the {} of what is added", days_words(kept))
                         : "start over with it",
                     days);
}

std::string raw_leaves_words(const model::Material& raw, const Study& study) {
  return fmt::format(
      "it counts as raw: {} went in, and {}; tell whoever gets it, and keep the wait before "
      "harvest",
      raw.name, reason_words(study.treatment(Standard::kNop), study));
}

std::string ending_hot_words(const model::Finding& hot, const Study& study) {
  return fmt::format("{}, and closed it is read no more: cool it, read it again, then end it",
                     words_of(hot, study).says);
}

std::string herbicide_words(const std::vector<std::string>& of, bool failed) {
  const std::string names = measure::listed(of, "and");
  if (failed) {
    return fmt::format(
        "the bioassay failed: a lasting herbicide is in it, from {} perhaps; keep it "
        "from beans, peas, tomatoes and other broad leaves",
        names);
  }
  return fmt::format(
      "{} can carry a lasting herbicide: try peas in some of it before beans or tomatoes, log "
      "bioassay-passed or bioassay-failed",
      names);
}

std::string banned_words(const model::Material& material, Banned why) {
  const auto never = [&](std::string because) {
    return fmt::format("{} never goes into a pile: {}", material.name, because);
  };
  const auto care = [&](std::string_view because) {
    return fmt::format("{}: {}", material.name, because);
  };
  switch (why) {
    case Banned::kForbidden: {
      std::string because = material.meaning.empty() ? "it does not become soil" : material.meaning;
      if (because.back() == '.') because.pop_back();
      because[0] = static_cast<char>(because[0] >= 'A' && because[0] <= 'Z' ? because[0] - 'A' + 'a'
                                                                            : because[0]);
      return never(because);
    }
    case Banned::kSynthetic:
      return never("a synthetic chemical makes the compost unfit for organic growing");
    case Banned::kPetWaste:
      return never(
          "it carries roundworm (Toxocara) and toxoplasmosis, whose eggs outlast a garden heap");
    case Banned::kHumanWaste:
      return never(
          "it carries hepatitis A, norovirus and worm eggs, and the food safety rule bars it from "
          "ground that grows produce");
    case Banned::kCarcass:
      return care(
          "dead stock can carry avian influenza and salmonella: report several dead birds to the "
          "state veterinarian first, wear gloves, and compost it apart, deep in chips, as state "
          "rules on dead stock say");
    case Banned::kAnimal:
      return care(
          "meat, bones and fish draw rats and flies, and count as raw until treated; bury them "
          "deep "
          "in a hot pile or leave them out");
    case Banned::kFat:
      return care(
          "fat and milk shut out air and water, and smell; only a little, deep in a hot pile");
    case Banned::kLargeWood:
      return care("large wood takes years to rot; chip it first or burn it to char");
    case Banned::kDiseased:
      return care("only a pile that gets hot all through kills what it carries");
  }
  return "";
}

}  // namespace kinds::pile
