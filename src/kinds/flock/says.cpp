#include "kinds/flock/says.h"

#include "kinds/finding.h"
#include "kinds/flock/facts.h"
#include "kinds/flock/vocabulary.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

namespace kinds::flock {
namespace {

using measure::Printer;
using model::Finding;
using model::Words;

// Of grams a hen: ounces at a US site.
std::string weight(measure::Number grams, const Printer& print) {
  return print(measure::Kilograms{grams.value / 1000});
}

// No more digits than a hand can act on.
std::string whole_weight(measure::Number grams, const Printer& print) {
  if (print.system() == measure::UnitSystem::kUs) return weight(grams, print);
  return measure::print_number(grams.value, grams.value < 10 ? 1 : 0) + " g";
}

std::string whole_percent(measure::Fraction share) {
  return measure::print_number(share.value * 100, 0) + " %";
}

Words short_words(const Finding& one, std::string_view of, const Printer& print) {
  const auto& facts = one.facts;
  return {
      .line = {},
      .says = fmt::format("{} of {} a hen a day by the records, of {}",
                          weight(facts(kIntake), print), of, weight(facts(kNeed), print)),
      .why = fmt::format("over {}, not counting what they find outside", days_words(facts(kDays)))};
}

// "3 g of 3.5 g a hen".
std::string of_need_words(const Finding& one, const Printer& print) {
  return fmt::format("{} of {} a hen", whole_weight(one.facts(kIntake), print),
                     whole_weight(one.facts(kNeed), print));
}

Words feed_words(const Finding& one, const Printer& print) {
  Words words = short_words(one, name_of(Part::kFeed), print);
  words.line = fmt::format("fill the feeder: {} eaten", of_need_words(one, print));
  words.action = "see that the feeder never runs empty, or log the feed that is missing here";
  return words;
}

Words protein_words(const Finding& one, const Printer& print) {
  Words words = short_words(one, name_of(Part::kProtein), print);
  words.line = fmt::format("feed more protein: {}", of_need_words(one, print));
  words.action = "feed less scratch and more layer feed or larvae";
  return words;
}

Words calcium_words(const Finding& one, const Printer& print) {
  Words words = short_words(one, name_of(Part::kCalcium), print);
  words.line = fmt::format("put out oyster shell: {}", of_need_words(one, print));
  words.action = "put out oyster shell";
  if (const auto content = one.facts.get(kContent)) {
    words.action += fmt::format("; a ration of {} a hen a day would have to hold {} calcium",
                                weight(one.facts(kFedEach), print), print(*content));
  }
  return words;
}

std::string beside_words(std::optional<int> feed_days, measure::Number ration,
                         const Printer& print) {
  return feed_days ? fmt::format("beside the feed of the last {}", days_words(*feed_days))
                   : fmt::format("of a ration of {} a hen a day, as too little feed is recorded",
                                 weight(ration, print));
}

std::string share_words(measure::Fraction share, int days, const Printer& print) {
  return fmt::format("{} of the ration's dry matter over {}", print(share), days_words(days));
}

Words too_many_larvae(const Finding& one, const Printer& print) {
  const auto& facts = one.facts;
  const std::string most = print(facts(kMostLarvae));
  return {
      .line = fmt::format("feed fewer larvae: {} a day at most", most),
      .says = fmt::format("larvae are {}, above {}",
                          share_words(facts(kLarvaeShare), facts(kDays), print),
                          print(facts(kMostShare))),
      .why = beside_words(facts.get(kFeedDays), facts(kRationEach), print),
      .action = fmt::format("give at most {} of them a day, and the layer feed beside it", most)};
}

std::string reason_words(const model::Reason& reason) {
  return reason.id == kReasonShort
             ? "the records show too little " + measure::joined(reason.facts(kShortOf), ", ")
             : fmt::format("hens were seen {}", reason.facts(kSeen));
}

Words fell_words(const Finding& one, const Printer& print) {
  const auto& facts = one.facts;
  std::vector<std::string> why;
  for (const model::Reason& reason : one.reasons) why.push_back(reason_words(reason));
  return {.line = fmt::format("find out why: laying is down {}", whole_percent(facts(kFall))),
          .says = fmt::format("laying is down {}: {} over {}, {} over {} before",
                              print(facts(kFall)), print(facts(kRate)), days_words(facts(kDays)),
                              print(facts(kRateBefore)), days_words(facts(kDaysBefore))),
          .why = why.empty() ? "nothing on record explains it" : measure::joined(why, "; "),
          .action =
              "look for empty feeders and water, molt, heat, mites, broody hens, short days, "
              "and eggs laid away or eaten"};
}

Words miscounted_words(const Finding& one) {
  const auto& facts = one.facts;
  const std::string eggs = measure::print_number(facts(kLaid).value, 0);
  const std::string birds = measure::print_number(facts(kHenCount).value, 0);
  return {.line = fmt::format("count the birds: {} eggs of {} in {}", eggs, birds,
                              days_words(facts(kDays))),
          .says = fmt::format("{} eggs in {} from {} hens: more than one a hen a day", eggs,
                              days_words(facts(kDays)), birds),
          .action = "count the birds, and look for a day's eggs that were logged twice"};
}

Words ailing_words(const Finding& one, model::Day today) {
  const std::string seen = measure::day_words(one.facts(kSeenOn), today);
  return {.line = fmt::format("set ill hens apart: seen ailing {}", seen),
          .says = fmt::format("hens were seen ailing {}", seen),
          .action = "set ill birds apart, and log well once they are"};
}

Words dead_words(const Finding& one) {
  const std::string count = measure::print_number(one.facts(kDeadCount).value, 0);
  const std::string days = days_words(one.facts(kDays));
  if (one.case_of == kCaseOne) {
    return {.line = "look the others over: 1 found dead",
            .says = fmt::format("1 bird was found dead within {}", days),
            .action = "look the others over each day; bury or bag it as your rules ask, gloves on"};
  }
  return {.line = fmt::format("call the vet, hold eggs back: {} dead", count),
          .says = fmt::format("{} birds were found dead within {}", count, days),
          .why = "several at once can be bird flu or another disease that must be reported",
          .action =
              "call a vet or the state veterinarian today, hold back eggs and meat, and move no "
              "birds until they have said"};
}

}  // namespace

Words words_of(const Finding& one, const Study& study) {
  const Printer print = study.print();
  if (one.rule == kRuleFeed) return feed_words(one, print);
  if (one.rule == kRuleProtein) return protein_words(one, print);
  if (one.rule == kRuleCalcium) return calcium_words(one, print);
  if (one.rule == kRuleShare) return too_many_larvae(one, print);
  if (one.rule == kRuleLaying) return fell_words(one, print);
  if (one.rule == kRuleRecord) return miscounted_words(one);
  if (one.rule == kRuleDead) return dead_words(one);
  return ailing_words(one, study.history().today);
}

std::string laying_words(const Laying& laying) {
  const Eggs& eggs = laying.now;
  std::string says = fmt::format("{} eggs in {}", measure::print_number(eggs.laid.value, 0),
                                 days_words(eggs.by_movements ? eggs.span : eggs.days));
  if (eggs.by_movements) says += " by what went out";
  return says + (laying.rate ? fmt::format(", laying at {}", whole_percent(*laying.rate))
                             : ", number of hens not on record");
}

std::string no_count_words() {
  return "how many is not on record: log it, like birds=8; without it there is no laying rate";
}

std::string larvae_words(const LarvaeShare& larvae, const Study& study) {
  if (!larvae.share) return "not known: neither the number of hens nor enough feed is recorded";
  const Printer print = study.print();
  return fmt::format("{}, {}; {} at most", share_words(*larvae.share, larvae.days, print),
                     beside_words(larvae.feed_days, larvae.ration, print),
                     print(study.rules()(thresholds::flock::share_above)));
}

std::string unknown_words(const std::set<std::string>& feeds) {
  const std::vector<std::string> names(feeds.begin(), feeds.end());
  return fmt::format("protein or calcium not known of {}, so a shortage would not show",
                     measure::joined(names, ", "));
}

std::string egg_words(const MeanEgg& egg, const measure::Printer& print) {
  return fmt::format("at {} an egg, {}", print(egg.mass),
                     egg.weighed ? "as weighed" : "none was weighed");
}

std::string stage_words(const Eggs& eggs) {
  if (eggs.days == 0) return "uncounted";
  return eggs.laid > measure::Number{0} ? "laying" : "not laying";
}

std::string doubt_words(measure::Number birds, double before) {
  return fmt::format(
      "more than {} can lay in a day{} (log birds= if there are more)",
      birds.value == 1 ? "1 hen" : measure::print_number(birds.value, 0) + " hens",
      before > 0 ? fmt::format(", with the {} logged before", measure::print_number(before, 0))
                 : "");
}

std::string more_than_hens_words(measure::Number birds) {
  return fmt::format("more than the {} there are (log birds= if there are more)",
                     measure::print_number(birds.value, 0));
}

std::string banned_words(const model::Material& material, Banned why) {
  const std::string& name = material.name;
  switch (why) {
    case Banned::kNever:
      return fmt::format("{} never goes to hens", name);
    case Banned::kManure:
      return fmt::format("{} is not feed for hens", name);
    case Banned::kOnManure:
      return fmt::format(
          "{} raised on raw manure or animal matter are not feed for hens, unless "
          "heated where the law lets them: heat, don't just dry",
          name);
    case Banned::kKitchenWaste:
      return fmt::format("EU law forbids feeding kitchen waste ({}) to hens", name);
    case Banned::kPoisons:
      return fmt::format("{} can poison hens: skins, pits and green parts", name);
    case Banned::kSalty:
      return fmt::format("{} is too salty for hens in more than bits", name);
  }
  return name;
}

}  // namespace kinds::flock
