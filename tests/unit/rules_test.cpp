#include "model/rules.h"

#include <doctest/doctest.h>

#include <set>
#include <type_traits>

#include "kinds/thresholds.h"
#include "measure/amount.h"

namespace rules_test {

using measure::Dimension;
using measure::UnitSystem;

namespace limits = kinds::thresholds::pile;

// The build turns schema/thresholds into code with a unit table of its own; here every row is read
// once more with the program's.
TEST_CASE("every threshold reads back from what its table says") {
  CHECK(kinds::thresholds::kAll.size() > 50);
  std::set<std::string_view> keys;
  for (const model::ThresholdInfo* info : kinds::thresholds::kAll) {
    CAPTURE(info->key);
    const auto read = measure::parse_value(
        info->typed, info->dimension, measure::usual_unit(info->dimension, UnitSystem::kMetric));
    REQUIRE_MESSAGE(read.ok(), (read.ok() ? "" : read.mistake().why));
    CHECK(read->value.si == info->si);  // to the last bit: limits and readings must meet
    CHECK(keys.insert(info->key).second);
    CHECK(info->key.starts_with(std::string(info->kind) + "."));
    CHECK_FALSE(info->meaning.empty());
    CHECK_FALSE(info->source.empty());
    // A row in a unit that the build does not know would become a plain number: it must name a rate
    // or a ratio, never the unit of another dimension ("lb", "gal").
    if (info->dimension == Dimension::kNumber) {
      const measure::Unit* unit = measure::find_unit(info->label);
      CHECK_MESSAGE(unit == nullptr, info->label);
    } else {
      CHECK(info->label.empty());
    }
  }
}

TEST_CASE("limits of law are the law's") {
  // 7 CFR 205.203(c)(2): between 131 F and 170 F; 40 CFR 503 appendix B and 21 CFR 112.54(b): 55
  // degC.
  CHECK(limits::treat_from_info.si == 55);
  CHECK(limits::hot_severe_info.si == measure::unit("°F").to_base(170));
}

TEST_CASE("a threshold's type is its unit") {
  static_assert(
      std::is_same_v<decltype(limits::hot_above), const model::Threshold<measure::Celsius>>);
  static_assert(std::is_same_v<decltype(limits::hot_fresh), const model::Threshold<measure::Days>>);
  const model::Rules rules;
  const measure::Celsius hot = rules(limits::hot_above);
  CHECK(hot.value == doctest::Approx(640.0 / 9));  // 160 F
}

TEST_CASE("a rule in force is the default until the site changes it") {
  model::Rules rules;
  CHECK(rules.in_force(limits::hot_above_info).si == limits::hot_above_info.si);
  CHECK(rules.in_force(limits::hot_above_info).source == limits::hot_above_info.source);
  rules.set("pile.hot.above", {68, "this site's own rule"});
  CHECK(rules(limits::hot_above).value == 68);
  CHECK(rules.in_force(limits::hot_above_info).source == "this site's own rule");
  rules.set("pile.hot.above", {66, "heap-3's own rule"});  // the later one stands
  CHECK(rules(limits::hot_above).value == 66);
  CHECK(rules.in_force(limits::hot_above_info).source == "heap-3's own rule");
  CHECK(rules(limits::hot_severe).value == limits::hot_severe_info.si);
}

}  // namespace rules_test
