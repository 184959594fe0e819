#include "kinds/replay.h"

#include <algorithm>

namespace kinds {
namespace {

template <class Dated>
void leave_out_after(std::vector<Dated>& all, model::Day day) {
  all.erase(std::remove_if(all.begin(), all.end(), [&](const Dated& one) { return one.day > day; }),
            all.end());
}

}  // namespace

model::History as_seen_on(const model::History& history, model::Day day) {
  model::History then = history;
  for (model::Series& series : then.series) {
    leave_out_after(series.days, day);
    const auto reading = [&](std::size_t back) -> std::optional<model::Reading> {
      if (series.days.size() <= back) return std::nullopt;
      const model::DayRoll& roll = series.days[series.days.size() - 1 - back];
      return model::Reading{roll.last_at, roll.last};
    };
    series.last = reading(0);
    series.before_last = reading(1);
  }
  then.series.erase(std::remove_if(then.series.begin(), then.series.end(),
                                   [](const model::Series& one) { return one.days.empty(); }),
                    then.series.end());
  leave_out_after(then.deeds, day);
  leave_out_after(then.sensed, day);
  leave_out_after(then.notes, day);
  leave_out_after(then.in, day);
  leave_out_after(then.out, day);
  then.today = day;
  then.now = std::min(history.now, model::Instant{(day + date::days{1}).time_since_epoch()});
  if (then.batch.ended_day && *then.batch.ended_day > day) {
    then.batch.ended_day.reset();
    then.batch.ended.reset();
  }
  const auto later = [day](const model::History& one) {
    return !one.batch.ended_day || *one.batch.ended_day > day;
  };
  if (history.finished && std::any_of(history.finished->begin(), history.finished->end(), later)) {
    auto ended = std::make_shared<std::vector<model::History>>(*history.finished);
    ended->erase(std::remove_if(ended->begin(), ended->end(), later), ended->end());
    then.finished = std::move(ended);
  }
  then.lesson.reset();
  return then;
}

}  // namespace kinds
