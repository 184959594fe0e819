#include <doctest/doctest.h>

#include "digester_site.h"
#include "kinds/hold.h"

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

TEST_CASE("a holder that bulges: what is burned of it is asked back") {
  model::History history = site::digester(40);
  history.notes.push_back({build::at(on(3)), on(3), "gas holder bulging hard"});
  const Study study(history, kDefaults);
  REQUIRE(kinds::against_hold(study, load("biogas", "cooking")));
  CHECK(kinds::against_hold(study, load("biogas", "cooking"))->refuses);
  CHECK_FALSE(kinds::against_hold(study, load("biogas", "venting")));
  CHECK_FALSE(kinds::against_hold(study, load("effluent", "")));
}

TEST_CASE("cautions: where hands are put to it, and of routine work after a month without") {
  model::History history = site::digester(60);
  CHECK(of(history, kVented) == Ids{"gas.vent", "gas.danger"});
  CHECK(of(history, kDrained) == Ids{"gas.trap", "gas.danger"});
  CHECK(of(history, kRenewed) == Ids{"gas.scrubber", "gas.danger"});
  CHECK(of(history, kRested) == Ids{"gas.first", "gas.rest", "gas.danger"});
  CHECK(of(history, kStirred) == Ids{"gas.stir", "gas.danger"});
  CHECK(of(history, kChecked) == Ids{"gas.check", "gas.danger"});
  CHECK(of(history, kCooking) == Ids{"gas.use"});
  CHECK(of(history, kLeaking) == Ids{"note.gas"});
  CHECK(of(history, kCleaned) == Ids{"gas.end", "gas.danger", "germs.effluent"});
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

TEST_CASE("digester.leak: a remark of the smell of gas is taken for a leak") {
  model::History history = site::digester(40);
  history.notes.push_back({build::at(on(3)), on(3), "no smell of gas anywhere"});
  CHECK_FALSE(has(history, kRuleLeak));
  history.notes.push_back({build::at(on(5)), on(5), "smell gas in the glasshouse"});
  const auto told = found(history, kRuleLeak);
  CHECK(told.urgency == model::Urgency::kNow);
  CHECK(told.case_of == kCaseRemarked);
  CHECK(told.facts(kDay) == on(5));
  CHECK(ids_of(told.cautions) == Ids{"gas.leak"});
  build::sensed(history, "leak", "mended", build::at(on(6)));
  CHECK_FALSE(has(history, kRuleLeak));
  const Study study(history, kDefaults);
  CHECK(ids_of(kinds::cautions_of_note("I smell gas", study)) == Ids{"note.gas"});
  CHECK(ids_of(kinds::cautions_of_note("blowlamp at the frozen line", study)) ==
        Ids{"note.frozen"});
  CHECK(kinds::cautions_of_note("gas stove lunch", study).empty());
}

// NIOSH ceiling 10 ppm, IDLH 100 ppm (Malone Rubright et al. 2017, Nitric Oxide 71:1, table 3).
TEST_CASE("digester.sulfide: the air beside it by its ceilings") {
  const auto at_ppm = [](double ppm, int day = 40) {
    model::History history = site::digester(40);
    build::reading(history, "h2s", "", build::at(on(day)), ppm * 1e-6);
    return found(history, kRuleSulfide);
  };
  CHECK(at_ppm(10).rule.empty());
  CHECK(at_ppm(11).urgency == model::Urgency::kNow);
  CHECK(at_ppm(11).case_of == kCaseAbove);
  CHECK(at_ppm(101).case_of == kCaseDeadly);
  CHECK(at_ppm(101).words.line == "get everybody out: h2s 101 ppm, limit 100 ppm");
  CHECK(ids_of(at_ppm(11).cautions) == Ids{"gas.sulfide"});
  // Of two days ago: that the air is good now is not known.
  CHECK(at_ppm(50, 38).case_of == kCaseOldReading);
  CHECK(at_ppm(50, 38).urgency == model::Urgency::kToday);
  CHECK(at_ppm(9, 38).rule.empty());
}

TEST_CASE("its end: what may hold gas is made safe first") {
  model::History history = site::digester(40);
  const auto asked_back = [&] { return Study(history, kDefaults).against_ending().has_value(); };
  CHECK_FALSE(asked_back());  // never filled
  add(history, "cow manure", Dimension::kVolume, 400, 3);
  CHECK(asked_back());  // nobody saw gas, and none is not known
  build::deed(history, "vented", build::at(on(38)));
  CHECK(asked_back());
  build::deed(history, "vented", build::at(on(39)));
  CHECK_FALSE(asked_back());
  add(history, "cow manure", Dimension::kVolume, 4, 40);
  CHECK(asked_back());
}

TEST_CASE("a holder's pressure is asked about where it would burst one") {
  model::History history = site::digester(40);
  CHECK_FALSE(Study(history, kDefaults).doubts(kGasPressure, 10));  // a fixed dome
  build::setting(history, "holder", "200L", measure::Value{Dimension::kVolume, 200});
  const Study study(history, kDefaults);
  CHECK_FALSE(study.doubts(kGasPressure, 6));
  CHECK(study.doubts(kGasPressure, 10));
  CHECK_FALSE(study.doubts(kBarometer, 95));
}

TEST_CASE("feeding: raw manure is minded after a month without") {
  model::History history = site::digester(40);
  const auto manure =
      build::movement(build::material("cow manure"), {Dimension::kVolume, 10}, build::at(on(40)));
  CHECK(minded({.in = &manure}, history) == Ids{"germs.feed"});
  add(history, "cow manure", Dimension::kVolume, 4, 20);
  CHECK(minded({.in = &manure}, history).empty());
}

}  // namespace kinds_digester_safety_test
