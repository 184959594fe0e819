#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <set>

#include "kinds/caution.h"
#include "kinds/kind.h"
#include "kinds/pile/facts.h"
#include "kinds/pile/study.h"
#include "kinds/pile/vocabulary.h"
#include "tests/unit/build_history.h"

namespace kinds_pile_test {

// What a pile warns of, at the edges of its rules.

using namespace kinds::pile;  // the names of its facts
using measure::Celsius;
using measure::Dimension;

namespace {

const model::Day kStart = build::day("2027-03-01");
model::Day on(int number) {
  return kStart + date::days{number - 1};
}

struct Pile {
  model::History history;
  explicit Pile(int today, const char* method = "turned")
      : history(build::batch("pile", "heap-1", kStart, on(today))) {
    build::setting(history, "method", method);
  }
  Pile& read(int from, int to, double fahrenheit, std::string position = "core") {
    for (int day = from; day <= to; ++day) {
      build::reading(history, "temperature", position, build::at(on(day)),
                     measure::unit("°F").to_base(fahrenheit));
    }
    return *this;
  }
  Pile& turned(std::initializer_list<int> numbers) {
    for (const int number : numbers) build::deed(history, "turned", build::at(on(number), 9));
    return *this;
  }
  Pile& in(int day, double kilograms, std::string_view material) {
    history.in.push_back(build::movement(build::material(material), {Dimension::kMass, kilograms},
                                         build::at(on(day), 6)));
    return *this;
  }
  model::Assessment assess() const { return kinds::assess(history, model::Rules{}); }
};

// Of a finding that is there.
template <class T>
std::optional<T> fact(const model::Told* finding, model::Fact<T> name) {
  REQUIRE(finding != nullptr);
  return finding->facts.get(name);
}

double in_fahrenheit(std::optional<Celsius> value) {
  REQUIRE(value);
  return value->value * 1.8 + 32;
}

std::vector<std::string> ids(const model::Told* finding) {
  REQUIRE(finding != nullptr);
  std::vector<std::string> found;
  for (const model::Caution* one : finding->cautions) found.emplace_back(one->id);
  return found;
}

std::vector<std::string> reasons(const model::Told* finding) {
  REQUIRE(finding != nullptr);
  std::vector<std::string> found;
  for (const model::Reason& one : finding->reasons) found.emplace_back(one.id);
  return found;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("pile.hot: strictly above the limit, at any position") {
  CHECK(build::find(Pile(3).read(1, 3, 160).assess(), "pile.hot") == nullptr);
  CHECK(build::find(Pile(3).read(1, 3, 160.1).assess(), "pile.hot") != nullptr);
  const auto edge = Pile(3).read(1, 3, 140, "core").read(3, 3, 163, "edge").assess();
  const auto* found = build::find(edge, "pile.hot");
  REQUIRE(found != nullptr);
  CHECK(found->words.says == "its edge is too hot: 163 °F, above 160 °F");
  CHECK(found->words.line == "turn or open it: edge 163 °F");
  CHECK(fact(found, kPosition) == "edge");
  CHECK(in_fahrenheit(fact(found, kHottest)) == doctest::Approx(163));
  CHECK(in_fahrenheit(fact(found, kLimit)) == doctest::Approx(160));
  CHECK(found->urgency == model::Urgency::kNow);
  CHECK(found->job == kJobTurn);
  CHECK(found->since == on(3));
  REQUIRE(found->ends.size() == 1);
  CHECK(found->ends.front().name == "temperature");
  CHECK(found->ends.front().position == "edge");
  const auto both = Pile(3).read(1, 3, 161, "core").read(3, 3, 163, "edge").assess();
  const auto others = fact(build::find(both, "pile.hot"), kAlsoHot);
  REQUIRE(others);
  CHECK(others->front().name == "core");
}

TEST_CASE("pile.hot stands until that very position is read at or below the limit") {
  // Nobody reads it for a week; another place is read; it is turned: still hot.
  const auto stale = Pile(9).read(1, 2, 165).assess();
  CHECK(fact(build::find(stale, "pile.hot"), kDaysAgo) == 7);
  CHECK(build::find(stale, "pile.hot")->since == on(1));
  CHECK(build::find(Pile(3).read(1, 2, 165).read(3, 3, 150, "edge").assess(), "pile.hot") !=
        nullptr);
  CHECK(build::find(Pile(3).read(1, 2, 165).turned({2}).assess(), "pile.hot") != nullptr);
  CHECK(build::find(Pile(3).read(1, 2, 165).read(3, 3, 160).assess(), "pile.hot") == nullptr);
}

TEST_CASE("pile.hot: a turning counts, and with the pile read again after it ends it") {
  const auto hot = [](const Pile& pile) -> std::optional<model::Told> {
    const auto assessment = pile.assess();
    const auto* found = build::find(assessment, "pile.hot");
    return found == nullptr ? std::nullopt : std::optional(*found);
  };
  const auto turned = hot(Pile(2).read(2, 2, 164).turned({2}));
  REQUIRE(turned);
  CHECK(turned->case_of == kCaseTurned);
  CHECK(turned->urgency == model::Urgency::kToday);
  CHECK(turned->job == kJobRead);
  CHECK(turned->words.line == "read its core again: 164 °F before turning");
  // Readings without a place, or of the core, are of the pile; an edge says nothing of a core.
  CHECK_FALSE(hot(Pile(3).read(2, 2, 164).turned({2}).read(3, 3, 146, "")));
  CHECK_FALSE(hot(Pile(3).read(2, 2, 164, "edge").turned({2}).read(3, 3, 146)));
  CHECK(hot(Pile(3).read(2, 2, 164).turned({2}).read(3, 3, 146, "edge")));
  CHECK(hot(Pile(3).read(2, 2, 164).read(3, 3, 146, "")));
  CHECK(hot(Pile(3).read(2, 2, 164).turned({2}).read(3, 3, 166, "")));
  // Where it can catch fire, that very place is read.
  CHECK(hot(Pile(3).read(2, 2, 181).turned({2}).read(3, 3, 146, ""))->case_of == kCaseFire);
  // Nothing that feeds the heat is asked for.
  Pile chips = Pile(2).read(2, 2, 172).in(1, 300, "wood chips");
  CHECK(build::find(chips.assess(), "pile.mix") == nullptr);
  CHECK(build::find(Pile(2).read(2, 2, 142).in(1, 300, "wood chips").assess(), "pile.mix") !=
        nullptr);
}

// 7 CFR 205.203(c)(2) speaks of the material, not of its core.
TEST_CASE("pile.edge: an outer place holds the days back") {
  const auto pile = [](int days) {
    Pile made = Pile(days).read(1, days, 138).read(1, days, 118, "edge");
    build::setting(made.history, "cn", "30", measure::Value{Dimension::kNumber, 30});
    return made;
  };
  const auto assessment = pile(18).turned({3, 6, 9, 12, 15}).assess();
  const auto* found = build::find(assessment, "pile.edge");
  CHECK(in_fahrenheit(fact(found, kOuter)) == doctest::Approx(118));
  CHECK(fact(found, kPosition) == "edge");
  CHECK(fact(found, kDaysHeld) == 18);
  CHECK(found->words.line == "turn it outside in, cover it: edge 118 °F");
  CHECK(assessment.well == "hot at 138 °F, no day for NOP");
  CHECK(build::find(pile(2).assess(), "pile.edge") == nullptr);
  CHECK(build::find(pile(3).assess(), "pile.edge") != nullptr);
  CHECK(build::find(pile(18).turned({18}).assess(), "pile.edge") == nullptr);
  CHECK(build::find(Pile(18).read(1, 18, 138).read(1, 18, 131, "edge").assess(), "pile.edge") ==
        nullptr);
}

TEST_CASE("what was not read is not known: no cold for a pile that nobody read") {
  const Pile unread = Pile(64).read(1, 10, 80).in(1, 100, "leaves");
  const auto assessment = unread.assess();
  CHECK(build::find(assessment, "pile.cold") == nullptr);
  CHECK(build::find(assessment, "pile.unread") != nullptr);
  CHECK(build::find(Pile(13).read(1, 10, 80).assess(), "pile.cold") != nullptr);
}

TEST_CASE("nothing is to be mixed into what is done, or cools") {
  Pile cooling = Pile(12).read(1, 9, 140).read(10, 12, 100).in(1, 100, "coffee grounds");
  REQUIRE(cooling.assess().stage == "cooling");
  CHECK(build::find(cooling.assess(), "pile.mix") == nullptr);
  Pile curing = Pile(20).read(1, 9, 140).read(10, 20, 95).in(1, 100, "coffee grounds");
  REQUIRE(curing.assess().stage == "curing");
  CHECK(build::find(curing.assess(), "pile.mix") == nullptr);
}

TEST_CASE("a ratio beside its limit shows the digits that decide") {
  Pile pile = Pile(16).read(1, 16, 140).turned({2, 5, 8, 11, 14});
  build::setting(pile.history, "cn", "40.04", measure::Value{Dimension::kNumber, 40.04});
  CHECK(build::contains(build::progress(pile.assess(), "NOP"),
                        "at the start was 40.04, outside 25 to 40"));
}

namespace {

std::unique_ptr<kinds::Study> studied(const Pile& pile) {
  static const model::Rules rules;
  return kinds::study(pile.history, rules);
}

model::Movement compost_to(const char* label, const char* kind) {
  model::Movement out =
      build::movement(build::material("compost"), {Dimension::kMass, 40}, build::at(on(5), 8));
  out.to = label;
  out.to_kind = kind;
  return out;
}

}  // namespace

// 21 CFR 112.3 and 112.56: untreated animal matter counts as manure does.
TEST_CASE("raw compost that leaves the site is said to be raw") {
  const auto away = compost_to("", "");
  for (const char* raw : {"hen manure", "fish waste", "slaughter waste", "bones", "compost"}) {
    const Pile pile = Pile(5).in(1, 100, raw);
    const auto objection = studied(pile)->against_taking(away);
    REQUIRE(objection);
    CHECK(objection->rule == kRuleRawLeaves);
    CHECK_FALSE(objection->refuses);
    const kinds::Handled handled{.out = &away};
    CHECK(studied(pile)->circumstances(handled) == std::vector<std::string_view>{"raw_away"});
    const auto cautions = kinds::cautions_at(handled, *studied(pile));
    REQUIRE(cautions.size() == 1);
    CHECK(cautions.front()->id == "pile.raw_leaves");
  }
  CHECK_FALSE(studied(Pile(5).in(1, 100, "leaves"))->against_taking(away));
  CHECK_FALSE(studied(Pile(5).in(1, 100, "bone meal"))->against_taking(away));
  // What stays on the site is followed there.
  CHECK_FALSE(
      studied(Pile(5).in(1, 100, "hen manure"))->against_taking(compost_to("bed-1", "bed")));
}

// 7 CFR 205.203(c)(2): the material has to be treated, all of it.
TEST_CASE("an addition in the middle of a treatment says what it costs") {
  const auto said = [](const Pile& pile, const char* what) {
    return studied(pile)->against_adding(
        build::movement(build::material(what), {Dimension::kMass, 20}, build::at(on(10), 9)));
  };
  const Pile pile = Pile(10).read(1, 10, 140).turned({3, 6}).in(1, 100, "horse manure with straw");
  REQUIRE(said(pile, "coffee grounds"));
  CHECK(said(pile, "coffee grounds")->refuses);
  CHECK(build::contains(said(pile, "coffee grounds")->says, "10 of 15 days"));
  CHECK_FALSE(said(pile, "water"));
  CHECK_FALSE(said(Pile(10).read(1, 10, 100), "coffee grounds"));
  // Leaves alone are outside what the rule takes: no treatment runs that could be broken.
  CHECK_FALSE(
      said(Pile(10).read(1, 10, 140).turned({3, 6}).in(1, 100, "leaves"), "coffee grounds"));
}

// The same: what is treated less decides.
TEST_CASE("piles laid together are treated as far as the less treated one") {
  const auto days = [](std::optional<model::TreatedDays> added) {
    Pile pile =
        Pile(12).read(1, 12, 140).turned({3, 6, 11}).in(1, 100, "leaves").in(10, 50, "compost");
    pile.history.in.back().treated = added;
    const auto made = studied(pile);
    const auto& study = dynamic_cast<const kinds::pile::Study&>(*made);
    const Treatment nop = study.treatment(Standard::kNop);
    return nop.tally.open ? nop.tally.open->days : 0;
  };
  // Before the 10th there are nine days: of those the load's own, no more.
  CHECK(days(std::nullopt) == 3);
  CHECK(days(model::TreatedDays{}) == 3);
  CHECK(days(model::TreatedDays{2, 1}) == 5);
  CHECK(days(model::TreatedDays{20, 5}) == 12);
  // Days before a turning that the load did not have do not count.
  CHECK(days(model::TreatedDays{20, 1}) == 9);
  CHECK(days(model::TreatedDays{.done = true}) == 12);
}

TEST_CASE("a load that is treated as far, or all through, costs nothing") {
  const auto cost = [](model::TreatedDays added) {
    auto load =
        build::movement(build::material("compost"), {Dimension::kMass, 20}, build::at(on(10), 9));
    load.treated = added;
    return studied(Pile(10).read(1, 10, 140).turned({3, 6}).in(1, 100, "horse manure with straw"))
        ->against_adding(load);
  };
  CHECK_FALSE(cost({.done = true}));
  REQUIRE(cost({4, 1}));
  CHECK(build::contains(cost({4, 1})->says, "4 days"));
  CHECK(cost({})->refuses);
}

// WSU and OSU extension: peas or beans are sown in it before it is used.
TEST_CASE("hay, straw, horse manure and bought compost may carry a herbicide") {
  const auto said = [](const Pile& pile) {
    return studied(pile)->at_use(compost_to("bed-1", "bed")).size();
  };
  const std::size_t without = said(Pile(5).in(1, 100, "leaves"));
  for (const char* may : {"hay", "straw", "horse manure", "compost"}) {
    CHECK(said(Pile(5).in(1, 100, may)) == without + 1);
  }
  Pile tested = Pile(5).in(1, 100, "hay");
  build::sensed(tested.history, "bioassay", "bioassay-passed", build::at(on(4)));
  CHECK(said(tested) == without);
  Pile failed = Pile(5).in(1, 100, "hay");
  build::sensed(failed.history, "bioassay", "bioassay-failed", build::at(on(4)));
  CHECK(said(failed) == without + 1);
  // Fed since.
  tested.in(5, 10, "straw");
  CHECK(said(tested) == without + 1);
}

TEST_CASE("two piles laid together keep the mix of both") {
  const Pile giver = Pile(3).in(1, 100, "straw").in(1, 62, "hen manure");
  const double ratio =
      studied(giver)->figures().empty() ? 0 : build::figure(giver.assess(), "pile.cn");
  model::Movement load = compost_to("heap-2", "pile");
  load.from = "heap-1";
  load.from_kind = "pile";
  load.holds = studied(giver)->holds(load);
  REQUIRE(load.holds);
  CHECK(*load.holds->carbon / *load.holds->nitrogen == doctest::Approx(ratio));
  CHECK_FALSE(studied(giver)->holds(compost_to("bed-1", "bed")));
  Pile taker = Pile(3).in(1, 100, "straw").in(1, 62, "hen manure");
  taker.history.in.push_back(load);
  CHECK(build::figure(taker.assess(), "pile.cn") == doctest::Approx(ratio));
}

TEST_CASE("pile.hot grows stronger") {
  const auto at = [](double heat) {
    const auto assessment = Pile(1).read(1, 1, heat).assess();
    const auto* found = build::find(assessment, "pile.hot");
    REQUIRE(found != nullptr);
    return *found;
  };
  CHECK_FALSE(at(169).facts.is(kSevere));
  CHECK(at(170).facts.is(kSevere));
  const model::Told below = at(179), fire = at(180);
  CHECK(ids(&below).empty());
  CHECK(below.case_of == kCaseTooHot);
  CHECK(ids(&fire) == Names{"pile.fire"});
  CHECK(fire.case_of == kCaseFire);
  CHECK(fire.job == kJobStandBack);
}

TEST_CASE("stage follows the temperatures") {
  CHECK(Pile(1).assess().stage == "unread");
  CHECK(Pile(4).read(1, 4, 80).assess().stage == "warming");
  CHECK(Pile(9).read(1, 9, 80).assess().stage == "not heating");
  CHECK(Pile(5).read(1, 2, 90).read(3, 5, 104).assess().stage == "warm");
  CHECK(Pile(5).read(1, 2, 90).read(3, 5, 103.9).assess().stage == "warming");
  CHECK(Pile(12).read(1, 9, 140).read(10, 12, 100).assess().stage == "cooling");
  CHECK(Pile(20).read(1, 9, 140).read(10, 20, 95).assess().stage == "curing");
  // A dip after a turning is not an end of the heat, and coming back is not a new start.
  CHECK(Pile(11).read(1, 9, 140).turned({10}).read(11, 11, 95).assess().stage == "warm");
  CHECK(Pile(13).read(1, 9, 140).turned({10}).read(11, 11, 95).read(12, 13, 130).assess().stage ==
        "warm");
  // Turned, and it did not come back.
  CHECK(Pile(16).read(1, 9, 140).read(10, 11, 100).turned({11}).read(12, 16, 90).assess().stage ==
        "curing");
  // It heats again by itself after three weeks.
  CHECK(Pile(32).read(1, 9, 140).read(10, 31, 90).read(32, 32, 120).assess().stage == "warm");
  // Hot from the heat of a treatment on: 131 °F, 55 °C.
  CHECK(Pile(5).read(1, 5, 131).assess().stage == "hot");
  CHECK(Pile(5).read(1, 5, 130.9).assess().stage == "warm");
}

TEST_CASE("pile.ready: cured, near the air, and not warming after a turning") {
  const auto cured = [](double pile, double air, std::initializer_list<int> turnings) {
    Pile made = Pile(31).read(1, 9, 140).read(10, 31, pile).turned(turnings);
    build::reading(made.history, "air", "", build::at(on(31)), measure::unit("°F").to_base(air));
    return made;
  };
  CHECK(build::find(cured(70, 60, {11}).assess(), "pile.ready") != nullptr);
  CHECK(build::find(cured(70, 60, {}).assess(), "pile.ready") == nullptr);    // never tried
  CHECK(build::find(cured(80, 60, {11}).assess(), "pile.ready") == nullptr);  // 20 °F above the air
  // Nobody read the air: at 86 °F (30 °C) or less it is taken for near it.
  const auto without_air = [](double pile) {
    return Pile(31).read(1, 9, 140).read(10, 31, pile).turned({11}).assess();
  };
  CHECK(build::find(without_air(86), "pile.ready") != nullptr);
  CHECK(build::find(without_air(86.1), "pile.ready") == nullptr);
  // Two months are test enough.
  Pile old = Pile(69).read(1, 9, 140).read(10, 69, 70);
  CHECK(build::find(old.assess(), "pile.ready") != nullptr);
  CHECK(build::find(Pile(68).read(1, 9, 140).read(10, 68, 70).assess(), "pile.ready") == nullptr);
  // Fed since: what went in has to cure too.
  CHECK(build::find(cured(70, 60, {11}).in(20, 10, "leaves").assess(), "pile.ready") == nullptr);
  Pile young = Pile(29).read(1, 9, 140).read(10, 29, 65).turned({11});
  build::reading(young.history, "air", "", build::at(on(29)), measure::unit("°F").to_base(60));
  CHECK(build::find(young.assess(), "pile.ready") == nullptr);  // 20 of 21 days
  // A self-heating test decides where there is one: class II works on, class V does not.
  Pile tested = cured(70, 60, {11});
  build::reading(tested.history, "selfheating", "", build::at(on(31)), 35);
  CHECK(build::find(tested.assess(), "pile.ready") == nullptr);
  build::reading(tested.history, "selfheating", "", build::at(on(31), 8), 6);
  CHECK(build::find(tested.assess(), "pile.ready") != nullptr);
}

TEST_CASE("pile.heating: on its way past the limit within two days") {
  const auto rising = [](double first, double second, double third) {
    return Pile(6).read(4, 4, first).read(5, 5, second).read(6, 6, third);
  };
  const auto found = rising(140, 147, 154).assess();
  const auto* heating = build::find(found, "pile.heating");
  REQUIRE(heating != nullptr);
  CHECK(heating->due == on(7));
  CHECK(build::find(rising(140, 140, 140).assess(), "pile.heating") == nullptr);
  // Past it already: pile.hot says so, once.
  const auto hot = rising(150, 156, 162).assess();
  CHECK(build::find(hot, "pile.heating") == nullptr);
  CHECK(build::find(hot, "pile.hot") != nullptr);
  // Turned since it was read, or between the two readings: they say nothing of what comes.
  CHECK(build::find(rising(140, 147, 154).turned({6}).assess(), "pile.heating") == nullptr);
  CHECK(build::find(rising(140, 147, 154).turned({5}).assess(), "pile.heating") == nullptr);
}

TEST_CASE("pile.cold gives its reasons, what was measured first") {
  Pile pile = Pile(9).read(1, 9, 80).in(1, 100, "leaves").in(1, 60, "water");
  const auto by_mix = pile.assess();
  CHECK(reasons(build::find(by_mix, "pile.cold")).front() == kLittleNitrogen);
  CHECK(build::find(by_mix, "pile.cold")->case_of == kCaseNeverHeated);
  build::reading(pile.history, "moisture", "", build::at(on(9)), 0.30);
  const auto found = pile.assess();
  const auto* cold = build::find(found, "pile.cold");
  REQUIRE(reasons(cold).size() >= 2);
  CHECK(cold->reasons[0].id == kTooDry);
  CHECK(cold->reasons[0].support == model::Support::kRead);
  CHECK(cold->reasons[0].facts.get(kMoistureRead)->value == doctest::Approx(0.30));
  CHECK(cold->reasons[1].id == kLittleNitrogen);
  CHECK(cold->reasons[1].support == model::Support::kWorkedOut);
  CHECK(cold->job == kJobTurn);
  CHECK(build::contains(cold->words.why, "likely too dry (30 % moisture)"));
  CHECK(build::find(found, "pile.dry") != nullptr);
  CHECK(build::find(Pile(5).read(1, 5, 80).assess(), "pile.cold") == nullptr);
  CHECK(build::find(Pile(9).read(1, 9, 104).assess(), "pile.cold") == nullptr);
}

// 7 CFR 205.203(c)(2)(iii): 15 days at 131 to 170 °F. Below it no day counts.
TEST_CASE("pile.stopped: below the heat of the treatment, and not on its way back") {
  const auto stopped = [](Pile pile, const model::Rules& rules = {}) -> std::optional<model::Told> {
    build::setting(pile.history, "cn", "30", measure::Value{Dimension::kNumber, 30});
    const auto assessment = kinds::assess(pile.history, rules);
    const auto* found = build::find(assessment, "pile.stopped");
    return found == nullptr ? std::nullopt : std::optional(*found);
  };
  CHECK_FALSE(stopped(Pile(9).read(1, 6, 140).read(7, 9, 131)));
  const auto found = stopped(Pile(9).read(1, 6, 140).read(7, 9, 130.9));
  REQUIRE(found);
  CHECK(in_fahrenheit(found->facts.get(kNow)) == doctest::Approx(130.9));
  CHECK(in_fahrenheit(found->facts.get(kLimit)) == doctest::Approx(131));
  CHECK(found->case_of == kCaseBroken);
  CHECK(found->since == on(7));
  CHECK(found->facts.get(kTreatment) == "NOP");
  CHECK(found->facts.get(kTreatmentDays) == 6);
  CHECK(found->facts.get(kTreatmentWanted) == 15);
  CHECK(build::contains(found->words.says, "130.9 °F, below the 131 °F that NOP asks for"));
  CHECK(build::contains(found->words.why, "these days still count, 9 more needed"));
  // Turned: two days are waited out, and no third; climbing a kelvin a day it is on its way.
  CHECK_FALSE(stopped(Pile(9).read(1, 6, 140).turned({7}).read(7, 9, 120)));
  CHECK(stopped(Pile(10).read(1, 6, 140).turned({7}).read(7, 10, 120)));
  CHECK_FALSE(stopped(Pile(9).read(1, 6, 140).read(7, 8, 120).read(9, 9, 123)));
  // Where its days have to follow each other, it begins anew.
  model::Rules strict;
  strict.set("pile.treat.in_a_row", {1, "test"});
  const auto anew = stopped(Pile(9).read(1, 6, 140).read(7, 9, 120), strict);
  REQUIRE(anew);
  CHECK(build::contains(anew->words.why, "so the count starts over"));
  // It never got there: only once it had the time to.
  CHECK_FALSE(stopped(Pile(6).read(1, 6, 120)));
  const auto never = stopped(Pile(7).read(1, 7, 120));
  REQUIRE(never);
  CHECK(never->case_of == kCaseNoDay);
  CHECK(never->facts.get(kDaysOld) == 6);
  // Shown, or not asked for: there is nothing to stop.
  Pile aerated(7, "static");
  build::deed(aerated.history, "aerated", build::at(on(1)));
  CHECK_FALSE(stopped(aerated.in(1, 100, "straw")
                          .in(1, 20, "hen manure")
                          .read(1, 4, 140)
                          .read(1, 4, 135, "edge")
                          .read(5, 7, 120)));
  Pile none = Pile(9).read(1, 6, 140).read(7, 9, 120);
  build::setting(none.history, "standard", "none");
  CHECK_FALSE(stopped(none));
}

TEST_CASE("pile.stopped: what helps comes in the order that the records support") {
  Pile pile = Pile(12).read(1, 6, 140).read(7, 12, 120).in(1, 300, "leaves").in(1, 200, "water");
  build::reading(pile.history, "moisture", "", build::at(on(12)), 0.30);
  const auto found = pile.assess();
  // C:N of the mix is outside what NOP asks for, so that no heat can show it.
  REQUIRE(build::find(found, "pile.stopped") != nullptr);
  CHECK(
      build::contains(build::find(found, "pile.stopped")->words.why, "these records cannot show"));
  build::setting(pile.history, "cn", "30", measure::Value{Dimension::kNumber, 30});
  const auto again = pile.assess();
  const auto* stopped = build::find(again, "pile.stopped");
  const Names why = reasons(stopped);
  REQUIRE(why.size() >= 2);
  CHECK(why.front() == kTooDry);
  CHECK(why.back() == kNotTurned);
  CHECK(stopped->words.action.starts_with("water it as you turn it"));
  // A turning that another remedy brings is not told again.
  CHECK_FALSE(build::contains(stopped->words.action, "turn it, outside to inside"));
}

TEST_CASE("at the fire limit one order only") {
  const auto orders = [](double fahrenheit) {
    Pile pile = Pile(20).read(1, 19, 140).read(20, 20, fahrenheit).in(1, 300, "grass clippings");
    build::reading(pile.history, "moisture", "", build::at(on(20)), 0.80);
    const auto assessment = pile.assess();
    std::string rules;
    for (const model::Told& one : assessment.findings) rules += one.rule + " ";
    return rules;
  };
  CHECK(orders(179).find("pile.soggy") != std::string::npos);
  CHECK(orders(179).find("pile.turn") != std::string::npos);
  CHECK(orders(180) == "pile.hot ");
  // The very order does not say to open it, unless with water and company.
  const auto assessment = Pile(1).read(1, 1, 180).assess();
  CHECK(
      build::find(assessment, "pile.hot")->words.action.starts_with("keep it closed until water"));
}

namespace {

model::Told unready(const Pile& pile, int carried, std::string_view material = "compost") {
  model::History history = pile.history;
  model::Movement out =
      build::movement(build::material(material), {Dimension::kMass, 20}, build::at(on(carried), 8));
  out.to = "bed-1";
  out.to_kind = "bed";
  history.out.push_back(out);
  const auto assessment = kinds::assess(history, model::Rules{});
  const auto* found = build::find(assessment, "pile.unready");
  return found == nullptr ? model::Told{} : *found;
}

}  // namespace

TEST_CASE("pile.unready: compost that went to a bed before it was done, as it was then") {
  struct Row {
    Pile pile;
    int carried;
    Stage then;
  };
  const Row rows[] = {{Pile(3), 3, Stage::kUnread},
                      {Pile(3).read(1, 3, 90), 3, Stage::kWarming},
                      {Pile(9).read(1, 9, 140), 5, Stage::kHot},
                      // For two weeks.
                      {Pile(19).read(1, 19, 140), 5, Stage::kHot}};
  for (const Row& row : rows) {
    const model::Told found = unready(row.pile, row.carried);
    CHECK(found.rule == kRuleUnready);
    CHECK(found.case_of == kCaseUnfinished);
    CHECK(found.facts.get(kStageThen) == row.then);
    CHECK(found.facts.get(kNotShown) == "NOP");
    CHECK(found.facts.get(kBed) == "bed-1");
    CHECK(found.since == on(row.carried));
  }
  CHECK(build::contains(unready(Pile(9).read(1, 9, 140), 5).words.says,
                        "it was still hot (140 °F), and NOP was not shown"));
  CHECK(build::contains(unready(Pile(3), 3).words.says, "its temperature was never read"));
  CHECK(
      build::contains(unready(Pile(3).read(1, 3, 90), 3).words.says, "it had just begun to warm"));
  CHECK(unready(Pile(20).read(1, 20, 140), 5).rule.empty());
  // Only compost.
  CHECK(unready(Pile(9).read(1, 9, 140), 5, "charged char").rule.empty());
  // Cured, of leaves alone: nothing is missing unless a treatment was asked for, or manure went in.
  Pile ripe = Pile(35).read(1, 3, 110).read(4, 35, 65).turned({14});
  build::reading(ripe.history, "air", "", build::at(on(35)), measure::unit("°F").to_base(60));
  ripe.in(1, 100, "leaves");
  REQUIRE(ripe.assess().stage == "ready");
  CHECK(unready(ripe, 35).rule.empty());
  Pile asked = ripe;
  build::setting(asked.history, "standard", "fsma");
  CHECK(unready(asked, 35).case_of == kCaseUntreated);
  CHECK(unready(asked, 35).facts.get(kNotShown) == "FSMA");
  CHECK(unready(ripe.in(1, 30, "horse manure"), 35).facts.get(kNotShown) == "NOP");
}

TEST_CASE("pile.turn: for the turnings of the treatment") {
  CHECK(build::find(Pile(3).read(1, 3, 140).assess(), "pile.turn") == nullptr);
  const auto due = Pile(4).read(1, 4, 140).assess();
  const auto* turn = build::find(due, "pile.turn");
  CHECK(fact(turn, kTurnings) == 0);
  CHECK(fact(turn, kTurningsWanted) == 5);
  CHECK(turn->case_of == kCaseTurnings);
  CHECK(turn->since == on(4));
  CHECK(turn->job == kJobTurn);
  CHECK(build::find(Pile(4).read(1, 4, 140).turned({3}).assess(), "pile.turn") == nullptr);
  CHECK(build::find(Pile(9, "static").read(1, 9, 140).assess(), "pile.turn") == nullptr);
}

TEST_CASE("pile.dry and pile.soggy: at the limits it is well") {
  const auto damp = [](double share) {
    Pile pile = Pile(3).read(1, 3, 140);
    build::reading(pile.history, "moisture", "", build::at(on(3)), share);
    return pile;
  };
  CHECK(build::find(damp(0.40).assess(), "pile.dry") == nullptr);
  CHECK(build::find(damp(0.399).assess(), "pile.dry") != nullptr);
  CHECK(build::find(damp(0.65).assess(), "pile.soggy") == nullptr);
  CHECK(build::find(damp(0.651).assess(), "pile.soggy") != nullptr);
  Pile watered = damp(0.35);
  build::deed(watered.history, "watered", build::at(on(3), 8));
  CHECK(build::find(watered.assess(), "pile.dry") == nullptr);
  Pile felt = Pile(3).read(1, 3, 140);
  build::sensed(felt.history, "moisture", "soggy", build::at(on(3)));
  CHECK(build::find(felt.assess(), "pile.soggy") != nullptr);
}

TEST_CASE("pile.smell, until it is turned") {
  Pile pile = Pile(3).read(1, 3, 140);
  build::sensed(pile.history, "smell", "ammonia", build::at(on(3)));
  const auto found = pile.assess();
  CHECK(ids(build::find(found, "pile.smell")) == Names{"pile.ammonia"});
  CHECK(build::find(found, "pile.smell")->case_of == kCaseAmmonia);
  CHECK(build::find(pile.turned({3}).assess(), "pile.smell") == nullptr);
}

TEST_CASE("pile.mix: the blend judges, and the addition does what it says") {
  // Grounds and leaves at 31:1 are well.
  CHECK(build::find(Pile(2).in(1, 40, "coffee grounds").in(1, 30, "leaves").assess(), "pile.mix") ==
        nullptr);
  // Leaves alone: 54:1 (NRAES-54) and 38 % moisture.
  const auto leaves = Pile(2).in(1, 100, "leaves").assess();
  const auto* found = build::find(leaves, "pile.mix");
  CHECK(fact(found, kRatio)->value == doctest::Approx(54));
  CHECK(fact(found, kRatioLimit)->value == 40);
  CHECK(fact(found, kMoistureOfMix)->value == doctest::Approx(0.38));
  CHECK(fact(found, kMoistureLimit)->value == doctest::Approx(0.40));
  CHECK(found->words.says ==
        "what went in is 54:1 carbon to nitrogen, above 40, and 38 % moisture, below 40 %");
  // What is to be added brings it within both.
  REQUIRE(fact(found, kAddition));
  CHECK(fact(found, kRatioThen)->value <= 40);
  CHECK(fact(found, kRatioThen)->value >= 25);
  CHECK(fact(found, kMoistureThen)->value >= 0.40);
  // Grounds alone: 20:1.
  const auto grounds = Pile(2).in(1, 40, "coffee grounds").assess();
  CHECK(fact(build::find(grounds, "pile.mix"), kRatio)->value == doctest::Approx(20));
  CHECK(fact(build::find(grounds, "pile.mix"), kRatioLimit)->value == 25);
  // Too long ago to matter, and what cannot be known is not judged.
  CHECK(build::find(Pile(2).in(1, 100, "leaves").in(1, 100, "ferns").assess(), "pile.mix") ==
        nullptr);
}

TEST_CASE("pile.banned") {
  const kinds::Kind& pile = *kinds::find_kind("pile");
  const model::Batch batch;
  const auto objection = [&](std::string_view name) {
    return pile.carrying.objects_to(build::material(name), batch, model::Rules{});
  };
  for (const char* never : {"plastic", "treated wood", "painted wood", "synthetic fertilizer"}) {
    REQUIRE(objection(never));
    CHECK(objection(never)->refuses);
  }
  for (const char* never : {"pet waste", "human waste"}) {
    REQUIRE(objection(never));
    CHECK(objection(never)->refuses);
    CHECK_FALSE(build::contains(objection(never)->source, "synthetic"));
  }
  CHECK(build::contains(objection("pet waste")->says, "toxoplasmosis"));
  CHECK_FALSE(build::contains(objection("pet waste")->source, "205.203"));
  CHECK(build::contains(objection("human waste")->source, "21 CFR 112.53"));
  CHECK(build::contains(objection("poultry carcasses")->says, "avian influenza"));
  for (const char* care : {"meat scraps", "bones", "butter", "branches", "poultry carcasses"}) {
    REQUIRE(objection(care));
    CHECK_FALSE(objection(care)->refuses);
  }
  CHECK_FALSE(objection("leaves"));
  CHECK_FALSE(objection("hen manure"));
  CHECK_FALSE(objection("blood meal"));
}

TEST_CASE("a standard that is not known is said") {
  Pile pile(1);
  build::setting(pile.history, "standard", "nop+nopp");
  const auto assessment = pile.assess();
  CHECK(fact(build::find(assessment, "pile.standard"), kUnknown) == Names{"nopp"});
  Pile none(1);
  build::setting(none.history, "standard", "none");
  CHECK(none.assess().progress.empty());
}

namespace {

std::size_t columns(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](unsigned char one) { return (one & 0xC0) != 0x80; }));
}

}  // namespace

