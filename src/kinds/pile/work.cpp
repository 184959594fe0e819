#include <algorithm>

#include "kinds/pile/care.h"
#include "kinds/thresholds.h"
#include "kinds/finding.h"

// When to turn.
namespace kinds::pile {
namespace {

namespace limits = thresholds::pile;
using date::days;
using model::Urgency;

// Whether the turnings of a treatment lag: one every few days of those that count.
const Treatment* wants_turning(const Known& known, int since) {
  for (const Treatment& one : known.treatments) {
    if (one.wanted.turnings == 0 || one.tally.met || !one.window || !one.tally.open) continue;
    const int done = known.course.turnings_between(one.window->first, known.course.until);
    if (done < one.wanted.turnings && since >= whole(known.rules(limits::turn_every))) return &one;
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

}  // namespace

void judge_turning(const Known& known, model::Assessment& into) {
  if (method_of(known.history.batch) != Method::kTurned || known.course.days.empty()) return;
  if (!in_heat(known.at.stage) && known.at.stage != Stage::kCooling) return;
  const measure::Printer print = known.print();
  const model::Day from =
      known.course.last_turning().value_or(known.at.first_hot.value_or(known.course.start));
  const int since = days_between(from, known.history.today);
  const std::string when =
      known.course.last_turning()
          ? fmt::format("it was turned {} ago", days_words(since))
          : fmt::format("it has been in its heat for {} and was not turned", days_words(since));
  if (const Treatment* one = wants_turning(known, since)) {
    model::Told made = finding("pile.turn", Urgency::kToday, limits::turn_every, known.rules);
    made.words.says = fmt::format("{}, and {} wants {} turnings within its days: {} so far", when,
                            one->name, one->wanted.turnings,
                            known.course.turnings_between(one->window->first, known.course.until));
    made.words.action = "turn it, outside to inside";
    into.findings.push_back(std::move(made));
    return;
  }
  const double fallen = highest_since(known.course, from) - known.at.peak_now;
  if (!known.at.dipped && since >= whole(known.rules(limits::turn_every)) &&
      fallen >= known.rules(limits::turn_fallen).value) {
    model::Told made = finding("pile.turn", Urgency::kToday, limits::turn_fallen, known.rules);
    made.words.says = fmt::format("{} and has fallen {} since its highest", when,
                            print.difference(measure::Kelvins{fallen}));
    made.words.action = "turn it to give it air, and water it if it is dry";
    into.findings.push_back(std::move(made));
  } else if (since >= whole(known.rules(limits::turn_longest))) {
    model::Told made = finding("pile.turn", Urgency::kToday, limits::turn_longest, known.rules);
    made.words.says = when;
    made.words.action = "turn it";
    into.findings.push_back(std::move(made));
  }
}

}  // namespace kinds::pile
