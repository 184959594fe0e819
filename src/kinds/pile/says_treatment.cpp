#include <fmt/format.h>

#include <algorithm>

#include "kinds/finding.h"
#include "kinds/pile/says.h"
#include "kinds/thresholds.h"
#include "measure/text.h"

// What is said of a pile's treatments, of its stage, and of its use.
namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using measure::Celsius;

std::string bad_ratio_words(const StartRatio& ratio, const model::Rules& rules) {
  if (!ratio.value) {
    return fmt::format("its carbon to nitrogen at the start is not known ({})",
                       ratio_unknown_words(ratio));
  }
  const measure::Number least = rules(limits::treat_cn_least), most = rules(limits::treat_cn_most);
  return fmt::format("its carbon to nitrogen at the start was {}, outside {} to {}",
                     ratio_words(*ratio.value, *ratio.value > most ? most : least),
                     ratio_words(least), ratio_words(most));
}

std::string unread_words(int gaps) {
  return gaps > 0 ? fmt::format("; {} had no reading", days_words(gaps)) : "";
}

std::string days_reason_words(const Treatment& one, const Study& study) {
  const measure::Printer print = study.print();
  const model::Day today = study.history().today;
  switch (one.why) {
    case NotShown::kMadeCold:
      return "it is a cold pile, and the text asks for heat";
    case NotShown::kNeverRead:
      return "its temperature was never read";
    case NotShown::kNoDay:
      return fmt::format("no day kept {} at every position read", rule_words(one.rule, print));
    case NotShown::kCoreOnly:
      return fmt::format(
          "its core kept {}, but no outer place was read, nor was it turned between two heats of "
          "{}",
          rule_words(one.rule, print), days_words(one.wanted.days));
    case NotShown::kNoAir:
      return fmt::format(
          "{}, but nothing says that air was brought in: log aerated or oxygen=, or "
          "set aeration=",
          count_words(one, print));
    case NotShown::kEnded:
      return fmt::format("it ended with {}", count_words(one, print)) +
             unread_words(one.tally.gaps);
    case NotShown::kStopped:
      return fmt::format("it stopped on {} with {}", measure::day_words(one.window->last, today),
                         count_words(one, print)) +
             unread_words(one.tally.gaps);
    case NotShown::kCounting:
      return count_words(one, print);
    case NotShown::kNotFourHours:
      return fmt::format(
          "the days are there, but one reading above {} does not show four hours of it: read it "
          "hourly, or on two days running",
          print(study.rules()(limits::treat_psrp_peak)));
    case NotShown::kNeverSoHot:
      return fmt::format("the days are there, but no day's readings were all above {}",
                         print(study.rules()(limits::treat_psrp_peak)));
    case NotShown::kAverage:
      return fmt::format("the days are there, but their average is {}, not above {}",
                         print.beside(*one.best_mean, study.rules()(limits::treat_vector_mean)),
                         print(study.rules()(limits::treat_vector_mean)));
    case NotShown::kCuring:
      return fmt::format("the heat is shown ({}); curing has to follow: {}",
                         measure::day_words(one.tally.met->last, today), curing_words(study));
    case NotShown::kBadRatio:
    case NotShown::kNothing:
      return "";
  }
  return "";
}

}  // namespace

std::string_view outcome_words(Outcome outcome) {
  switch (outcome) {
    case Outcome::kShown:
      return "shown";
    case Outcome::kNotYet:
      return "not yet";
    case Outcome::kCannot:
      return "cannot be shown from these records";
  }
  return "not yet";
}

std::string reason_words(const Treatment& one, const Study& study) {
  std::string text = days_reason_words(one, study);
  if (!one.bad_ratio) return text;
  const std::string ratio = bad_ratio_words(*one.bad_ratio, study.rules());
  if (one.why != NotShown::kBadRatio) return text + "; so far " + ratio;
  return one.tally.met ? ratio + "; the days and turnings are there" : ratio;
}

