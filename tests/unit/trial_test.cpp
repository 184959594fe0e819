#include "season/trial.h"

#include <doctest/doctest.h>

#include <cmath>
#include <map>

namespace trial_test {

using season::TrialAsk;
using season::TrialSide;
using season::Verdict;

namespace {

TrialSide side(std::vector<double> values) {
  return {std::vector<std::string>(values.size(), "x"), std::move(values)};
}

season::Trial judge(std::vector<double> treated, std::vector<double> against, bool pairs) {
  return season::judge_trial({side(std::move(treated)), side(std::move(against)), pairs});
}

}  // namespace

TEST_CASE("trial: one plot each is no trial") {
  const auto one = judge({30}, {10}, false);
  CHECK(one.verdict == Verdict::kOnePlot);
  CHECK(one.difference == 20);
  CHECK_FALSE(one.student);
  CHECK_FALSE(one.could_see);
  CHECK(judge({30}, {10}, true).verdict == Verdict::kOnePlot);
  CHECK(judge({30}, {10, 11, 12, 13}, false).verdict == Verdict::kOnePlot);
}

TEST_CASE("trial: so few that lots can never tell") {
  // 3 against 3 divide in 20 ways: 0.1 at the least. 4 against 4 reach 2/70.
  CHECK(judge({7, 8, 9}, {1, 2, 3}, false).verdict == Verdict::kTooFew);
  CHECK(judge({7, 8, 9, 9.5}, {1, 2, 3, 3.5}, false).verdict == Verdict::kShown);
  // Five pairs reach 0.0625, six 0.03125.
  CHECK(judge({2, 4, 6, 8, 10}, {1, 2, 3, 4, 5}, true).verdict == Verdict::kTooFew);
  CHECK(judge({2, 4, 6, 8, 10, 12}, {1, 2, 3, 4, 5, 6}, true).verdict == Verdict::kShown);
}

TEST_CASE("trial: pairing decides the sleep data") {
  // Student 1908 (Cushny & Peebles 1905): in pairs 4 of 1024 swaps lie as far out; apart, Welch's p
  // is 0.079 and no difference is shown.
  const std::vector<double> first{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
  const std::vector<double> second{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};
  const auto pairs = judge(first, second, true);
  CHECK(pairs.verdict == Verdict::kShown);
  CHECK(*pairs.by_lots == doctest::Approx(4.0 / 1024));
  CHECK(pairs.difference == doctest::Approx(-1.58));
  CHECK(*pairs.share == doctest::Approx(-1.58 / 2.33));
  const auto apart = judge(first, second, false);
  CHECK(apart.verdict == Verdict::kNotShown);
  CHECK(apart.student->p == doctest::Approx(0.0793941401874));
  // 0.388958723888 x 3.14962 (0.996002 x sqrt(10) sds of the table of paired designs).
  CHECK(*pairs.could_see == doctest::Approx(0.996002 * 1.22999548328).epsilon(1e-5));
}

TEST_CASE("trial: without spread there is nothing to hold a difference against") {
  CHECK(judge({5, 5}, {4, 4}, false).verdict == Verdict::kNoSpread);
  CHECK(judge({5, 6}, {4, 5}, true).verdict == Verdict::kNoSpread);
}

TEST_CASE("trial: planning") {
  // R's documentation of power.t.test: a difference of one sd, 90 %, 22.02 a side; at 80 % 16.71
  // (R 4: power.t.test(delta = 1, sd = 1, power = 0.8)), so 17.
  const auto plan = season::plan_trial(1, 1, false);
  REQUIRE(plan.needed);
  CHECK(*plan.needed == 17);
  for (const auto& step : plan.steps) CHECK(step.lots_can_tell == (step.plots >= 4));
  const auto pairs = season::plan_trial(1.43455, 1, true);
  CHECK(*pairs.needed == 6);
  for (const auto& step : pairs.steps) {
    CHECK(step.lots_can_tell == (step.plots >= 6));
    if (step.plots == 6) CHECK(step.could_see == doctest::Approx(1.43455).epsilon(1e-5));
  }
  CHECK_FALSE(season::plan_trial(0.0001, 1, false).needed);
}

TEST_CASE("trial: lots give each treatment its share") {
  const std::vector<std::string> plots{"1", "2", "3", "4", "5", "6", "7"};
  const auto apart = season::draw_lots(plots, {"compost", "nothing"}, false, 42);
  std::map<std::string, int> count;
  for (std::size_t i = 0; i < apart.size(); ++i) {
    CHECK(apart[i].plot == plots[i]);
    ++count[apart[i].treatment];
  }
  CHECK(count["compost"] == 4);
  CHECK(count["nothing"] == 3);
  const auto blocks = season::draw_lots({"a", "b", "c", "d", "e", "f"}, {"x", "y", "z"}, true, 42);
  std::map<int, std::map<std::string, int>> in_block;
  for (const auto& lot : blocks) ++in_block[lot.block][lot.treatment];
  CHECK(in_block.size() == 2);
  for (const auto& [block, treatments] : in_block) CHECK(treatments.size() == 3);
  // In pairs each treatment comes first about half the time: 1000 pairs, within five sds (79).
  std::vector<std::string> many;
  for (int i = 0; i < 2000; ++i) many.push_back(std::to_string(i));
  int first = 0;
  const auto pairs = season::draw_lots(many, {"x", "y"}, true, 7);
  for (std::size_t i = 0; i < pairs.size(); i += 2) first += pairs[i].treatment == "x" ? 1 : 0;
  CHECK(std::abs(first - 500) < 80);
}

}  // namespace trial_test