TEST_CASE("every line fits 46 columns, and says what to do") {
  std::vector<Pile> piles{Pile(3).read(1, 3, 165),
                          Pile(9).read(1, 2, 165),
                          Pile(1).read(1, 1, 180),
                          Pile(9).read(1, 9, 80).in(1, 100, "leaves"),
                          Pile(4).read(1, 4, 140),
                          Pile(18).read(1, 18, 140),
                          Pile(6).read(4, 4, 140).read(5, 5, 147).read(6, 6, 154),
                          Pile(12).read(1, 6, 140).read(7, 12, 120).in(1, 300, "leaves"),
                          Pile(200, "cold").in(1, 50, "horse manure with shavings"),
                          Pile(2).in(1, 40, "horse manure with shavings").in(1, 40, "pig slurry"),
                          Pile(35).read(1, 3, 110).read(4, 35, 65).turned({14}),
                          Pile(30).read(1, 21, 150).read(22, 30, 90)};
  for (const char* felt : {"dry", "soggy"}) {
    piles.push_back(Pile(9).read(1, 9, 80));
    build::sensed(piles.back().history, "moisture", felt, build::at(on(9)));
  }
  for (const char* smelt : {"ammonia", "sour", "rotten"}) {
    piles.push_back(Pile(9).read(1, 9, 140));
    build::sensed(piles.back().history, "smell", smelt, build::at(on(9)));
  }
  piles.push_back(Pile(9).read(1, 9, 80));
  build::reading(piles.back().history, "oxygen", "", build::at(on(9)), 0.02);
  build::reading(piles.back().history, "moisture", "", build::at(on(9)), 0.351);
  piles.push_back(Pile(9).read(1, 9, 80));
  build::setting(piles.back().history, "standard", "vector+nopp");
  build::setting(piles.back().history, "volume", "100 gal",
                 measure::Value{Dimension::kVolume, 378.5});
  std::set<std::string> rules;
  for (const Pile& pile : piles) {
    for (const model::Told& one : pile.assess().findings) {
      if (one.rule == "pile.unread") continue;  // worded for all kinds alike
      INFO(one.rule << ": " << one.words.line);
      rules.insert(one.rule);
      CHECK_FALSE(one.words.line.empty());
      CHECK(columns(one.words.line) <= 46);
      CHECK_FALSE(one.job.empty());
      CHECK_FALSE(one.ends.empty());
    }
  }
  for (const model::Told& one :
       Pile(18).read(1, 18, 138).read(1, 18, 118, "south").assess().findings) {
    CHECK(columns(one.words.line) <= 46);
    rules.insert(one.rule);
  }
  const model::Told carried = unready(Pile(9).read(1, 9, 140), 5);
  CHECK(columns(carried.words.line) <= 46);
  rules.insert(carried.rule);
  CHECK(rules.size() == 13);  // all that are findings
}

}  // namespace kinds_pile_test