std::string progress_words(const Treatment& one, const Study& study) {
  const measure::Printer print = study.print();
  const model::Day today = study.history().today;
  std::string says;
  switch (one.outcome) {
    case Outcome::kShown:
      says = fmt::format("shown on {}: {}", measure::day_words(*one.shown_on, today),
                         count_words(one, print));
      break;
    case Outcome::kNotYet:
      says = reason_words(one, study);
      if (one.earliest) {
        says += fmt::format("; {} at the earliest", measure::day_words(*one.earliest, today));
      }
      break;
    case Outcome::kCannot:
      says = fmt::format("{}: {}", outcome_words(one.outcome), reason_words(one, study));
      break;
  }
  if (one.other_reading) says += "; " + other_reading_words(one);
  return says;
}

std::string brief_progress_words(const Treatment& one, const Study& study) {
  if (one.outcome == Outcome::kShown) return "shown";
  if (one.outcome == Outcome::kCannot) return "cannot be shown";
  if (!one.window) return reason_words(one, study);
  std::string text = fmt::format("{} of {} days", one.window->days, one.wanted.days);
  if (one.wanted.turnings > 0)
    text += fmt::format(", {} of {} turnings", one.window->turnings, one.wanted.turnings);
  return text;
}

std::string asks_words(const Treatment& one, const Study& study) {
  const measure::Printer print = study.print();
  const model::Rules& rules = study.rules();
  const Requirement& wanted = one.wanted;
  std::string text = fmt::format("{} days{}, {}", wanted.days, wanted.in_a_row ? " in a row" : "",
                                 rule_words(one.rule, print));
  if (wanted.turnings > 0) text += fmt::format(", with {} turnings in that time", wanted.turnings);
  switch (one.standard) {
    case Standard::kNop:
      return text + fmt::format(", from a mix of {} to {} carbon to nitrogen",
                                ratio_words(rules(limits::treat_cn_least)),
                                ratio_words(rules(limits::treat_cn_most)));
    case Standard::kFsma:
      return text + ", followed by curing";
    case Standard::kPfrp:
      return text;
    case Standard::kPsrp:
      return text + fmt::format(", and above {} for four hours of them",
                                print(rules(limits::treat_psrp_peak)));
    case Standard::kVector:
      return text + fmt::format(", on average above {}", print(rules(limits::treat_vector_mean)));
  }
  return text;
}

std::string other_reading_words(const Treatment& one) {
  const OtherReading& other = *one.other_reading;
  const Requirement& wanted = one.wanted;
  if (!other.in_a_row) {
    return fmt::format("counted without regard to order, as {}, it would be {} of {} days",
                       one.standard == Standard::kPfrp ? "40 CFR 257 appendix II words it"
                                                       : "the text can be read",
                       other.days, wanted.days);
  }
  std::string text = fmt::format(
      "the text does not say that the days follow each other; a certifier who reads it so would "
      "see {} of {} days in a row",
      other.days, wanted.days);
  if (other.turnings) {
    text += fmt::format(" with {} of {} turnings", *other.turnings, wanted.turnings);
  }
  return text;
}

std::string rule_words(const DayRule& rule, const measure::Printer& print) {
  const std::string from = print(Celsius{rule.from});
  if (!rule.upto) return rule.above ? "above " + from : from + " or more";
  return fmt::format("{} to {}", from.substr(0, from.find(' ')), print(Celsius{*rule.upto}));
}

std::string count_words(const Treatment& one, const measure::Printer& print) {
  const Run run = one.window.value_or(Run{});
  std::string text = fmt::format("{} of {} days{} {}{}", run.days, one.wanted.days,
                                 one.wanted.in_a_row ? " in a row" : "",
                                 one.rule.above ? "" : "at ", rule_words(one.rule, print));
  if (one.wanted.turnings > 0) {
    text += fmt::format(", {} of {} turnings", run.turnings, one.wanted.turnings);
  }
  if (one.cured_since) text += ", cured since";
  return text;
}

