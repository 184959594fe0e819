#include "kinds/tank/says.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/tank/facts.h"
#include "kinds/tank/study.h"
#include "kinds/tank/vocabulary.h"
#include "measure/text.h"

namespace kinds::tank {
namespace {

using measure::Fraction;
using measure::Litres;
using model::Finding;
using model::Words;

constexpr measure::Metres kAnInch{0.0254};
constexpr measure::Metres kAMillimetre{0.001};

// "30 %": whole, as a line wants it.
std::string share_words(Litres part, Litres whole) {
  return fmt::format("{:.0f} %", part / whole * 100);
}

std::string about(bool carried_on) {
  return carried_on ? "about " : "";
}

std::string level_action(std::string_view case_of) {
  if (case_of == kCaseTooHigh) {
    return "read the level again, and log rain or added water that is missing";
  }
  if (case_of == kCaseNoRainCame) {
    return "look for a blocked gutter, screen or first-flush pipe, or a draw not logged";
  }
  if (case_of == kCaseRainCameShort) {
    return "look for a gutter that runs over, a leak, or a draw not logged";
  }
  return "look for a leak, an open tap, or a draw not logged; read the level again";
}

std::string_view level_verb(std::string_view case_of) {
  if (case_of == kCaseTooHigh) return "read it again";
  if (case_of == kCaseNoRainCame) return "clear the gutter";
  if (case_of == kCaseRainCameShort) return "check the gutter";
  return "look for a leak";
}

Words level_words(const Finding& finding, const Study& study) {
  const measure::Printer print = study.print();
  const model::Day today = study.history().today;
  const bool is_high = finding.case_of == kCaseTooHigh;
  const Litres held = finding.facts(kFactHeld);
  const Litres expected = finding.facts(kFactExpected);
  const Litres capacity = finding.facts(kFactCapacity);
  const model::Day read = finding.facts(kFactReadOn);
  Words words;
  words.line = fmt::format("{}: {} read, {} by the rain", level_verb(finding.case_of),
                           share_words(held, capacity), share_words(expected, capacity));
  const std::string holds = read == today
                                ? fmt::format("it holds {}", water_words(held, print))
                                : fmt::format("it held {} on {}", water_words(held, print),
                                              measure::day_words(read, today));
  words.says = fmt::format("{}; expected at {} {} since {}", holds, is_high ? "most" : "least",
                           water_words(expected, print),
                           measure::day_words(finding.facts(kFactReadBefore), today));
  words.why = fmt::format("{} drawn, {} of rain", water_words(finding.facts(kFactDrawn), print),
                          print(measure::value_of(finding.facts(kFactRain)), kRainDepth));
  words.action = level_action(finding.case_of);
  return words;
}

Words full_words(const Finding& finding, const Study& study) {
  const measure::Printer print = study.print();
  const Litres held = finding.facts(kFactHeld);
  const Litres capacity = finding.facts(kFactCapacity);
  Words words;
  const bool reckoned = finding.facts.is(kFactCarriedOn);
  words.line = fmt::format("use it first: {}{}", share_words(held, capacity),
                           reckoned ? " by the rain logged" : " full, rain will spill");
  words.tag = reckoned ? "full by the rain" : "full";
  words.says = fmt::format("it is full: {}{} of {}, and the next rain spills",
                           about(finding.facts.is(kFactCarriedOn)), water_words(held, print),
                           water_words(capacity, print));
  words.action = "use it first, before any mains water";
  return words;
}

// "6 days at 40 L a day without rain, by 28 draws in 28 days"
std::string lasting_words(int days, const Draw& draw, const measure::Printer& print) {
  return fmt::format("{} at {} a day without rain, {}", days_words(days),
                     water_words(draw.a_day, print), draw_words(draw.basis, draw.draws, draw.days));
}

Words low_words(const Finding& finding, const Study& study) {
  const measure::Printer print = study.print();
  const int days = finding.facts(kFactDays);
  const Draw draw{finding.facts(kFactDrawADay),
                  static_cast<DrawBasis>(finding.facts(kFactDrawBasis)), finding.facts(kFactDraws),
                  finding.facts(kFactDrawDays)};
  Words words;
  words.line = fmt::format("save it: {}water for {}", about(finding.facts.is(kFactCarriedOn)),
                           days == 0 ? "less than a day" : days_words(days));
  words.says =
      fmt::format("{}{} is left: {}, below {}", about(finding.facts.is(kFactCarriedOn)),
                  water_words(finding.facts(kFactHeld), print), lasting_words(days, draw, print),
                  days_words(finding.facts(kFactLeastDays)));
  words.action = "draw for what needs it most, and plan other water";
  return words;
}

Words clean_words(const Finding& finding, const Study&) {
  const std::string days = days_words(finding.facts(kFactDays));
  return {.line = fmt::format("clean gutters and screens: {} ago", days),
          .says = fmt::format("gutters and screens not cleaned for {}", days),
          .action =
              "clear gutters and screens, look that lid and overflow are screened against "
              "mosquitoes, and log cleaned"};
}

Words flush_words(const Finding& finding, const Study&) {
  const std::string days = days_words(finding.facts(kFactDays));
  return {.line = fmt::format("empty the first-flush pipe: {} ago", days),
          .says = fmt::format("the first-flush pipe was not emptied for {}", days),
          .action = "empty it, rinse its screen, and log flushed"};
}

Words foul_words(const Finding& finding, const Study& study) {
  const std::string day = measure::day_words(finding.facts(kFactSeenOn), study.history().today);
  const std::string seen = finding.facts(kFactWater);
  const bool wrigglers = finding.case_of == kWrigglers.word;
  const bool green = finding.case_of == kGreen.word;
  Words words;
  words.line = wrigglers ? fmt::format("mesh every gap: wrigglers {}", day)
               : green   ? fmt::format("keep the light out: green {}", day)
                         : fmt::format("find what fouls it: {} {}", seen, day);
  words.says = fmt::format("its water was {} {}", wrigglers ? "full of wrigglers" : seen, day);
  words.action = wrigglers ? "close every gap wider than 1/16 inch (1.5 mm) with mesh"
                 : green   ? "keep the light out of the tank"
                           : "look for a dead animal, leaves and sludge";
  words.action += "; log clear once it is";
  return words;
}

Words drink_words(const Finding& finding, const Study& study) {
  Words words;
  if (finding.case_of == kCaseTaken) {
    const std::string day = measure::day_words(finding.facts(kFactTakenOn), study.history().today);
    words.line = fmt::format("do not drink it: drawn {}", day);
    words.says = fmt::format("{} was taken for {} {}", finding.facts(kFactTaken),
                             finding.facts(kFactPurpose), day);
  } else {
    words.line = "do not drink it: it is among its uses";
    words.says = fmt::format("among its uses is {}", measure::quoted(finding.facts(kFactUses)));
  }
  words.action = "do not drink it, cook with it or wash with it what is eaten raw";
  return words;
}

// What was not told at the start, and what cannot be said for it.
struct Missing {
  std::string names, settings, so;
};

std::optional<Missing> missing_of(const Study& study) {
  const bool roof = study.roof().has_value();
  const bool capacity = study.capacity().has_value();
  if (roof && capacity) return std::nullopt;
  if (capacity) {
    return Missing{"roof", "roof= (its outline on the ground)",
                   "what rain brings is not foreseen, and no size judged"};
  }
  if (roof) {
    return Missing{"capacity",
                   "capacity=", "what a level in % holds and when it spills are not known"};
  }
  return Missing{"roof and capacity", "roof= (its outline on the ground) and capacity=",
                 "neither what rain brings nor when it spills is foreseen"};
}

std::string runoff_basis(const model::Batch& batch) {
  if (batch.number(kRunoff)) return "as told";
  return batch.text(kSurface, "surface not given");
}

// "about 340 L of 1,000 L, by rain and draws since it was read Tue 2 Mar"
std::string holding_words(const Holding& holds, const Study& study) {
  const measure::Printer print = study.print();
  const model::Day today = study.history().today;
  const model::Day read = holds.last.day;
  const std::string day = measure::day_words(read, today);
  const std::string since = holds.carried_on
                                ? fmt::format("by rain and draws since it was read {}", day)
                                : fmt::format("read {}", read == today ? "today" : day);
  const auto capacity = study.capacity();
  return fmt::format("{}{}{}, {}", about(holds.carried_on), water_words(holds.held, print),
                     capacity ? " of " + water_words(*capacity, print) : "", since);
}

struct Said {
  std::string_view rule;
  Words (*words)(const Finding&, const Study&);
  std::string_view tag{};
};
constexpr std::array kSaid{
    Said{kRuleLevel, level_words, "level"},
    Said{kRuleFull, full_words},
    Said{kRuleLow, low_words, "low"},
    Said{kRuleClean, clean_words, "gutters and screens"},
    Said{kRuleFlush, flush_words, "first flush"},
    Said{kRuleFoul, foul_words},
    Said{kRuleDrink, drink_words},
};

}  // namespace

std::string not_of_a_tank_words(const std::string& material) {
  return fmt::format("{} does not come out of a tank", material);
}

std::string water_words(Litres water, const measure::Printer& print) {
  return print(measure::value_of(water), kWater);
}

std::string much_rain_words(std::optional<int> gap, const Study& study) {
  const std::string ask = "if it is the total of a longer time, log each day's own";
  if (!gap) return "more than any but the rarest storm brings in a day: " + ask;
  return fmt::format(
      "a lot for one day, and no rain was logged {}: {}",
      *gap > 0 ? "for " + days_words(*gap) : "before in " + study.history().batch.code, ask);
}

std::string draw_words(DrawBasis basis, int draws, int days) {
  if (basis == DrawBasis::kUsesNoDraws) return "by the uses given, as none was drawn lately";
  const std::string logged =
      fmt::format("{} draw{} in {}", draws, draws == 1 ? "" : "s", days_words(days));
  if (basis == DrawBasis::kDraws) return "by " + logged;
  return fmt::format("by the uses given: {} {} too few to go by", logged,
                     draws == 1 ? "is" : "are");
}

Words words_of(const Finding& finding, const Study& study) {
  for (const Said& one : kSaid) {
    if (finding.rule != one.rule) continue;
    Words words = one.words(finding, study);
    if (!one.tag.empty()) words.tag = one.tag;
    return words;
  }
  return {};
}

std::vector<model::Progress> progress_of(const Study& study) {
  const measure::Printer print = study.print();
  const model::History& history = study.history();
  std::vector<model::Progress> all;
  if (const auto& roof = study.roof()) {
    const bool us = history.units == measure::UnitSystem::kUs;
    const RainDay rain{history.today, history.now, us ? kAnInch : kAMillimetre, {}};
    all.push_back(
        {"catch",
         fmt::format("{} of rain on {} brings {} ({} of it, {})", us ? "an inch" : "a millimetre",
                     print(roof->area), water_words(caught(rain, *roof, roof->usual), print),
                     print(roof->usual), runoff_basis(history.batch)),
         std::nullopt});
  }
  if (const auto missing = missing_of(study)) {
    all.push_back({"not given at the start", missing->settings + ": " + missing->so, std::nullopt});
  }
  const auto& holds = study.holding();
  if (!holds) return all;
  const std::string water = holding_words(*holds, study);
  if (const auto capacity = study.capacity()) {
    all.push_back(kinds::progress("water", holds->held.value, capacity->value, water));
  } else {
    all.push_back({"water", water, std::nullopt});
  }
  all.back().briefly = about(holds->carried_on) + water_words(holds->held, print);
  if (const auto& draw = study.draw()) {
    const int days = full_days(measure::Days{holds->held / draw->a_day});
    all.push_back({"supply", lasting_words(days, *draw, print), std::nullopt, true});
  }
  return all;
}

std::vector<model::Forecast> forecasts_of(const Study& study) {
  const auto& holds = study.holding();
  const auto& draw = study.draw();
  if (!holds || !draw) return {};
  const model::Day today = study.history().today;
  const model::Day dry = today + date::days{full_days(measure::Days{holds->held / draw->a_day})};
  return {{"empty",
           std::nullopt,
           dry,
           std::nullopt,
           fmt::format("{} if it does not rain, at {} a day", measure::day_words(dry, today),
                       water_words(draw->a_day, study.print())),
           {},
           "empty, if it does not rain",
           "level without rain"}};
}

std::string well_words(const Study& study) {
  const auto& holds = study.holding();
  const auto missing = missing_of(study);
  return (holds ? holding_words(*holds, study) : study.stage()) +
         (missing ? fmt::format(", {} not given: {}", missing->names, missing->so) : "");
}

}  // namespace kinds::tank
