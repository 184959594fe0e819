#include "kinds/digester/outlook.h"

#include <algorithm>

#include "kinds/digester/facts.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/finding.h"
#include "kinds/thresholds.h"

namespace kinds::digester {
namespace {

namespace limits = thresholds::digester;
using measure::Days;
using model::Urgency;
using By = model::Ending::By;

// What a new record of would tell whether it goes on; empty: the feeding of the coming weeks.
std::string_view read_by(Followed what) {
  switch (what) {
    case Followed::kPh:
      return kAcidity;
    case Followed::kAcidsToAlkalinity:
      return kSecondAcid;
    case Followed::kFreeAmmonia:
      return kTotalAmmonia;
    case Followed::kLoading:
    case Followed::kRetention:
      break;
  }
  return {};
}

model::Finding trend_finding(const Trend& trend, std::string_view which, Urgency urgency,
                             model::Threshold<Days> rule, const Study& study) {
  model::Finding made = finding(kRuleTrend, urgency, rule, study.rules());
  made.case_of = which;
  made.job = kJobFeed;
  made.value = model::Measured{"time to the limit", measure::value_of(trend.ahead->likely), ""};
  made.facts.set(kFollowed, trend.what);
  made.facts.set(kAhead, trend.ahead->likely);
  made.facts.set(kTrendLimit, *trend.limit);
  const std::string_view read = read_by(trend.what);
  made.ends = {{.by = read.empty() ? By::kAdding : By::kReading, .name = std::string(read)}};
  return made;
}

// Acids that rise while pH falls: the slurry's buffer is going, and gas fails weeks later.
Found judge_pair(const Study& study) {
  const Trend* ph = find_trend(study.trends(), Followed::kPh);
  const Trend* ratio = find_trend(study.trends(), Followed::kAcidsToAlkalinity);
  if (ph == nullptr || ratio == nullptr || !ph->line || !ratio->line) return std::nullopt;
  if (!ph->line->falls() || !ratio->line->rises()) return std::nullopt;
  const Trend* sooner = nullptr;
  for (const Trend* one : {ph, ratio}) {
    if (one->ahead && (sooner == nullptr || one->ahead->likely < sooner->ahead->likely)) {
      sooner = one;
    }
  }
  if (sooner == nullptr || sooner->ahead->likely > study.rules()(limits::trend_pair))
    return std::nullopt;
  return trend_finding(*sooner, kCasePair, Urgency::kToday, limits::trend_pair, study);
}

}  // namespace

std::string_view case_of(Followed what) {
  switch (what) {
    case Followed::kPh:
      return kCasePh;
    case Followed::kAcidsToAlkalinity:
      return kCaseAcids;
    case Followed::kFreeAmmonia:
      return kCaseFreeAmmonia;
    case Followed::kLoading:
      return kCaseLoading;
    case Followed::kRetention:
      return kCaseRetention;
  }
  return {};
}

const Trend* find_trend(const std::vector<Trend>& trends, Followed what) {
  const auto found = std::find_if(trends.begin(), trends.end(),
                                  [&](const Trend& trend) { return trend.what == what; });
  return found == trends.end() ? nullptr : &*found;
}

void judge_trends(const Study& study, std::vector<model::Finding>& into) {
  const Souring souring = study.slurry().souring;
  bool is_told = souring == Souring::kSour;
  if (!is_told) {
    if (auto pair = judge_pair(study)) {
      is_told = true;
      into.push_back(std::move(*pair));
    }
  }
  for (const Trend& trend : study.trends()) {
    const bool of_acids = trend.what == Followed::kPh || trend.what == Followed::kAcidsToAlkalinity;
    if (of_acids && is_told) continue;
    // How much to feed a slurry that sours is said once.
    const bool of_feed = trend.what == Followed::kLoading || trend.what == Followed::kRetention;
    if (of_feed && souring != Souring::kNo) continue;
    if (!trend.ahead || trend.ahead->likely > study.rules()(limits::trend_ahead)) continue;
    into.push_back(
        trend_finding(trend, case_of(trend.what), Urgency::kSoon, limits::trend_ahead, study));
    into.back().facts.set(kWatched, of_acids && souring == Souring::kWatch);
  }
}

}  // namespace kinds::digester