std::string ratio_unknown_words(const StartRatio& ratio) {
  switch (ratio.unknown) {
    case StartRatio::Unknown::kNothingWentIn:
      return "nothing is recorded as having gone in";
    case StartRatio::Unknown::kUnweighed:
      return fmt::format("the weight of its {} is not known", measure::listed(ratio.of, "and"));
    case StartRatio::Unknown::kLacksFigures:
      return fmt::format("moisture, carbon or nitrogen of its {} is not known",
                         measure::listed(ratio.of, "and"));
    case StartRatio::Unknown::kNoNitrogen:
      return "no nitrogen on record for what went in";
  }
  return "";
}

std::string ratio_words(measure::Number ratio, std::optional<measure::Number> limit) {
  for (int decimals = 1; decimals < 4; ++decimals) {
    const std::string text = measure::print_number(ratio.value, decimals);
    if (!limit || text != measure::print_number(limit->value, decimals)) return text;
  }
  return measure::print_number(ratio.value, 4);
}

std::string method_words(const Study& study) {
  switch (study.method()) {
    case Method::kByTurning:
      return "a turned pile";
    case Method::kStatic:
      return is_aerated(study.history(), study.rules(), study.course().until)
                 ? "a static aerated pile"
                 : "a static pile, no air logged";
    case Method::kVessel:
      return "a vessel";
    case Method::kCold:
      return "a cold pile";
  }
  return "a turned pile";
}

std::string wanting_words(const Standing& at, const Study& study) {
  const measure::Printer print = study.print();
  switch (at.wants.what) {
    case Wanting::What::kNothing:
      return "";
    case Wanting::What::kSelfHeatingTest:
      return "a self-heating test of class IV or V: by the last one it is still working";
    case Wanting::What::kDays:
      return fmt::format("more days: {} of {}", at.curing_days, at.wants.days);
    case Wanting::What::kAirReading:
      return fmt::format("the air beside it read once (log air=), or {} or less",
                         print(study.rules()(limits::ready_warmest)));
    case Wanting::What::kNearerAir:
      return fmt::format("to cool closer to the air: it is {} above, {} at most",
                         print.difference(at.wants.above),
                         print.difference(study.rules()(limits::ready_above_air)));
    case Wanting::What::kTurning:
      return "one more turning, to see whether it heats again";
    case Wanting::What::kDaysAfterTurning:
      return "a few days to show whether it heats again after the turning";
  }
  return "";
}

std::string curing_words(const Study& study) {
  const Standing& at = study.at();
  if (in_heat(at.stage)) return fmt::format("it is still {}", word(at.stage));
  if (at.stage == Stage::kReady)
    return fmt::format("cured, {} since it was hot", days_words(at.curing_days));
  if (at.wants.what != Wanting::What::kNothing) return "it still needs " + wanting_words(at, study);
  return fmt::format("{} of {} days", at.curing_days, whole(study.rules()(limits::ready_curing)));
}

std::string still_raw_words(const Treatment& nop, const Study& study) {
  return fmt::format("{} was not shown to be treated when it was taken ({})",
                     study.history().batch.code, nop.text);
}

std::string unknown_standard_words(const std::string& typed) {
  return fmt::format("{} is no treatment standard known here; it takes {}", measure::quoted(typed),
                     kKnownStandards);
}

std::string well_words(const Study& study) {
  const measure::Printer print = study.print();
  const Standing& at = study.at();
  std::string text(word(at.stage));
  if (at.stage == Stage::kUnread || at.stage == Stage::kResting) return text;
  text += fmt::format(" at {}", print(Celsius{at.peak_now}));
  for (const Treatment& one : study.treatments()) {
    if (one.outcome == Outcome::kShown) {
      text += fmt::format(", {} shown", one.name);
    } else if (one.window && one.outcome == Outcome::kNotYet && !one.tally.met) {
      text += fmt::format(", {} of {} days for {}", one.window->days, one.wanted.days, one.name);
    } else if (one.why == NotShown::kNoDay && one.tally.counted == 0 && in_heat(at.stage)) {
      text += fmt::format(", no day for {}", one.name);
    }
  }
  if (at.stage == Stage::kCuring) text += ", wants " + wanting_words(at, study);
  return text;
}

}  // namespace kinds::pile
