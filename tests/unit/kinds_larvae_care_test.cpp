#include <doctest/doctest.h>

#include <set>

#include "larvae_bin.h"

namespace kinds_larvae_care_test {

// A bin of larvae: moisture, feed, care and law. What a number is held against stands beside it.

using namespace bin_of_larvae;

TEST_CASE("larvae: moisture from a meter and by hand") {
  const auto moist = [](double share, int days_later = 5) {
    History history = bin(5);
    warm(history, 25, 0, 5);
    build::reading(history, "moisture", "", at(on(days_later), 8), share);
    return look(history);
  };
  // Cammack & Tomberlin 2017: no development at 40 %, less at 55 % than at 70 %.
  CHECK(build::find(moist(0.40), "larvae.dry")->urgency == Urgency::kNow);
  CHECK(build::find(moist(0.41), "larvae.dry")->urgency == Urgency::kToday);
  CHECK(build::find(moist(0.549), "larvae.dry") != nullptr);
  CHECK(build::find(moist(0.55), "larvae.dry") == nullptr);
  CHECK(build::find(moist(0.80), "larvae.wet") == nullptr);
  CHECK(build::find(moist(0.801), "larvae.wet") != nullptr);
  CHECK(build::find(moist(0.3, 2), "larvae.dry") != nullptr);
  CHECK(build::find(moist(0.3, 1), "larvae.dry") == nullptr);  // four days old
  History felt = bin(5);
  warm(felt, 25, 0, 5);
  build::reading(felt, "moisture", "", at(on(3)), 0.7);
  build::sensed(felt, "moisture", "wet", at(on(4)));
  CHECK(has(build::find(look(felt), "larvae.wet")->words.says, "wet by hand"));
  build::reading(felt, "moisture", "", at(on(5)), 0.7);
  CHECK(build::find(look(felt), "larvae.wet") == nullptr);
}

TEST_CASE("larvae: near harvest a bin must sieve, and may be dry") {
  const auto near = [](double share, int days_later) {
    History history = bin(days_later);
    build::setting(history, "diet", "rich");
    warm(history, 22.3, 0, days_later);
    build::reading(history, "moisture", "", at(on(days_later)), share);
    return look(history);
  };
  // 80 % of 250: day 20.
  CHECK(build::find(near(0.61, 19), "larvae.wet") == nullptr);
  const auto wet = near(0.61, 20);
  REQUIRE(build::find(wet, "larvae.wet") != nullptr);
  CHECK(has(build::find(wet, "larvae.wet")->words.why, "will not sieve"));
  CHECK(build::find(near(0.60, 20), "larvae.wet") == nullptr);
  CHECK(build::find(near(0.30, 19), "larvae.dry") != nullptr);
  CHECK(build::find(near(0.30, 20), "larvae.dry") == nullptr);
}

TEST_CASE("larvae: one moisture day after day points to the meter") {
  History history = bin(4);
  for (int i = 2; i <= 3; ++i) build::reading(history, "moisture", "", at(on(i)), 0.681);
  CHECK(build::find(look(history), "larvae.moisture") == nullptr);
  build::reading(history, "moisture", "", at(on(4)), 0.681);
  CHECK(build::find(look(history), "larvae.moisture") != nullptr);
}

TEST_CASE("larvae: feed a larva and for the area") {
  const auto fed = [](double kilograms, double larvae, double area) {
    History history = bin(7);
    warm(history, 27, 0, 7);
    number(history, "seeded", Dimension::kCount, larvae);
    if (area > 0) number(history, "area", Dimension::kArea, area);
    feed(history, "food scraps", kilograms, 3);
    return look(history);
  };
  // Over seven days: 50 mg a larva a day for 10,000 larvae are 3.5 kg, 200 mg are 14 kg.
  CHECK(build::find(fed(3.5, 10000, 0), "larvae.underfed") == nullptr);
  CHECK(build::find(fed(3.49, 10000, 0), "larvae.underfed") != nullptr);
  // 3.5 kg on the third day are eaten by the seventh at 1 kg a day; of 14 kg ten still lie there.
  CHECK(build::find(fed(3.5, 10000, 0), "larvae.empty") != nullptr);
  CHECK(build::find(fed(14, 10000, 0), "larvae.empty") == nullptr);
  CHECK(build::find(fed(14, 10000, 0), "larvae.overfed") == nullptr);
  const auto over = fed(14.01, 10000, 0);
  REQUIRE(build::find(over, "larvae.overfed") != nullptr);
  CHECK(build::find(over, "larvae.overfed")->threshold == "larvae.overfed.above");
  // 6.5 kg a m2 a day on 0.24 m2 (60 x 40 cm) over seven days are 10.92 kg.
  CHECK(build::find(fed(10.92, 20000, 0.24), "larvae.overfed") == nullptr);
  CHECK(build::find(fed(10.93, 20000, 0.24), "larvae.overfed")->threshold == "larvae.overfed.area");
}

TEST_CASE("larvae: published feeding plans pass without a warning") {
  // Dortmans et al. 2017 (Eawag, from memory): 10,000 larvae on 0.24 m2, 5 kg on days 1, 5 and 8.
  // Fuhrmann et al. 2024: 12,000 larvae on 0.24 m2, 6 kg at once, six days.
  for (int today = 0; today <= 12; ++today) {
    CAPTURE(today);
    History plan = bin(today);
    warm(plan, 28, 0, today);
    number(plan, "seeded", Dimension::kCount, 10000);
    number(plan, "area", Dimension::kArea, 0.24);
    for (const int given : {0, 4, 7}) {
      if (given <= today) feed(plan, "food scraps", 5, given);
    }
    const auto assessment = look(plan);
    CHECK(build::find(assessment, "larvae.overfed") == nullptr);
    CHECK(build::find(assessment, "larvae.underfed") == nullptr);
    if (today > 6) continue;
    History box = bin(today);
    warm(box, 28, 0, today);
    number(box, "seeded", Dimension::kCount, 12000);
    number(box, "area", Dimension::kArea, 0.24);
    feed(box, "chicken feed", 6, 0);
    CHECK(build::find(look(box), "larvae.overfed") == nullptr);
    CHECK(build::find(look(box), "larvae.underfed") == nullptr);
  }
}

TEST_CASE("larvae: advice on feed today") {
  History history = bin(2, measure::UnitSystem::kUs);
  warm(history, 27, 0, 2);
  CHECK(
      has(find_progress(look(history), "feed")->says, "neither the number of larvae nor the area"));
  number(history, "seeded", Dimension::kCount, 10000);
  // 100 mg each: 1 kg a day, 2.2 lb.
  CHECK(has(find_progress(look(history), "feed")->says,
            "about 2.2 lb today (2.2 lb a day for 10,000 larvae)"));
  feed(history, "food scraps", 5, 0);  // two days of it are eaten, three lie there
  CHECK(has(find_progress(look(history), "feed")->says, "none today: about 3 days of feed"));
  History unweighed = history;
  unweighed.in.front().amount = {Dimension::kVolume, 19};
  unweighed.in.front().material.figures.clear();
  CHECK(has(find_progress(look(unweighed), "feed")->says, "1 of 1 feeds lately without a weight"));
}

TEST_CASE("larvae: feed of unknown weight is never called too little") {
  History history = bin(7);
  warm(history, 27, 0, 7);
  number(history, "seeded", Dimension::kCount, 10000);
  CHECK(build::find(look(history), "larvae.underfed") != nullptr);
  model::Material odd = build::material("food scraps");
  odd.name = "market sweepings";
  odd.figures.clear();
  history.in.push_back(build::movement(odd, {Dimension::kVolume, 19}, at(on(5))));
  const auto assessment = look(history);
  CHECK(build::find(assessment, "larvae.underfed") == nullptr);
  CHECK(has(build::measure_of(assessment, "larvae.feed")->basis,
            "1 of 1 feeds without a weight (market sweepings)"));
}

TEST_CASE("larvae: smell, flies, bedding and cardboard") {
  History history = bin(5);
  warm(history, 25, 0, 5);
  build::sensed(history, "smell", "ammonia", at(on(4)));
  build::reading(history, "flies", "", at(on(4)), 21);
  const auto assessment = look(history);
  CHECK(build::find(assessment, "larvae.smell") != nullptr);
  CHECK(build::find(assessment, "larvae.flies") != nullptr);
  build::sensed(history, "smell", "earthy", at(on(5)));
  build::reading(history, "flies", "", at(on(5)), 20);
  const auto better = look(history);
  CHECK(build::find(better, "larvae.smell") == nullptr);
  CHECK(build::find(better, "larvae.flies") == nullptr);

  const auto bedded = [](const char* date) {
    History old = bin(5);  // 6 June
    build::setting(old, "bedding_date", date);
    return build::find(look(old), "larvae.bedding") != nullptr;
  };
  CHECK(bedded("2026-12-08"));        // 180 days before
  CHECK_FALSE(bedded("2026-12-09"));  // 179
  History renewed = bin(5);
  build::setting(renewed, "bedding_date", "2026-01-01");
  build::deed(renewed, "bedded", at(on(1)));
  CHECK(build::find(look(renewed), "larvae.bedding") == nullptr);
  History cardboard = bin(40);
  build::deed(cardboard, "carded", at(on(10)));
  CHECK(build::find(look(cardboard), "larvae.cardboard") != nullptr);
  feed(cardboard, "cardboard", 0.2, 11);
  CHECK(build::find(look(cardboard), "larvae.cardboard") == nullptr);
}

TEST_CASE("larvae: the rules on feed by jurisdiction") {
  const kinds::Kind* kind = kinds::find_kind("larvae");
  REQUIRE(kind != nullptr);
  const auto against = [&](const char* material, const char* law) {
    model::Batch batch;
    if (*law != '\0') batch.settings.push_back({"law", law, std::nullopt});
    const auto objection = kind->carrying.objects_to(build::material(material), batch, {});
    return !objection ? "" : objection->refuses ? "refuses" : "warns";
  };
  // Regulation (EU) 2017/893: no manure, no catering waste, no other animal matter but what it
  // lists.
  for (const char* material :
       {"hen manure", "cow manure", "effluent", "manure pellets", "food scraps", "cooked leftovers",
        "grease", "meat scraps", "fish waste", "bones"}) {
    CAPTURE(material);
    CHECK(against(material, "eu") == std::string("refuses"));
  }
  CHECK(against("vegetable waste", "eu") ==
        std::string("warns"));  // a kitchen makes it catering waste
  CHECK(against("coffee grounds", "eu") == std::string("warns"));
  CHECK(against("fish meal", "eu") == std::string("warns"));
  CHECK(against("blood meal", "eu") == std::string("warns"));
  for (const char* material :
       {"spent grain", "layer feed", "milk", "grass clippings", "wheat bran"}) {
    CAPTURE(material);
    CHECK(against(material, "eu") == std::string(""));
    CHECK(against(material, "us") == std::string(""));
  }
  // AAFCO T60.117: feed-grade materials alone.
  CHECK(against("hen manure", "us") == std::string("refuses"));
  CHECK(against("food scraps", "us") == std::string("warns"));
  CHECK(against("meat scraps", "us") == std::string("warns"));
  // No law told, or none that holds: practice alone, which never refuses a feed.
  for (const char* law : {"", "none"}) {
    CHECK(against("hen manure", law) == std::string("warns"));
    CHECK(against("food scraps", law) == std::string(""));
    CHECK(against("meat scraps", law) == std::string("warns"));
    CHECK(against("pet waste", law) == std::string("refuses"));
    CHECK(against("urea", law) == std::string("refuses"));
    CHECK(against("cardboard", law) == std::string(""));
  }
}

TEST_CASE("larvae: a banned feed follows the larvae") {
  History history = bin(18);
  build::setting(history, "diet", "rich");
  build::setting(history, "law", "eu");
  warm(history, 27, 0, 18);
  feed(history, "hen manure", 3, 1);
  const auto ready = look(history);
  CHECK(has(build::find(ready, "larvae.harvest")->words.caution, "hen manure"));
  CHECK(build::find(ready, "larvae.banned") == nullptr);
  take(history, "larvae", 1, 18);
  history.out.back().to = "hens";
  history.out.back().to_kind = "flock";
  const auto fed = look(history);
  REQUIRE(build::find(fed, "larvae.banned") != nullptr);
  CHECK(has(build::find(fed, "larvae.banned")->source, "2017/893"));
}

TEST_CASE("larvae: frass for sale in the EU, dried larvae for sale in the US") {
  const auto frass = [](double celsius, double minutes, double dead_weight, double dead_volume) {
    History history = bin(20);
    build::setting(history, "law", "eu");
    build::reading(history, "frass_heat", "", at(on(19)), celsius);
    build::reading(history, "frass_held", "", at(on(19)), minutes / 60 / 24);
    build::reading(history, "dead_weight", "", at(on(19)), dead_weight);
    build::reading(history, "dead_volume", "", at(on(19)), dead_volume);
    take(history, "frass", 2, 20);
    const auto assessment = look(history);
    const model::Told* found = build::find(assessment, "larvae.frass");
    return found == nullptr ? std::string() : found->threshold;
  };
  // Regulation (EU) 2021/1925: 70 degC for 60 minutes; dead insects at most 3 % by weight, 5 % by
  // volume.
  CHECK(frass(70, 60, 0.03, 0.05) == "");
  CHECK(frass(69.9, 60, 0.03, 0.05) == "larvae.frass.heat");
  CHECK(frass(70, 59, 0.03, 0.05) == "larvae.frass.held");
  CHECK(frass(70, 60, 0.031, 0.05) == "larvae.frass.dead_weight");
  CHECK(frass(70, 60, 0.03, 0.051) == "larvae.frass.dead_volume");
  History unheated = bin(20);
  build::setting(unheated, "law", "eu");
  take(unheated, "frass", 2, 20);
  CHECK(has(build::find(look(unheated), "larvae.frass")->words.says, "no heating of it is logged"));
  unheated.out.back().to = "bed-1";  // it stayed on the site
  CHECK(build::find(look(unheated), "larvae.frass") == nullptr);
  const auto dried = [](double moisture) {
    History history = bin(20);
    build::setting(history, "law", "us");
    build::reading(history, "dried_moisture", "", at(on(20)), moisture);
    return build::find(look(history), "larvae.dried") != nullptr;
  };
  // AAFCO T60.117: no more than 10 %.
  CHECK_FALSE(dried(0.10));
  CHECK(dried(0.101));
}

TEST_CASE("larvae: a banned feed given after the larvae left does not follow them") {
  History history = bin(18);
  build::setting(history, "law", "eu");
  take(history, "larvae", 1, 10);
  history.out.back().to = "hens";
  history.out.back().to_kind = "flock";
  feed(history, "hen manure", 3, 11);
  CHECK(build::find(look(history), "larvae.banned") == nullptr);
}

TEST_CASE("larvae: feed where the larvae were not counted") {
  // 4.3 kg a m2 a day (Fuhrmann et al. 2024 data set: 4.17 and 4.37) on 0.24 m2: 1.032 kg.
  History history = bin(7);
  warm(history, 27, 0, 7);
  number(history, "area", Dimension::kArea, 0.24);
  CHECK(has(find_progress(look(history), "feed")->says, "at the most 1.03 kg a day on its area"));
  REQUIRE(build::find(look(history), "larvae.underfed") != nullptr);
  CHECK(has(build::find(look(history), "larvae.underfed")->words.says,
            "no feed logged in the last 7 days"));
  feed(history, "food scraps", 0.1, 2);
  CHECK(build::find(look(history), "larvae.underfed") == nullptr);
  History young = bin(6);
  warm(young, 27, 0, 6);
  CHECK(build::find(look(young), "larvae.underfed") == nullptr);
  feed(history, "food scraps", 11, 6);
  CHECK(has(build::find(look(history), "larvae.overfed")->words.says, "more than 1.56 kg a day"));
}

TEST_CASE("larvae: advice to the day's edge") {
  const auto advice = [](double given_today) {
    History history = bin(3);
    warm(history, 27, 0, 3);
    number(history, "seeded", Dimension::kCount, 10000);
    feed(history, "food scraps", given_today, 3);
    return find_progress(look(history), "feed")->says;
  };
  CHECK(has(advice(0.4), "about 600 g today"));
  CHECK(has(advice(1), "none today: about 1 day of feed"));
  History seeded_today = bin(0);
  number(seeded_today, "seeded", Dimension::kCount, 10000);
  CHECK(has(find_progress(look(seeded_today), "feed")->says, "about 1 kg today"));
}

TEST_CASE("larvae: nursery larvae are fed and judged as such") {
  // 250 g of wet feed for a gram of eggs over five days; 26,250 larvae at 1.3 mg are 34 g a day.
  History history = bin(8);
  warm(history, 27, 0, 8);
  number(history, "eggs", Dimension::kMass, 0.001);
  CHECK(has(find_progress(look(history), "feed")->says, "34.1 g a day"));
  CHECK(build::find(look(history), "larvae.underfed") == nullptr);
  History hatching = bin(3);
  warm(hatching, 27, 0, 3);
  number(hatching, "eggs", Dimension::kMass, 0.001);
  CHECK(has(find_progress(look(hatching), "feed")->says, "none until the eggs hatch"));
  // From the ninth day on they eat as grown ones; hunger shows three days after.
  const auto hungry = [](int days_later) {
    History grown = bin(days_later);
    warm(grown, 27, 0, days_later);
    number(grown, "eggs", Dimension::kMass, 0.001);
    return build::find(look(grown), "larvae.underfed") != nullptr;
  };
  CHECK_FALSE(hungry(11));
  CHECK(hungry(12));
}

TEST_CASE("larvae: bedding and cardboard are no feed") {
  History history = bin(3);
  feed(history, "coco coir", 5, 1);
  feed(history, "cardboard", 1, 1);
  CHECK(std::isnan(figure(look(history), "larvae.feed")));
  CHECK(build::find(look(history), "larvae.overfed") == nullptr);
}

TEST_CASE("larvae: frass heated without a time, and the time in minutes") {
  History history = bin(20);
  build::setting(history, "law", "eu");
  build::reading(history, "frass_heat", "", at(on(19)), 75);
  take(history, "frass", 2, 20);
  CHECK(has(build::find(look(history), "larvae.frass")->words.says, "no heating of it is logged"));
  build::reading(history, "frass_held", "", at(on(19)), 59.0 / 60 / 24);
  CHECK(
      has(build::find(look(history), "larvae.frass")->words.says, "for 59 minutes, less than 60"));
  history.batch.settings.front().typed = "none";
  CHECK(build::find(look(history), "larvae.frass") == nullptr);
}

TEST_CASE("larvae: the words of a smell") {
  for (const auto& [word, says] :
       {std::pair{"ammonia", "smells of ammonia"}, std::pair{"sour", "smells sour"},
        std::pair{"rotten", "smells rotten"}}) {
    History history = bin(2);
    build::sensed(history, "smell", word, at(on(2)));
    CHECK(has(build::find(look(history), "larvae.smell")->words.says, says));
  }
}

TEST_CASE("larvae: the caution at harvest names whose rule it is") {
  const auto caution = [](const char* law, const char* material) {
    History history = bin(18);
    build::setting(history, "law", law);
    warm(history, 27, 0, 18);
    feed(history, material, 1, 1);
    const auto assessment = look(history);
    return build::find(assessment, "larvae.harvest")->words.caution;
  };
  CHECK(has(caution("eu", "food scraps"), "EU law keeps"));
  CHECK(has(caution("us", "hen manure"), "the US feed rule keeps"));
  CHECK(has(caution("none", "pet waste"), "good practice"));
  CHECK(caution("us", "food scraps").empty());
}

TEST_CASE("larvae: oil and salt are warned of without a law") {
  const kinds::Kind* kind = kinds::find_kind("larvae");
  for (const char* material : {"cooking oil", "salted whey"}) {
    CAPTURE(material);
    const auto objection = kind->carrying.objects_to(build::material(material), {}, {});
    REQUIRE(objection.has_value());
    CHECK_FALSE(objection->refuses);
    CHECK(objection->rule == "larvae.care");
  }
}

TEST_CASE("larvae: each law has its word for manure, meat, fish and slaughter waste") {
  const kinds::Kind* kind = kinds::find_kind("larvae");
  for (const char* law : {"", "none", "us", "eu"}) {
    model::Batch batch;
    if (*law != '\0') batch.settings.push_back({"law", law, std::nullopt});
    for (const char* material : {"hen manure", "meat scraps", "fish waste", "slaughter waste"}) {
      CAPTURE(law);
      CAPTURE(material);
      const auto objection = kind->carrying.objects_to(build::material(material), batch, {});
      REQUIRE(objection.has_value());
      CHECK(has(objection->says, material));
      // Refused with every load; said once of each such feed where it is only warned of.
      CHECK(objection->once == !objection->refuses);
      CHECK(objection->about == (objection->refuses ? "" : material));
      CHECK(has(objection->says, *law == 'e'   ? "EU law"
                                 : *law == 'u' ? "not feed-grade"
                                 : *law == 'n' ? "don't just dry them"
                                               : "EU and US rules"));
    }
  }
}

TEST_CASE(
    "larvae: those of a bin that was fed such feed are held from hens, and the feed is named") {
  const auto against = [](const char* feed_name, const char* law, const char* to_kind) {
    History history = bin(18);
    if (*law != '\0') build::setting(history, "law", law);
    feed(history, feed_name, 3, 1);
    auto load = build::movement(build::material("larvae"), {Dimension::kMass, 1.0}, at(on(18)));
    load.to = "hens";
    load.to_kind = to_kind;
    const model::Rules rules;
    const auto objection = kinds::study(history, rules)->against_taking(load);
    return objection && objection->refuses ? objection->says : std::string();
  };
  for (const char* law : {"", "us", "eu"}) {
    for (const char* material : {"hen manure", "meat scraps", "fish waste", "slaughter waste"}) {
      CAPTURE(law);
      CAPTURE(material);
      // Campbell et al. 2020, Animals 10:682: 90 °C for 10 to 15 minutes.
      CHECK(has(against(material, law, "flock"), std::string("was fed ") + material));
      CHECK(has(against(material, law, "flock"), "heat them at 90 °C for 15 minutes"));
      CHECK(against(material, law, "bed").empty());
    }
    CHECK(against("spent grain", law, "flock").empty());
  }
  // Told that no rule holds: manure's germs speak against it all the same.
  CHECK(has(against("hen manure", "none", "flock"), "good practice"));
  CHECK(has(against("meat scraps", "none", "flock"), "good practice"));
}

TEST_CASE("larvae: raw manure in what another batch gave holds them from hens too") {
  History history = bin(18);
  feed(history, "spent grain", 3, 1);
  history.in.back().manure = {{"dairy manure", {"heap-1"}, "heap-1 is not shown to be treated"}};
  take(history, "larvae", 1, 18);
  history.out.back().to = "hens";
  history.out.back().to_kind = "flock";
  const auto assessment = look(history);
  REQUIRE(build::find(assessment, "larvae.banned") != nullptr);
  CHECK(has(build::find(assessment, "larvae.banned")->words.says, "dairy manure"));
}

TEST_CASE("larvae: no want of feed is told while a day's feed lies there") {
  // 10,000 larvae eat 1 kg a day; 2 kg after six days without: 29 mg a larva a day over the week.
  const auto after = [](int days) {
    History history = bin(7 + days);
    warm(history, 27, 0, 7 + days);
    number(history, "seeded", Dimension::kCount, 10000);
    feed(history, "food scraps", 2, 7);
    return look(history);
  };
  CHECK(has(find_progress(after(0), "feed")->says, "about 2 days of feed lies in it"));
  CHECK(build::find(after(0), "larvae.underfed") == nullptr);
  CHECK(has(find_progress(after(1), "feed")->says, "about 1 day of feed lies in it"));
  CHECK(build::find(after(1), "larvae.underfed") == nullptr);
  CHECK(build::find(after(2), "larvae.underfed") != nullptr);
  // A nursery larva eats 1.3 mg, and 100 mg from its fifth day on: what lies there lasts to then.
  History young = bin(0);
  number(young, "seeded", Dimension::kCount, 10000);
  number(young, "age", Dimension::kDuration, 4);
  feed(young, "chicken feed", 0.1, 0);
  CHECK(has(find_progress(look(young), "feed")->says, "about 1 day of feed lies in it"));
}

TEST_CASE("larvae: every line fits, names its number, and ends by something") {
  for (const auto units : {measure::UnitSystem::kUs, measure::UnitSystem::kMetric}) {
    std::vector<History> all;
    const auto bin_with = [&](int days) -> History& {
      all.push_back(bin(days, units));
      return all.back();
    };
    for (const double celsius : {2.0, 11.0, 14.0, 35.0, 37.0, 44.0}) {
      build::reading(bin_with(2), "temperature", "core", at(on(2)), celsius);
      build::reading(bin_with(2), "air", "", at(on(2)), celsius);
    }
    for (int i = 0; i <= 3; ++i)
      build::reading(i == 0 ? bin_with(3) : all.back(), "temperature", "edge", at(on(i)),
                     28 + 2.2 * i);
    build::reading(bin_with(3), "temperature", "edge", at(on(3), 8), 30);
    build::reading(all.back(), "temperature", "edge", at(on(3), 10), 32);
    for (const double share : {0.3, 0.5, 0.9})
      build::reading(bin_with(3), "moisture", "", at(on(3)), share);
    for (int i = 0; i <= 4; ++i)
      build::reading(i == 0 ? bin_with(4) : all.back(), "moisture", "", at(on(i)), 0.681);
    for (const char* word : {"dry", "wet"}) build::sensed(bin_with(3), "moisture", word, at(on(3)));
    for (const char* word : {"sour", "rotten", "ammonia"})
      build::sensed(bin_with(3), "smell", word, at(on(3)));
    build::reading(bin_with(3), "flies", "", at(on(3)), 12345);
    build::setting(bin_with(3), "bedding_date", "2026-01-01");
    build::deed(bin_with(365), "carded", at(on(10)));
    build::reading(bin_with(3), "sample", "", at(on(3)), 30041e-6);
    for (const double kilograms : {0.0, 0.4, 3.6, 15.25}) {
      History& fed = bin_with(12);
      warm(fed, 20, 0, 12);
      number(fed, "seeded", Dimension::kCount, 10000);
      if (kilograms > 0) feed(fed, "food scraps", kilograms, 6);
    }
    number(bin_with(9), "area", Dimension::kArea, 0.24);
    feed(bin_with(9), "food scraps", 0.9, 9);
    all.back().batch.settings = all[all.size() - 2].batch.settings;
    feed(all.back(), "food scraps", 40, 9);
    for (const int days : {16, 18, 40}) {
      History& ready = bin_with(days);
      warm(ready, 27, 0, days);
    }
    take(bin_with(18), "larvae", 2, 18);
    warm(all.back(), 27, 0, 18);
    warm(bin_with(18), 27, 0, 18);
    build::reading(all.back(), "temperature", "", at(on(9)), 44);
    warm(all.back(), 27, 10, 18);
    warm(bin_with(8), 41, 0, 4);
    warm(all.back(), 27, 5, 8);
    bin_with(30);
    build::setting(bin_with(8), "seed_date", "2027-06-05");
    take(all.back(), "larvae", 1, 2);
    feed(bin_with(8), "food scraps", 1, 0);
    take(all.back(), "larvae", 1.1, 8);
    const double frass[][4] = {
        {0, 0, 0, 0}, {69.9, 1, 0, 0}, {70, 0.01, 0, 0}, {70, 1, 0.031, 0}, {70, 1, 0, 0.051}};
    for (const auto& [heat, held, weight, volume] : frass) {
      History& sold = bin_with(20);
      build::setting(sold, "law", "eu");
      if (heat > 0) build::reading(sold, "frass_heat", "", at(on(19)), heat);
      build::reading(sold, "frass_held", "", at(on(19)), held);
      build::reading(sold, "dead_weight", "", at(on(19)), weight);
      build::reading(sold, "dead_volume", "", at(on(19)), volume);
      take(sold, "frass", 2, 20);
    }
    build::setting(bin_with(20), "law", "us");
    build::reading(all.back(), "dried_moisture", "", at(on(20)), 0.125);
    for (const char* material : {"slaughter waste", "poultry carcasses"}) {
      feed(bin_with(9), material, 1, 1);
      take(all.back(), "larvae", 0.2, 9);
      all.back().out.back().to = "hens";
      all.back().out.back().to_kind = "flock";
    }
    std::set<std::string> rules;
    for (const History& history : all) {
      const auto assessment = look(history);
      for (const model::Told& one : assessment.findings) {
        CAPTURE(one.words.line);
        rules.insert(one.rule);
        CHECK_FALSE(one.words.line.empty());
        CHECK(build::columns(one.words.line) <= 46);
        CHECK_FALSE(one.words.says.empty());
        CHECK_FALSE(one.ends.empty());
        CHECK_FALSE(one.job.empty());
      }
    }
    CHECK(rules.size() == 21);  // all twenty, and larvae.unread
  }
}

}  // namespace kinds_larvae_care_test
