#include <algorithm>

#include "kinds/finding.h"
#include "kinds/pile/care.h"
#include "kinds/pile/vocabulary.h"
#include "kinds/thresholds.h"

// When to turn.
namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;
using model::Urgency;
using By = model::Ending::By;

// Whether the turnings of a treatment lag: one every few days of those that count.
const Treatment* wants_turning(const Study& study, int since) {
  for (const Treatment& one : study.treatments()) {
    if (one.wanted.turnings == 0 || one.tally.met || !one.window || !one.tally.open) continue;
    const int done = study.course().turnings_between(one.window->first, study.course().until);
    if (done < one.wanted.turnings && since >= whole(study.rules()(limits::turn_every)))
      return &one;
  }
  return nullptr;
}

// The highest day since the last turning.
double highest_since(const Course& course, model::Day since) {
  double highest = -1e9;
  for (const DaySeen& day : course.days) {
    if (day.day > since) highest = std::max(highest, day.peak());
  }
  return highest;
}

// What was not read for long may have cooled: it is to be read first.
bool is_stale(const Study& study) {
  return days_between(study.course().days.back().day, study.history().today) >
         full_days(study.rules()(limits::turn_stale));
}

Found turning_of(const Study& study) {
  const Standing& at = study.at();
  const Course& course = study.course();
  if (study.method() != Method::kByTurning || course.days.empty()) return std::nullopt;
  if (!in_heat(at.stage) && at.stage != Stage::kCooling) return std::nullopt;
  const auto last = course.last_turning();
  const model::Day from = last.value_or(at.first_hot.value_or(course.start));
  const int since = days_between(from, study.history().today);
  const auto turn = [&](std::string_view case_of, auto threshold) {
    model::Finding made = finding(kRuleTurn, Urgency::kToday, threshold, study.rules());
    made.case_of = case_of;
    made.job = kJobTurn;
    made.facts.set(kDaysSince, since);
    made.facts.set(kEverTurned, last.has_value());
    made.ends = {{By::kDeed, std::string(kTurned)}};
    return made;
  };
  const int every = whole(study.rules()(limits::turn_every));
  if (const Treatment* one = wants_turning(study, since)) {
    model::Finding made = turn(kCaseTurnings, limits::turn_every);
    made.since = from + days{every};
    made.facts.set(kTreatment, std::string(one->name));
    made.facts.set(kTurnings, course.turnings_between(one->window->first, course.until));
    made.facts.set(kTurningsWanted, one->wanted.turnings);
    return made;
  }
  const double fallen = highest_since(course, from) - at.peak_now;
  if (!at.dipped && since >= every && fallen >= study.rules()(limits::turn_fallen).value) {
    model::Finding made = turn(kCaseFallen, limits::turn_fallen);
    made.facts.set(kFallen, measure::Kelvins{fallen});
    return made;
  }
  const int longest = whole(study.rules()(limits::turn_longest));
  if (since < longest) return std::nullopt;
  model::Finding made = turn(kCaseLong, limits::turn_longest);
  made.since = from + days{longest};
  return made;
}

}  // namespace

Found judge_turning(const Study& study) {
  if (study.course().days.empty() || is_stale(study)) return std::nullopt;
  return turning_of(study);
}

Found turning_to_come(const Study& study) {
  return near_fire(study) ? std::nullopt : turning_of(study);
}

}  // namespace kinds::pile
