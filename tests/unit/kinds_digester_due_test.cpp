#include <doctest/doctest.h>

#include "digester_site.h"
#include "kinds/digester/due.h"

namespace kinds_digester_due_test {

using measure::Dimension;
using model::Property;
using namespace site;

namespace {

// Of plain figures like plain_feed(), of any name and group, and without a flag.
model::Material feed_called(const char* name, const char* group) {
  model::Material material = plain_feed();
  material.name = name;
  material.group = group;
  material.flags.clear();
  return material;
}

// 1,000 L fed 20 kg a day: 50 days' stay, 100 kg of solids a m3, all of them volatile.
std::optional<kinds::digester::GasDue> due_of(double celsius, const model::Material& feed,
                                              double kilos, const model::Material& other,
                                              double other_kilos) {
  model::History history = at_work(40, celsius, 1000, 0, 0);
  for (int day = 1; day <= 40; ++day) {
    if (kilos > 0) add(history, feed, Dimension::kMass, kilos, day);
    if (other_kilos > 0) add(history, other, Dimension::kMass, other_kilos, day);
  }
  return kinds::digester::Study(history, kDefaults).due();
}

}  // namespace

TEST_CASE("the second model of gas: only for manure, at the temperatures it holds for") {
  const auto cattle = feed_called("cow manure", "manure");
  const auto pigs = feed_called("pig manure", "manure");
  const auto plants = feed_called("some plants", "green");
  const auto due = due_of(30, cattle, 20, plants, 0);
  REQUIRE(due);
  REQUIRE(due->stirred);
  // Chen & Hashimoto by hand: mu 0.261, RT 50, S0 100, K 0.8 + 0.0016 e^6 = 1.44549; 50 x 0.261 - 1
  // + K = 13.49549; 0.2 x 2 x (1 - K / 13.49549) = 0.357156 m3 of methane a m3, over 0.6.
  CHECK(due->stirred->value == doctest::Approx(357.156 / 0.6).epsilon(1e-4));
  CHECK_FALSE(due->washed_out);
  // Pigs have their own K: 0.6 + 0.0206 e^5.1 = 3.97889.
  const auto of_pigs = due_of(30, pigs, 20, plants, 0);
  REQUIRE((of_pigs && of_pigs->stirred));
  CHECK(of_pigs->stirred->value ==
        doctest::Approx(0.4 * (1 - 3.97889 / (13.05 - 1 + 3.97889)) * 1000 / 0.6).epsilon(1e-4));
  // Pigeons are no pigs.
  CHECK(due_of(30, feed_called("pigeon manure", "manure"), 20, plants, 0)->stirred->value ==
        doctest::Approx(due->stirred->value));
  // Four fifths manure and no less.
  CHECK(due_of(30, cattle, 16, plants, 4)->stirred);
  CHECK_FALSE(due_of(30, cattle, 15.9, plants, 4.1)->stirred);
  CHECK_FALSE(due_of(30, plants, 20, cattle, 0)->stirred);
  CHECK(due_of(30, plants, 20, cattle, 0)->by_loads.value > 0);
  // From 20 degC up.
  CHECK(due_of(20, cattle, 20, plants, 0)->stirred);
  CHECK_FALSE(due_of(19.9, cattle, 20, plants, 0)->stirred);
  // 300 L a day stay 3.3 days, and at 30 degC 3.83 are the least.
  const auto out = due_of(30, cattle, 300, plants, 0);
  REQUIRE(out);
  CHECK(out->washed_out);
  CHECK(out->stirred->value == 0);
}

}  // namespace kinds_digester_due_test
