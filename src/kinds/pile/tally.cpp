#include "kinds/pile/tally.h"

#include <algorithm>
#include <map>

namespace kinds::pile {
namespace {

using date::days;

// A position that was last read too cold, and when.
struct ColdPlace {
  model::Day day;
  double value;
};

bool turned_since(const Course& course, model::Day cold, model::Day now) {
  return course.turnings_between(cold, now - days{1}) > 0;
}

GradedDay grade(const DaySeen& seen, const DayRule& rule) {
  const PositionDay& cold = seen.coldest();
  const PositionDay& hot = seen.hottest();
  if (!rule.warm_enough(cold.least)) return {seen.day, Grade::kBelow, cold.position, cold.least};
  if (!rule.keeps(cold.least, hot.greatest)) {
    return {seen.day, Grade::kOver, hot.position, hot.greatest};
  }
  return {seen.day, Grade::kCounts, cold.position, cold.least};
}

class Counter {
 public:
  Counter(const Course& course, const Requirement& wanted) : course_(course), wanted_(wanted) {}

  void take(const GradedDay& day) {
    if (day.grade == Grade::kCounts) {
      count(day.day);
    } else if (out_.counted > 0) {
      pass(day);
    }
  }

  Tally finish(const std::vector<GradedDay>& all) {
    if (!all.empty() && !out_.met) out_.earliest = earliest(all.back());
    return out_;
  }

 private:
  void count(model::Day day) {
    if (!out_.open) {
      out_.open = Run{day, day, 0, 0, 0};
      pending_gap_ = 0;
    }
    Run& run = *out_.open;
    run.last = day;
    ++run.days;
    run.gaps += pending_gap_;
    pending_gap_ = 0;
    run.turnings = course_.turnings_between(run.first, run.last);
    ++out_.counted;
    if (!out_.best || run.days >= out_.best->days) out_.best = run;
    if (!out_.met && run.days >= wanted_.days && run.turnings >= wanted_.turnings) out_.met = run;
  }

  void pass(const GradedDay& day) {
    if (day.grade == Grade::kGap || day.grade == Grade::kCoreOnly) {
      if (day.grade == Grade::kGap) ++out_.gaps;
      ++pending_gap_;
      if (wanted_.in_a_row && pending_gap_ > wanted_.gap) out_.open.reset();
      return;
    }
    out_.breaks.push_back({day.day, day.grade, day.position, day.value});
    if (!wanted_.in_a_row || is_dip(day)) return;
    out_.open.reset();
    pending_gap_ = 0;
  }

  bool is_dip(const GradedDay& day) const {
    return day.grade == Grade::kBelow && wanted_.dip > 0 &&
           course_.turnings_between(day.day - days{wanted_.dip}, day.day) > 0;
  }

  // Today can still count where it was not read; a turning can still be made today where none was.
  model::Day earliest(const GradedDay& today) const {
    const bool read = today.grade != Grade::kGap;
    const int have_days = out_.open ? out_.open->days : 0;
    const int have_turnings =
        out_.open ? course_.turnings_between(out_.open->first, course_.until) : 0;
    const int lacking = std::max(0, wanted_.days - have_days);
    const int turnings = std::max(0, wanted_.turnings - have_turnings);
    const bool turned_today = course_.turnings_between(course_.until, course_.until) > 0;
    const bool counts_today = today.grade == Grade::kCounts;
    model::Day by_days = course_.until;
    if (lacking > 0) by_days = course_.until + days{read ? lacking : lacking - 1};
    // The last turning has to fall on or before a day that counts.
    model::Day by_turnings = course_.until + days{counts_today || !read ? 0 : 1};
    if (turnings > 0) {
      by_turnings =
          std::max(by_turnings, course_.until + days{turned_today ? turnings : turnings - 1});
    }
    return std::max(by_days, by_turnings);
  }

  const Course& course_;
  const Requirement& wanted_;
  Tally out_;
  int pending_gap_ = 0;
};

}  // namespace

bool DayRule::warm_enough(double value) const {
  return above ? value > from + kSameKelvins : value >= from - kSameKelvins;
}

bool DayRule::keeps(double least, double greatest) const {
  return warm_enough(least) && (!upto || greatest <= *upto + kSameKelvins);
}

std::vector<GradedDay> graded(const Course& course, const DayRule& rule, model::Day from) {
  std::vector<GradedDay> out;
  std::map<std::string, ColdPlace> cold;
  for (model::Day day = course.start; day <= course.until; day += days{1}) {
    const DaySeen* seen = course.on(day);
    GradedDay graded = seen == nullptr ? GradedDay{day, Grade::kGap, "", 0} : grade(*seen, rule);
    if (seen != nullptr) {
      for (const PositionDay& one : seen->positions) {
        cold.erase(one.position);
        if (!one.position.empty() && !rule.warm_enough(one.last)) {
          cold.emplace(one.position, ColdPlace{day, one.last});
        }
      }
    }
    if (graded.grade == Grade::kCounts) {
      for (const auto& [position, place] : cold) {
        if (turned_since(course, place.day, day)) continue;
        graded = {day, Grade::kHeldBack, position, place.value};
      }
    }
    if (day >= from) out.push_back(graded);
  }
  return out;
}

Tally tally(const std::vector<GradedDay>& days, const Course& course, const Requirement& wanted) {
  Counter counter(course, wanted);
  for (const GradedDay& day : days) counter.take(day);
  return counter.finish(days);
}

}  // namespace kinds::pile
