#include "kinds/pile/standards.h"

#include <algorithm>
#include <array>

#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;

struct Text {
  Standard standard;
  std::string_view word, name;
  std::string_view turned,
      still;  // the paragraph for a turned pile, and for a vessel or static one
  std::string_view edition;
};

constexpr std::string_view kEpaEdition =
    "40 CFR part 503 of February 1993, as a state code repeats it";
constexpr std::array kTexts{
    Text{Standard::kNop, "nop", "NOP", "7 CFR 205.203(c)(2)(iii)", "7 CFR 205.203(c)(2)(ii)",
         "eCFR of 20 June 2026"},
    Text{Standard::kFsma, "fsma", "FSMA", "21 CFR 112.54(b)(2)", "21 CFR 112.54(b)(1)",
         "the produce safety rule of November 2015"},
    Text{Standard::kPfrp, "pfrp", "PFRP", "40 CFR 503 appendix B, B.1 composting, windrow",
         "40 CFR 503 appendix B, B.1 composting, vessel or static aerated pile", kEpaEdition},
    Text{Standard::kPsrp, "psrp", "PSRP", "40 CFR 503 appendix B, A.4 composting",
         "40 CFR 503 appendix B, A.4 composting", kEpaEdition},
    Text{Standard::kVector, "vector", "vector attraction", "40 CFR 503.33(b)(5)",
         "40 CFR 503.33(b)(5)", "40 CFR part 503 of February 1993"},
};

const Text& text_of(Standard standard) {
  for (const Text& text : kTexts) {
    if (text.standard == standard) return text;
  }
  return kTexts.front();
}

Requirement heat_days(Standard standard, bool turned, const model::Rules& rules) {
  Requirement wanted{whole(rules(turned ? limits::treat_turned_days : limits::treat_still_days))};
  if (!turned) return wanted;
  wanted.turnings = whole(rules(limits::treat_turnings));
  if (standard == Standard::kNop) wanted.in_a_row = rules(limits::treat_in_a_row).value > 0.5;
  if (standard == Standard::kFsma) wanted.in_a_row = false;
  return wanted;
}

// A day that was read hourly tells of every hour.
constexpr int kHourly = 24;

void not_shown(Treatment& treatment, const Evidence& evidence, NotShown why) {
  treatment.outcome = evidence.history.batch.ended ? Outcome::kCannot : Outcome::kNotYet;
  treatment.why = why;
  treatment.shown_on.reset();
}

double coldest_mean(const DaySeen& day) {
  double least = day.positions.front().mean;
  for (const PositionDay& one : day.positions) least = std::min(least, one.mean);
  return least;
}

}  // namespace

std::optional<Standard> standard_named(std::string_view word) {
  for (const Text& text : kTexts) {
    if (text.word == word) return text.standard;
  }
  return std::nullopt;
}

std::string_view setting_word(Standard standard) {
  return text_of(standard).word;
}

Treatment asked_by(Standard standard, Method method, const model::Rules& rules) {
  const Text& text = text_of(standard);
  const bool turned = method == Method::kByTurning;
  Treatment treatment;
  treatment.standard = standard;
  treatment.name = text.name;
  treatment.text = turned ? text.turned : text.still;
  treatment.edition = text.edition;
  treatment.rule = {rules(limits::treat_from).value, false, std::nullopt};
  if (standard == Standard::kPsrp) {
    treatment.rule = {rules(limits::treat_psrp_from).value, false, std::nullopt};
    treatment.wanted = {whole(rules(limits::treat_psrp_days))};
  } else if (standard == Standard::kVector) {
    treatment.rule = {rules(limits::treat_vector_above).value, true, std::nullopt};
    treatment.wanted = {whole(rules(limits::treat_vector_days))};
  } else {
    if (standard == Standard::kNop) treatment.rule.upto = rules(limits::treat_upto).value;
    treatment.wanted = heat_days(standard, turned, rules);
  }
  treatment.wanted.gap = whole(rules(limits::treat_gap));
  treatment.wanted.dip = whole(rules(limits::treat_dip));
  return treatment;
}

