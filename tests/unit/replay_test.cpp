#include "kinds/replay.h"

#include <doctest/doctest.h>

#include "kinds/kind.h"
#include "tests/unit/build_history.h"

namespace replay_test {

using measure::Dimension;

TEST_CASE("a batch as it was seen on a day knows nothing of what came later") {
  const model::Day start = build::day("2027-05-01");
  const auto on = [&](int day) { return build::at(start + date::days{day}); };
  model::History history = build::batch("pile", "heap", start, start + date::days{20});
  history.batch.ended_day = history.today;
  history.batch.ended = history.now;
  for (int day = 0; day < 6; ++day)
    build::reading(history, "temperature", "core", on(day), 20 + day);
  build::reading(history, "temperature", "edge", on(5), 30);
  build::deed(history, "turned", on(2));
  build::deed(history, "turned", on(4));
  for (const int day : {1, 5}) {
    history.in.push_back(build::movement(build::material("straw"),
                                         measure::Value{Dimension::kVolume, 100}, on(day)));
  }
  const model::History then = kinds::as_seen_on(history, start + date::days{3});
  REQUIRE(then.series.size() == 1);  // the edge was not read yet
  CHECK(then.series.front().days.size() == 4);
  CHECK(then.series.front().last->value == 23);
  CHECK(then.series.front().before_last->value == 22);
  CHECK(then.deeds.size() == 1);
  CHECK(then.in.size() == 1);
  CHECK(then.today == start + date::days{3});
  CHECK(then.now < on(4));
  CHECK_FALSE(then.batch.ended);
  CHECK(kinds::as_seen_on(history, history.today).batch.ended);
}

TEST_CASE("a score sums errors, those of the naive forecast, and what was within") {
  kinds::ForesightScore score;
  score.judge(10, 8, 12, 20, 11);
  score.judge(10, 8, 12, 14, 13);
  CHECK(score.count == 2);
  CHECK(score.error_total == 4);
  CHECK(score.naive_total == 10);
  CHECK(score.squared_total == 10);
  CHECK(score.within == 1);
}

}  // namespace replay_test
