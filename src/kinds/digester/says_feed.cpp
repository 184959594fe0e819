#include <array>
#include <cmath>

#include "kinds/digester/facts.h"
#include "kinds/digester/says.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

// Of what it is fed and how its slurry bears it.
namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Number;
using measure::Printer;
using model::Finding;
using model::Words;

std::string milligrams(Number content) {
  return Printer::labelled(content.value, "mg/L");
}

// Each sign that is off, with its limit; the first is short enough for a line.
struct Sign {
  std::string brief, whole;
};
std::vector<Sign> signs(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const model::Rules& rules = study.rules();
  const auto& facts = finding.facts;
  const bool sour = finding.case_of == kCaseSour;
  const measure::Ph ph_limit = rules(sour ? limits::sour_ph : limits::sour_ph_watch);
  const Number ratio_limit = rules(sour ? limits::sour_ratio : limits::sour_ratio_watch);
  std::vector<Sign> found;
  if (const auto ph = facts.get(kPhNow); ph && *ph < ph_limit) {
    found.push_back({fmt::format("{}, limit {}", print.beside(*ph, ph_limit),
                                 measure::print_number(ph_limit.value, 1)),
                     fmt::format("{}, below {}", print.beside(*ph, ph_limit), print(ph_limit))});
  }
  if (const auto ratio = facts.get(kRatio); ratio && *ratio > ratio_limit) {
    const std::string shown = print.beside(*ratio, ratio_limit);
    const std::string most = measure::print_number(ratio_limit.value, 2);
    found.push_back({fmt::format("acids {}, limit {}", shown, most),
                     fmt::format("acids to alkalinity {} by {}, above {}", shown,
                                 facts.is(kTitrated) ? "titration" : "laboratory", most)});
  }
  const Number most{rules(limits::sour_vfa).value};
  if (const auto acids = facts.get(kAcidsNow); acids && *acids > most) {
    found.push_back(
        {"acids " + milligrams(*acids),
         fmt::format("volatile acids {}, above {}", milligrams(*acids), milligrams(most))});
  }
  if (facts.is(kSmellsSour)) found.push_back({"it smells sour", "it smells sour"});
  return found;
}

Words sour_words(const Finding& finding, const Study& study) {
  const bool sour = finding.case_of == kCaseSour;
  const std::vector<Sign> off = signs(finding, study);
  std::vector<std::string> all;
  for (const Sign& one : off) all.push_back(one.whole);
  const auto ration = finding.facts.get(kShare);
  const std::string& sign = off.front().brief;
  std::string line = (sour ? "stop feeding: " : "halve the feed: ") + sign;
  if (!sour && ration) {
    line = fitting({fmt::format("feed at most {} a day: {}",
                                daily_amount(study.feed(), ration->value, study.print()), sign),
                    fmt::format("feed {:.0f} % of it: {}", std::floor(ration->value * 100), sign)});
  }
  return {.line = std::move(line),
          .says = (sour ? "souring: " : "turning sour: ") + measure::joined(all, "; "),
          .why =
              "acids pile up faster than they turn to gas: too much feed, too cold, or "
              "something that harms it",
          .action = sour ? "stop feeding, stir, keep it warm, read pH daily; feed again, half as "
                           "much, once it is back at " +
                               study.print()(study.rules()(limits::sour_ph_watch)) +
                               "; only if it stays down after a week, fresh cattle manure or a "
                               "little lime"
                         : (ration ? "feed no more than " +
                                         daily_words(study.feed(), ration->value, study.print()) +
                                         " a day"
                                   : "halve the feed") +
                               ", leave out food and fat, and read pH daily"};
}

Words ammonia_words(const Finding& finding, const Study&) {
  Words words{
      .line = "thin it, feed straw: smells of ammonia",
      .says = "it smells of ammonia",
      .action =
          "thin it with water, feed straw or plants rather than manure, and nothing of poultry"};
  const auto free = finding.facts.get(kFreeAmmoniaNow);
  const std::string most = finding.limit ? milligrams(Number{finding.limit->value.si}) : "";
  if (finding.case_of == kCaseFree) {
    const std::string shown = milligrams(Number{std::round(free->value)});
    words.line = "thin it, feed straw: ammonia " + shown;
    words.says = fmt::format("free ammonia about {} as nitrogen, above {}", shown, most);
    words.why =
        "worked out for dilute water from total ammonia, pH and temperature: in slurry it is "
        "rather "
        "less";
  } else if (finding.case_of == kCaseTotal) {
    const std::string shown = milligrams(Number{std::round(finding.facts(kTotalNow).value)});
    words.line = "thin it, feed straw: ammonia " + shown;
    words.says = fmt::format("total ammonia {} as nitrogen, above {}", shown, most);
    words.why = free ? "the rest turns to free ammonia as pH or warmth rise"
                     : "no pH of late says how much of it is free; it is taken as harmful";
  } else if (!free) {
    words.why = "no analysis of total ammonia with a pH says how much";
  }
  return words;
}

