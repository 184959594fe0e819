#include <doctest/doctest.h>

#include "digester_site.h"

namespace kinds_digester_safety_test {

using measure::Dimension;
using namespace site;
using namespace kinds::digester;

namespace {

Ids of(const model::History& before, std::string_view logged) {
  return minded({.logged = {logged}}, before);
}

model::Movement load(std::string_view material, std::string purpose) {
  auto made =
      build::movement(build::material(material), {Dimension::kVolume, 10}, build::at(site::on(40)));
  made.purpose = std::move(purpose);
  return made;
}

}  // namespace

TEST_CASE("digester.leak: from the first word of it until it is mended, in any stage") {
  model::History history = site::digester(40);
  CHECK_FALSE(has(history, kRuleLeak));
  build::sensed(history, "leak", "leaking", build::at(on(3)));
  build::sensed(history, "leak", "leaking", build::at(on(5)));
  const auto told = found(history, kRuleLeak);
  CHECK(told.urgency == model::Urgency::kNow);
  CHECK(told.facts(kDay) == on(3));
  CHECK(told.since == on(3));
  CHECK(told.reasons.empty());
  REQUIRE(told.ends.size() == 1);
  CHECK(told.ends[0].name == kMended.word);
  build::deed(history, "checked", build::at(on(6)));
  CHECK(reasons(found(history, kRuleLeak)) == kReasonChecked);
  CHECK(found(history, kRuleLeak).words.why ==
        "it was checked after that, and a check mends nothing");
  build::deed(history, "rested", build::at(on(7)));
  CHECK(has(history, kRuleLeak));
  build::sensed(history, "leak", "mended", build::at(on(8)));
  CHECK_FALSE(has(history, kRuleLeak));
  build::sensed(history, "leak", "leaking", build::at(on(9)));
  CHECK(found(history, kRuleLeak).facts(kDay) == on(9));
}

TEST_CASE("digester.leak: its gas is for no flame") {
  model::History history = site::digester(40);
  build::sensed(history, "leak", "leaking", build::at(on(3)));
  const Study study(history, kDefaults);
  REQUIRE(study.against_taking(load("biogas", "cooking")));
  CHECK_FALSE(study.against_taking(load("biogas", "cooking"))->refuses);
  CHECK_FALSE(study.against_taking(load("biogas", "venting")));
  CHECK_FALSE(study.against_taking(load("effluent", "")));
}

TEST_CASE("cautions: where hands are put to it, and of routine work after a month without") {
  model::History history = site::digester(60);
  CHECK(of(history, kVented) == Ids{"gas.vent", "gas.danger"});
  CHECK(of(history, kDrained) == Ids{"gas.trap", "gas.danger"});
  CHECK(of(history, kRenewed) == Ids{"gas.scrubber", "gas.danger"});
  CHECK(of(history, kRested) == Ids{"gas.rest", "gas.danger"});
  CHECK(of(history, kStirred) == Ids{"gas.stir", "gas.danger"});
  CHECK(of(history, kChecked) == Ids{"gas.check", "gas.danger"});
  CHECK(of(history, kCooking) == Ids{"gas.use"});
  for (const std::string_view name :
       {std::string_view(kTemperature), std::string_view(kFilled), std::string_view(kCovered),
        std::string_view(kNoFlame), std::string_view(kAcidity), std::string_view(kMeter)}) {
    CAPTURE(name);
    CHECK(of(history, name).empty());
  }
  build::deed(history, "stirred", build::at(on(30)));
  build::deed(history, "vented", build::at(on(59)));
  build::reading(history, "cooking", "", build::at(on(30)), 0.1);
  CHECK(of(history, kStirred).empty());
  CHECK(of(history, kCooking).empty());
  CHECK(of(history, kStrong).empty());
  CHECK_FALSE(of(history, kVented).empty());
  history.today = on(61);
  CHECK_FALSE(of(history, kStirred).empty());
  CHECK_FALSE(of(history, kCooking).empty());
}

TEST_CASE("cautions: under glass the house is aired first") {
  model::History history = site::digester(60);
  CHECK_FALSE(of(history, kVented).contains("gas.glass"));
  build::setting(history, "site", "glass");
  CHECK(of(history, kVented).contains("gas.glass"));
  CHECK(minded({.ends = true}, history) == Ids{"gas.glass", "gas.end", "gas.danger"});
  CHECK(minded({.starts = true}, history) == Ids{"gas.glass", "gas.site", "gas.leak"});
  // Where nothing else is to be minded, neither is the glass.
  build::deed(history, "stirred", build::at(on(59)));
  CHECK(of(history, kStirred).empty());
  CHECK(of(history, kTemperature).empty());
}

// A harvest is no venting: the word stands by itself or not at all.
TEST_CASE("cautions: what gas is taken for is read by whole words") {
  const model::History history = site::digester(60);
  const auto taken = [&](const char* purpose) {
    const model::Movement out = load("biogas", purpose);
    return minded({.out = &out}, history);
  };
  CHECK(taken("harvest event") == Ids{"gas.use"});
  CHECK(taken("") == Ids{"gas.use"});
  CHECK(taken("Venting") == Ids{"gas.vent", "gas.danger"});
  CHECK(taken("was let off") == Ids{"gas.vent", "gas.danger"});
  model::History used = site::digester(60);
  take(used, "biogas", 100, 40, "harvest event");
  CHECK(measured(used, "digester.gas_used") == doctest::Approx(100));
}

// What was said in a shorter form is no reason to leave out the whole: each is a row of its own.
TEST_CASE("cautions: after a venting the leak check still says never to lean in") {
  model::History history = at_work(40, 25, 1000, 5, 5);
  const auto check = found(history, kRuleCheck);
  CHECK(ids_of(check.cautions) == Ids{"gas.leak"});
  CHECK_FALSE(of(history, kVented).contains("gas.leak"));
  CHECK(contains(model::full_text(check.cautions), "never lean or climb in"));
  CHECK(contains(model::full_text(check.cautions), "licensed fitter"));
}

}  // namespace kinds_digester_safety_test
