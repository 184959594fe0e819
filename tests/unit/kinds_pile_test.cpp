#include <doctest/doctest.h>

#include "kinds/kind.h"
#include "tests/unit/build_history.h"

namespace kinds_pile_test {

// What a pile warns of, at the edges of its rules.

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

bool says(const model::Told* finding, std::string_view part) {
  return finding != nullptr &&
         (finding->words.says + finding->words.why + finding->words.action).find(part) != std::string::npos;
}

bool says_part(const model::Told& finding, std::string_view part) {
  return says(&finding, part);
}
bool says_part(const model::Told* finding, std::string_view part) {
  return says(finding, part);
}

}  // namespace

TEST_CASE("pile.hot: strictly above the limit, at any position") {
  CHECK(build::find(Pile(3).read(1, 3, 160).assess(), "pile.hot") == nullptr);
  CHECK(build::find(Pile(3).read(1, 3, 160.1).assess(), "pile.hot") != nullptr);
  const auto edge = Pile(3).read(1, 3, 140, "core").read(3, 3, 163, "edge").assess();
  const auto* found = build::find(edge, "pile.hot");
  CHECK(says(found, "its edge is too hot: 163 °F, above 160 °F"));
  CHECK(found->urgency == model::Urgency::kNow);
}

TEST_CASE("pile.hot stands until that very position is read at or below the limit") {
  // Nobody reads it for a week; another place is read; it is turned: still hot.
  CHECK(says(build::find(Pile(9).read(1, 2, 165).assess(), "pile.hot"), "7 days ago"));
  CHECK(build::find(Pile(3).read(1, 2, 165).read(3, 3, 150, "edge").assess(), "pile.hot") !=
        nullptr);
  CHECK(build::find(Pile(3).read(1, 2, 165).turned({2}).assess(), "pile.hot") != nullptr);
  CHECK(build::find(Pile(3).read(1, 2, 165).read(3, 3, 160).assess(), "pile.hot") == nullptr);
}

TEST_CASE("pile.hot grows stronger") {
  CHECK_FALSE(says(build::find(Pile(1).read(1, 1, 169).assess(), "pile.hot"), "die back"));
  CHECK(says(build::find(Pile(1).read(1, 1, 170).assess(), "pile.hot"), "die back"));
  CHECK(build::find(Pile(1).read(1, 1, 179).assess(), "pile.hot")->old_caution.empty());
  CHECK_FALSE(build::find(Pile(1).read(1, 1, 180).assess(), "pile.hot")->old_caution.empty());
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
  CHECK(says(build::find(pile.assess(), "pile.cold"), "too little nitrogen"));
  build::reading(pile.history, "moisture", "", build::at(on(9)), 0.30);
  const auto found = pile.assess();
  CHECK(says(build::find(found, "pile.cold"), "likely too dry (30 % moisture)"));
  CHECK(build::find(found, "pile.dry") != nullptr);
  CHECK(build::find(Pile(5).read(1, 5, 80).assess(), "pile.cold") == nullptr);
  CHECK(build::find(Pile(9).read(1, 9, 104).assess(), "pile.cold") == nullptr);
}

// 7 CFR 205.203(c)(2)(iii): 15 days at 131 to 170 °F. Below it no day counts.
TEST_CASE("pile.stopped: below the heat of the treatment, and not on its way back") {
  const auto stopped = [](Pile pile) {
    build::setting(pile.history, "cn", "30", measure::Value{Dimension::kNumber, 30});
    const auto assessment = pile.assess();
    const auto* found = build::find(assessment, "pile.stopped");
    return found == nullptr ? std::string() : found->words.says + "; " + found->words.why;
  };
  CHECK(stopped(Pile(9).read(1, 6, 140).read(7, 9, 131)).empty());
  const std::string says = stopped(Pile(9).read(1, 6, 140).read(7, 9, 130.9));
  CHECK(says.find("130.9 °F, below the 131 °F that NOP asks for") != std::string::npos);
  CHECK(says.find("6 of 15 days") != std::string::npos);
  CHECK(says.find("these days stay counted, 9 more wanted") != std::string::npos);
  // Turned: two days are waited out, and no third; climbing a kelvin a day it is on its way.
  CHECK(stopped(Pile(9).read(1, 6, 140).turned({7}).read(7, 9, 120)).empty());
  CHECK_FALSE(stopped(Pile(10).read(1, 6, 140).turned({7}).read(7, 10, 120)).empty());
  CHECK(stopped(Pile(9).read(1, 6, 140).read(7, 8, 120).read(9, 9, 123)).empty());
  // Where its days have to follow each other, it begins anew.
  model::Rules strict;
  strict.set("pile.treat.in_a_row", {1, "test"});
  Pile broken = Pile(9).read(1, 6, 140).read(7, 9, 120);
  build::setting(broken.history, "cn", "30", measure::Value{Dimension::kNumber, 30});
  const auto anew = kinds::assess(broken.history, strict);
  CHECK(says_part(build::find(anew, "pile.stopped"), "so the count begins anew"));
  // It never got there: only once it had the time to.
  CHECK(stopped(Pile(6).read(1, 6, 120)).empty());
  CHECK(stopped(Pile(7).read(1, 7, 120)).find("no day in 6 days counts yet") != std::string::npos);
  // Shown, or not asked for: there is nothing to stop.
  CHECK(stopped(Pile(7, "static")
                    .in(1, 100, "straw")
                    .in(1, 20, "hen manure")
                    .read(1, 4, 140)
                    .read(5, 7, 120))
            .empty());
  Pile none = Pile(9).read(1, 6, 140).read(7, 9, 120);
  build::setting(none.history, "standard", "none");
  CHECK(stopped(none).empty());
}