Words nitrogen_words(const Finding& finding, const Study&) {
  const std::string ratio = ratio_words(finding.facts(kFeedRatio));
  return {.line = fmt::format("mix in straw or plants: feed C:N {}", ratio),
          .says = fmt::format("its feed is {} carbon to nitrogen, below {:.0f}:1", ratio,
                              finding.limit->value.si),
          .why = "so much nitrogen turns to ammonia, which stops the gas",
          .action =
              "mix in straw, leaves or other plants, thin it with water, and have total "
              "ammonia read with a pH"};
}

Words banned_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const auto& facts = finding.facts;
  if (finding.case_of == kCaseTooMuch) {
    const std::string share = print.beside(facts(kShare), study.rules()(limits::limited_most));
    return {
        .line = fmt::format("leave out oil and citrus: {} of the feed", share),
        .says = fmt::format("oil, grease and citrus are {} of the feed of {}, above {}", share,
                            days_words(facts(kDays)), print(study.rules()(limits::limited_most))),
        .why = "they sour it, float and slow the microbes",
        .action =
            "leave them out until the share is down; a pile or the larvae take them "
            "better"};
  }
  const std::string name = facts(kMaterial);
  const std::string day = measure::day_words(facts(kDay), study.history().today);
  return {.line = fitting({fmt::format("no more {}: went in {}", name, day),
                           fmt::format("no more {}: it went in", name),
                           "no more of what went in " + day}),
          .says = fmt::format("{} went in on {}", name, day),
          .why = ban_words(facts(kBan), name, study.rules()),
          .action = "feed no more of it; read pH and watch the flame for two weeks"};
}

Words overfed_words(const Finding& finding, const Study& study) {
  const Printer print = study.print();
  const auto& facts = finding.facts;
  const double share = facts(kShare).value;
  Words words{
      .line = fitting(
          {fmt::format("feed at most {} a day: got {}", daily_amount(study.feed(), share, print),
                       daily_amount(study.feed(), 1, print)),
           "feed less: " + loading_words(facts(kLoadingNow).value)}),
      .says = fmt::format("fed {} on average over {}, above {} at {}",
                          loading_words(facts(kLoadingNow).value, facts(kLoadingLimit).value),
                          days_words(facts(kDays)), loading_words(facts(kLoadingLimit).value),
                          print(facts(kAt))),
      .action = fmt::format("feed no more than {} a day ({:.0f} % of what it got) until its "
                            "pH and its gas are steady",
                            daily_words(study.feed(), share, print), std::floor(share * 100))};
  if (finding.case_of == kCaseCold)
    words.action += fmt::format("; or warm it ({} at {}), or let it rest till it is warm",
                                loading_words(facts(kWarmLimit).value),
                                print(study.rules()(limits::cold_below)));
  if (facts.is(kAssumedWarm))
    words.why = "its temperature is not read often enough; a warm digester is assumed";
  return words;
}

Words short_words(const Finding& finding, const Study& study) {
  const int stay = full_days(finding.facts(kStay));
  const int wanted = full_days(measure::Days{finding.limit->value.si});
  Words words{.line = fmt::format("less feed and water: stays {} of {} days", stay, wanted),
              .says = fmt::format("feed and water stay only {} in it, less than {}{}",
                                  days_words(stay), days_words(wanted),
                                  finding.case_of == kCaseWinter ? " through a winter" : ""),
              .why = "what leaves early leaves undigested, and takes the microbes with it"};
  if (const auto most = finding.facts.get(kMostADay)) {
    words.action = fmt::format("feed no more than {} of feed and water a day, or less water",
                               slurry_words(*most, study.print()));
  }
  return words;
}

}  // namespace

Words feed_words(const Finding& finding, const Study& study) {
  struct Row {
    std::string_view rule;
    Words (*words)(const Finding&, const Study&);
  };
  static constexpr std::array kRows{
      Row{kRuleSour, sour_words},         Row{kRuleAmmonia, ammonia_words},
      Row{kRuleNitrogen, nitrogen_words}, Row{kRuleBanned, banned_words},
      Row{kRuleOverfed, overfed_words},   Row{kRuleShort, short_words},
  };
  for (const Row& row : kRows) {
    if (row.rule == finding.rule) return row.words(finding, study);
  }
  return {};
}

std::string ban_words(Ban ban, const std::string& material, const model::Rules& rules) {
  switch (ban) {
    case Ban::kPoison:
      return material + " must not go into a digester: it poisons it or comes out on the beds";
    case Ban::kSulfur:
      return material +
             " feeds hydrogen sulfide: a digester turns its sulfur into a gas that kills";
    case Ban::kPoultry:
      return material +
             " is refused: its nitrogen turns to ammonia, which stops the gas (start the batch "
             "with poultry=yes to take it)";
    case Ban::kPoultryTaken:
      return material + " brings ammonia: little by little, and watch the pH";
    case Ban::kLimited:
      return fmt::format(
          "{} in small amounts only: with other oil and citrus no more than {} of the feed",
          material, Printer(measure::UnitSystem::kMetric)(rules(limits::limited_most)));
    case Ban::kWoody:
      return material + " does not digest: it floats, forms a crust and blocks the outlet";
    case Ban::kSettling:
      return material + " settles or blocks, and takes up the room of the slurry";
    case Ban::kAnimal:
      return material + " stinks, draws pests and may carry germs that a digester does not kill";
    case Ban::kNone:
      break;
  }
  return {};
}

}  // namespace kinds::digester