void judge_four_hours(Treatment& treatment, const Evidence& evidence) {
  if (treatment.outcome != Outcome::kShown) return;
  const DayRule peak{evidence.rules(limits::treat_psrp_peak).value, true, std::nullopt};
  Run run;
  bool before = false, once = false, four_hours = false;
  treatment.shown_on.reset();
  for (const GradedDay& day : treatment.days) {
    if (day.grade == Grade::kGap && run.days > 0 && ++run.gaps <= treatment.wanted.gap) {
      before = false;
      continue;
    }
    if (day.grade != Grade::kCounts) {
      run = {};
      before = four_hours = false;
      continue;
    }
    if (run.days++ == 0) run.first = day.day;
    run.last = day.day;
    run.gaps = 0;
    const DaySeen& seen = *evidence.course.on(day.day);
    const bool above = peak.warm_enough(seen.coldest().least);
    four_hours = four_hours || (above && (before || seen.coldest().count >= kHourly));
    once = once || above;
    before = above;
    if (four_hours && run.days >= treatment.wanted.days) {
      treatment.shown_on = day.day;
      treatment.window = run;
      return;
    }
  }
  not_shown(treatment, evidence, once ? NotShown::kNotFourHours : NotShown::kNeverSoHot);
}

void judge_average(Treatment& treatment, const Evidence& evidence) {
  const double above = evidence.rules(limits::treat_vector_mean).value;
  const auto wanted = static_cast<std::size_t>(treatment.wanted.days);
  std::vector<double> means;
  std::vector<model::Day> dates;
  std::optional<double> best;
  int gaps = 0;
  const auto try_windows = [&]() {
    // Any longer stretch splits into ones shorter than twice the days, one of which is as warm.
    for (std::size_t size = wanted; size < 2 * wanted && size <= means.size(); ++size) {
      double total = 0;
      for (std::size_t i = means.size() - size; i < means.size(); ++i) total += means[i];
      const double mean = total / static_cast<double>(size);
      best = std::max(best.value_or(mean), mean);
      if (mean > above + kSameKelvins && !treatment.shown_on) {
        treatment.shown_on = dates.back();
        treatment.window =
            Run{dates[dates.size() - size], dates.back(), static_cast<int>(size), 0, 0};
      }
    }
  };
  treatment.shown_on.reset();
  for (const GradedDay& day : treatment.days) {
    if (day.grade == Grade::kCounts) {
      means.push_back(coldest_mean(*evidence.course.on(day.day)));
      dates.push_back(day.day);
      gaps = 0;
      try_windows();
    } else if (day.grade != Grade::kGap || ++gaps > treatment.wanted.gap) {
      means.clear();
      dates.clear();
    }
  }
  if (treatment.outcome != Outcome::kShown || treatment.shown_on) return;
  treatment.best_mean = measure::Celsius{best.value_or(0)};
  not_shown(treatment, evidence, NotShown::kAverage);
}

std::optional<OtherReading> other_reading(const Treatment& treatment, const Evidence& evidence,
                                          Method method) {
  if (method != Method::kByTurning) return std::nullopt;
  Requirement other = treatment.wanted;
  other.in_a_row = !other.in_a_row;
  const Tally count = tally(treatment.days, evidence.course, other);
  const int days = other.in_a_row ? (count.best ? count.best->days : 0) : count.counted;
  if (days == 0) return std::nullopt;
  const bool same = count.met.has_value() == treatment.tally.met.has_value();
  const bool same_days = treatment.window && days == treatment.window->days;
  if (same && (count.met || same_days)) return std::nullopt;
  if (treatment.standard == Standard::kNop && other.in_a_row) {
    OtherReading found{true, std::min(days, other.days)};
    if (count.best && days >= other.days) found.turnings = count.best->turnings;
    return found;
  }
  if (treatment.standard == Standard::kNop || treatment.standard == Standard::kPfrp) {
    return OtherReading{false, days};
  }
  return std::nullopt;
}

}  // namespace kinds::pile
