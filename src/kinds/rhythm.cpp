#include "kinds/rhythm.h"

#include <algorithm>
#include <cmath>

#include "kinds/finding.h"
#include "kinds/kind.h"

namespace kinds {

std::optional<model::Instant> last_in_rhythm(const Kind& kind, const model::History& history) {
  if (kind.vocabulary.rhythm.empty()) return history.last_entry;
  std::optional<model::Instant> last;
  for (const model::Series* series : history.all(kind.vocabulary.rhythm)) {
    if (!last || series->last->at > *last) last = series->last->at;
  }
  return last;
}

bool was_read(const Study& study) {
  const model::History& history = study.history();
  return last_in_rhythm(*find_kind(history.batch.kind), history).has_value();
}

bool wants_look(const Study& study) {
  const model::History& history = study.history();
  const Kind* kind = find_kind(history.batch.kind);
  if (kind == nullptr || kind->vocabulary.unread_after == nullptr || history.batch.ended) {
    return false;
  }
  const auto last = last_in_rhythm(*kind, history);
  if (!last) return true;
  const measure::Days silent{elapsed_days(*last, history.now)};
  const measure::Days limit =
      study.rules()(model::Threshold<measure::Days>{kind->vocabulary.unread_after});
  // A morning is not always at the same hour; twice a day is not asked for.
  constexpr double kLeast = 0.5, kTolerance = 0.25;
  return silent.value >= std::max(kLeast, limit.value / 3 - kTolerance);
}

std::optional<Rhythm> reading(const Study& study) {
  const model::History& history = study.history();
  const Kind* kind = find_kind(history.batch.kind);
  const auto threshold = study.unread_after();
  if (kind == nullptr || !threshold || history.batch.ended) return std::nullopt;
  const int every = std::max(1, static_cast<int>(std::lround(study.rules()(*threshold).value / 3)));
  const auto last = last_in_rhythm(*kind, history);
  if (!last) return Rhythm{every, history.today};
  const model::Day day =
      history.today - date::days{static_cast<int>(elapsed_days(*last, history.now) + 0.5)};
  return Rhythm{every, day + date::days{every}};
}

std::optional<Rhythm> feeding_of_late(const model::History& history,
                                      bool (*is_feed)(const model::Movement&)) {
  constexpr std::size_t kMost = 8, kFewest = 3;
  std::vector<model::Day> days;  // latest first
  for (auto load = history.in.rbegin(); load != history.in.rend() && days.size() < kMost; ++load) {
    if (is_feed(*load) && (days.empty() || days.back() != load->day)) days.push_back(load->day);
  }
  if (days.size() < kFewest) return std::nullopt;
  std::vector<int> gaps;
  for (std::size_t i = 1; i < days.size(); ++i) gaps.push_back(days_between(days[i], days[i - 1]));
  const auto middle = gaps.begin() + static_cast<std::ptrdiff_t>(gaps.size() / 2);
  std::nth_element(gaps.begin(), middle, gaps.end());
  return Rhythm{*middle, days.front() + date::days{*middle}};
}

}  // namespace kinds