TEST_CASE("pile.stopped: what helps comes in the order that the records support") {
  Pile pile = Pile(12).read(1, 6, 140).read(7, 12, 120).in(1, 300, "leaves").in(1, 200, "water");
  build::reading(pile.history, "moisture", "", build::at(on(12)), 0.30);
  const auto found = pile.assess();
  const auto* stopped = build::find(found, "pile.stopped");
  // C:N of the mix is outside what NOP asks for, so that no heat can show it.
  CHECK(says(stopped, "cannot be shown by these records anyhow"));
  build::setting(pile.history, "cn", "30", measure::Value{Dimension::kNumber, 30});
  const auto again = pile.assess();
  stopped = build::find(again, "pile.stopped");
  REQUIRE(stopped != nullptr);
  CHECK(stopped->words.why.find("too dry") < stopped->words.why.find("not turned"));
  CHECK(stopped->words.action.starts_with("water it as you turn it"));
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
  CHECK(build::find(assessment, "pile.hot")->words.action.starts_with("keep it closed until water"));
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
  CHECK(says_part(unready(Pile(3), 3), "its temperature was never read"));
  CHECK(says_part(unready(Pile(3).read(1, 3, 90), 3), "it had just begun to warm"));
  CHECK(says_part(unready(Pile(9).read(1, 9, 140), 5), "it was still hot (140 °F)"));
  CHECK(says_part(unready(Pile(9).read(1, 9, 140), 5),
                  "it was still hot (140 °F), and NOP was not shown"));
  // For two weeks.
  CHECK(says_part(unready(Pile(19).read(1, 19, 140), 5), "it was still hot"));
  CHECK(unready(Pile(20).read(1, 20, 140), 5).words.says.empty());
  // Only compost.
  CHECK(unready(Pile(9).read(1, 9, 140), 5, "charged char").words.says.empty());
  // Cured, of leaves alone: nothing is missing unless a treatment was asked for, or manure went in.
  Pile ripe = Pile(35).read(1, 3, 110).read(4, 35, 65).turned({14});
  build::reading(ripe.history, "air", "", build::at(on(35)), measure::unit("°F").to_base(60));
  ripe.in(1, 100, "leaves");
  REQUIRE(ripe.assess().stage == "ready");
  CHECK(unready(ripe, 35).words.says.empty());
  Pile asked = ripe;
  build::setting(asked.history, "standard", "fsma");
  CHECK(says_part(unready(asked, 35), "FSMA was not shown"));
  CHECK(says_part(unready(ripe.in(1, 30, "horse manure"), 35), "NOP was not shown"));
}

TEST_CASE("pile.turn: for the turnings of the treatment") {
  CHECK(build::find(Pile(3).read(1, 3, 140).assess(), "pile.turn") == nullptr);
  CHECK(build::find(Pile(4).read(1, 4, 140).assess(), "pile.turn") != nullptr);
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
  REQUIRE(build::find(found, "pile.smell") != nullptr);
  CHECK_FALSE(build::find(found, "pile.smell")->old_caution.empty());
  CHECK(build::find(pile.turned({3}).assess(), "pile.smell") == nullptr);
}

TEST_CASE("pile.mix: the blend judges, and the addition does what it says") {
  // Grounds and leaves at 31:1 are well.
  CHECK(build::find(Pile(2).in(1, 40, "coffee grounds").in(1, 30, "leaves").assess(), "pile.mix") ==
        nullptr);
  // Leaves alone: 54:1 (NRAES-54) and 38 % moisture.
  const auto leaves = Pile(2).in(1, 100, "leaves").assess();
  const auto* found = build::find(leaves, "pile.mix");
  REQUIRE(found != nullptr);
  CHECK(says(found, "54:1 carbon to nitrogen, above 40"));
  CHECK(says(found, "38 % moisture, below 40 %"));
  CHECK(says(found, "mix in"));
  // Grounds alone: 20:1.
  CHECK(says(build::find(Pile(2).in(1, 40, "coffee grounds").assess(), "pile.mix"),
             "20:1 carbon to nitrogen, below 25"));
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
  for (const char* care : {"meat scraps", "bones", "butter", "branches"}) {
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
  CHECK(says(build::find(pile.assess(), "pile.standard"), "nopp"));
  Pile none(1);
  build::setting(none.history, "standard", "none");
  CHECK(none.assess().progress.empty());
}

}  // namespace kinds_pile_test
