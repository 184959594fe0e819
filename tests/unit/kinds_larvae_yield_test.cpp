#include <doctest/doctest.h>

#include "larvae_bin.h"

namespace kinds_larvae_yield_test {

// A bin of larvae: samples, conversion and worth. What a number is held against stands beside it.

using namespace bin_of_larvae;

namespace {

// Fuhrmann et al. 2024 data set (chamber_system_git, cs_pub_runs_manual.csv), box CF-1a: 6 kg of
// chicken feed at 65.05 % moisture, 12,000 larvae of 5.597 mg, 0.24 m2; after six days 1181 g of
// frass at 36.33 % and 1831 g of larvae at 71.60 %.
History box_cf1a() {
  History history = bin(6);
  number(history, "seeded", Dimension::kCount, 12000);
  number(history, "area", Dimension::kArea, 0.24);
  feed(history, "chicken feed", 6, 0);
  build::reading(history, "sample", "", at(on(0)), 5.597e-6);
  build::reading(history, "feed_moisture", "", at(on(0)), 0.6505);
  build::reading(history, "frass_moisture", "", at(on(6)), 0.3633);
  build::reading(history, "larvae_moisture", "", at(on(6)), 0.7160);
  take(history, "frass", 1.181, 6);
  take(history, "larvae", 1.831, 6);
  return history;
}

}  // namespace

TEST_CASE("larvae: a slipped decimal point is doubted and left out") {
  // ReproLab nursery data, 2023: 30041 in the file where its sisters weigh 290.12 and 289.77 mg.
  History history = bin(8);
  warm(history, 27, 0, 8);
  build::reading(history, "sample", "", at(on(8), 7), 290.12e-6);
  build::reading(history, "sample", "", at(on(8), 8), 30041e-6);
  build::reading(history, "sample", "", at(on(8), 9), 289.77e-6);
  const auto assessment = look(history);
  const model::Told* found = build::find(assessment, "larvae.sample");
  REQUIRE(found != nullptr);
  CHECK(is_near(found->value->value.si, 30041, 1e-6));
  CHECK(is_near(figure(assessment, "larvae.larva_mass"), 289.945e-6, 1e-9));
  // A slip the other way is no larva too heavy, but far from its neighbours.
  History light = bin(8);
  build::reading(light, "sample", "", at(on(7)), 140e-6);
  build::reading(light, "sample", "", at(on(8), 7), 1.405e-6);
  build::reading(light, "sample", "", at(on(8), 8), 141e-6);
  CHECK(has(build::find(look(light), "larvae.sample")->words.why, "slipped decimal point"));
  CHECK(is_near(figure(look(light), "larvae.larva_mass"), 141e-6, 1e-9));
}

TEST_CASE("larvae: growth and a falling mean are no error") {
  // Fuhrmann et al. 2024, CF-1: 5.597, 21.967, 108.433, 157.333, 143.633 mg on days 0, 2, 4, 5, 6.
  History history = bin(6);
  warm(history, 28, 0, 6);
  const std::pair<int, double> masses[] = {
      {0, 5.597}, {2, 21.967}, {4, 108.433}, {5, 157.333}, {6, 143.633}};
  for (const auto& [on_day, mass] : masses) {
    build::reading(history, "sample", "", at(on(on_day)), mass * 1e-6);
  }
  const auto assessment = look(history);
  CHECK(build::find(assessment, "larvae.sample") == nullptr);
  // 100 ln(143.633 / 5.597) / 6 = 54.08 % a day.
  CHECK(is_near(figure(assessment, "larvae.growth"), 54.08, 0.01));
  // Two weighings ten days apart, a hundredfold: growth as well.
  History sparse = bin(10);
  build::reading(sparse, "sample", "", at(on(0)), 1.5e-6);
  build::reading(sparse, "sample", "", at(on(10)), 150e-6);
  CHECK(build::find(look(sparse), "larvae.sample") == nullptr);
}

TEST_CASE("larvae: conversion of a published box, wet and dry") {
  History history = box_cf1a();
  const auto assessment = look(history);
  CHECK(is_near(figure(assessment, "larvae.bioconversion"), 0.2940, 1e-4));
  CHECK(is_near(figure(assessment, "larvae.waste_reduction"), 0.8032, 1e-4));
  CHECK(is_near(figure(assessment, "larvae.fcr"), 3.402, 1e-3));
  CHECK(is_near(figure(assessment, "larvae.waste_reduction_dry"), 0.6414, 1e-4));
  CHECK(is_near(figure(assessment, "larvae.wri_dry"), 10.690, 1e-3));
  // Young larvae are dried with the catalogue's 72.6 %, which the box's own 1.533 mg of 5.597 mg
  // give.
  CHECK(is_near(figure(assessment, "larvae.bioconversion_dry"), 0.2392, 1e-4));
  CHECK(is_near(figure(assessment, "larvae.ecd_dry"), 0.3729, 1e-4));
  CHECK(is_near(figure(assessment, "larvae.feed_per_larva"), 83.33, 0.01));
  CHECK(is_near(figure(assessment, "larvae.feed_per_area"), 4.17, 0.01));
  CHECK(is_near(figure(assessment, "larvae.density"), 5.0, 1e-9));
  CHECK(figure(assessment, "larvae.days") == 6);
  CHECK(has(build::measure_of(assessment, "larvae.fcr_dry")->basis,
            "moisture read of: feed, frass, larvae"));
  // Nothing is missing but what a larva weighed when they were harvested.
  CHECK(find_progress(assessment, "conversion")->says ==
        "not known: a sample at harvest, to say how many lived");
  build::reading(history, "sample", "", at(on(6)), 140.5e-6);
  CHECK(find_progress(look(history), "conversion") == nullptr);
}

TEST_CASE("larvae: survival above one hundred per cent is shown as it is, and said") {
  History history = box_cf1a();
  build::reading(history, "sample", "", at(on(6)), 140.5e-6);
  const auto assessment = look(history);
  CHECK(is_near(figure(assessment, "larvae.survival"), 1.086, 1e-3));
  CHECK(has(build::measure_of(assessment, "larvae.survival")->basis, "above 100 %"));
}

TEST_CASE("larvae: how many lived is not known without a sample at harvest") {
  // 1831 g over the 5.597 mg that one weighed when seeded would be 327,000 larvae: 2,726 %.
  History history = box_cf1a();
  CHECK(build::measure_of(look(history), "larvae.survival") == nullptr);
  // larvae.sample.harvest: two days.
  History early = history, late = history;
  build::reading(early, "sample", "", at(on(3)), 140.5e-6);
  CHECK(build::measure_of(look(early), "larvae.survival") == nullptr);
  build::reading(late, "sample", "", at(on(4)), 140.5e-6);
  CHECK(is_near(figure(look(late), "larvae.survival"), 1.086, 1e-3));
  // What was counted out is not weighed by a sample of the seeding either.
  history.out.back().amount = {Dimension::kCount, 10000};
  CHECK(std::isnan(figure(look(history), "larvae.out")));
}

TEST_CASE("larvae: what was mixed in belongs to what went in, as it leaves with the frass") {
  // Hand check: 6 kg of feed at 65.05 % hold 2.097 kg dry, 1.181 kg of frass at 36.33 % 0.7519 kg;
  // 1 kg of sawdust at its catalogue's moisture beside it is 1 - m kg dry in both.
  History history = box_cf1a();
  const double dry_dust = 1 - build::material("sawdust").moisture()->value;
  feed(history, "sawdust", 1, 0);
  const auto assessment = look(history);
  CHECK(is_near(figure(assessment, "larvae.bulking"), 1, 1e-9));
  CHECK(is_near(figure(assessment, "larvae.feed"), 6, 1e-9));
  CHECK(is_near(figure(assessment, "larvae.waste_reduction_dry"), 1 - 0.75195 / (2.097 + dry_dust),
                1e-4));
  CHECK(is_near(figure(assessment, "larvae.waste_reduction"), 1 - 1.181 / 7, 1e-6));
  // Feed to larvae is as it was.
  CHECK(is_near(figure(assessment, "larvae.fcr"), 3.402, 1e-3));
  CHECK(is_near(figure(assessment, "larvae.bioconversion_dry"), 0.2392, 1e-4));
  // Of unknown weight: what is held against the frass is not known.
  history.in.back().amount = {Dimension::kVolume, 4};
  history.in.back().material.figures.clear();
  CHECK(build::measure_of(look(history), "larvae.waste_reduction") == nullptr);
  CHECK(has(find_progress(look(history), "conversion")->says, "weight of what was mixed in"));
}

TEST_CASE("larvae: what is missing is named, and nothing is made up") {
  History history = bin(8);
  feed(history, "food scraps", 5, 0);
  take(history, "larvae", 1, 7);
  history.batch.ended = at(on(8));
  history.batch.ended_day = on(8);
  const auto assessment = look(history);
  CHECK(build::measure_of(assessment, "larvae.waste_reduction") == nullptr);
  REQUIRE(find_progress(assessment, "conversion") != nullptr);
  CHECK(has(find_progress(assessment, "conversion")->says, "frass left"));
  CHECK(has(find_progress(assessment, "conversion")->says, "number of larvae put in"));
  CHECK(is_near(figure(assessment, "larvae.fcr"), 5, 1e-9));
  CHECK(has(build::measure_of(assessment, "larvae.fcr")->basis, "young larvae not weighed"));
  CHECK(has(build::measure_of(assessment, "larvae.fcr_dry")->basis, "from the catalogue"));
  // Open, and only some of it harvested: no figure of conversion yet.
  history.batch.ended.reset();
  history.batch.ended_day.reset();
  CHECK(build::measure_of(look(history), "larvae.fcr") == nullptr);
}

TEST_CASE("larvae: a bucket of unknown density leaves conversion unknown") {
  History history = box_cf1a();
  model::Material odd = build::material("food scraps");
  odd.figures.clear();
  history.in.push_back(build::movement(odd, {Dimension::kVolume, 19}, at(on(2))));
  const auto assessment = look(history);
  CHECK(build::measure_of(assessment, "larvae.fcr") == nullptr);
  CHECK(build::measure_of(assessment, "larvae.bioconversion_dry") == nullptr);
  CHECK(has(find_progress(assessment, "conversion")->says,
            "1 of 2 feeds without a weight (food scraps)"));
  CHECK(is_near(figure(assessment, "larvae.feed"), 6, 1e-9));
}

TEST_CASE("larvae: a harvest that was counted is weighed by the sample") {
  History history = box_cf1a();
  history.out.back().amount = {Dimension::kCount, 10000};
  build::reading(history, "sample", "", at(on(6)), 140e-6);
  const auto assessment = look(history);
  CHECK(is_near(figure(assessment, "larvae.out"), 1.4, 1e-9));
  CHECK(has(build::measure_of(assessment, "larvae.out")->basis, "by the last sample"));
}

TEST_CASE("larvae: records that cannot be are told") {
  History early = bin(8);
  build::setting(early, "seed_date", "2027-06-05");
  take(early, "larvae", 1, 2);
  const auto assessment = look(early);
  const model::Told* found = build::find(assessment, "larvae.record");
  REQUIRE(found != nullptr);
  CHECK(has(found->words.says, "before the seeding"));
  CHECK(build::measure_of(assessment, "larvae.out") == nullptr);
  History more = bin(8);
  feed(more, "food scraps", 1, 0);
  take(more, "larvae", 1.1, 8);
  CHECK(has(build::find(look(more), "larvae.record")->words.says, "more than is possible"));
  // Water weighs: more residue than feed is a negative reduction, not an error.
  History wet = box_cf1a();
  wet.out.front().amount.si = 7;
  CHECK(figure(look(wet), "larvae.waste_reduction") < 0);
}

TEST_CASE("larvae: protein, fat, calcium and hen-days of protein") {
  // Animals 2020, 10, 682, table 1: 34.1 % dry matter with 36.6 % fat and 1.85 % calcium; Eggink et
  // al. 2022, PLoS ONE 17(9):e0275213: about 40 % protein, which 6.5 % nitrogen bears out (by 6.25:
  // 40.6). So 100 g of live larvae hold 13.64 g, 12.481 g and 0.6309 g. Need 15 g of protein a hen
  // a day.
  History history = bin(20);
  take(history, "larvae", 0.1, 20);
  const auto assessment = look(history);
  CHECK(is_near(figure(assessment, "larvae.protein") * 1000, 13.64, 1e-3));
  CHECK(is_near(figure(assessment, "larvae.fat") * 1000, 12.481, 1e-3));
  CHECK(is_near(figure(assessment, "larvae.calcium") * 1000, 0.6309, 1e-4));
  CHECK(is_near(figure(assessment, "larvae.hen_days"), 13.64 / 15, 1e-3));
  // The catalogue has no calcium for dark larvae: said, and not taken as none.
  take(history, "dark larvae", 0.1, 20);
  CHECK(has(build::measure_of(look(history), "larvae.calcium")->basis, "dark larvae left out"));
}

TEST_CASE("larvae: larvae to expect of the feed") {
  History history = bin(5);
  warm(history, 27, 0, 5);
  feed(history, "food scraps", 10, 1);
  const model::Assessment assessment = look(history);
  const model::Forecast* larvae = find_forecast(assessment, "larvae");
  REQUIRE(larvae != nullptr);
  // Fuhrmann et al. 2024, food waste: 23.5 % of the feed.
  CHECK(has(larvae->says, "2 to 2.7 kg of larvae from the 10 kg of feed"));
}

TEST_CASE("larvae: the percentage needs a name, and assess is pure") {
  const kinds::Kind* kind = kinds::find_kind("larvae");
  CHECK(kind->vocabulary.percentage.empty());
  CHECK(kind->roles.holds_mass);
  CHECK(kind->needs.finished);
  CHECK(kinds::find_quantity(*kind, kind->vocabulary.temperature) != nullptr);
  History history = box_cf1a();
  warm(history, 27, 0, 6);
  const auto one = look(history), two = look(history);
  REQUIRE(one.findings.size() == two.findings.size());
  for (std::size_t i = 0; i < one.findings.size(); ++i)
    CHECK(one.findings[i].words.says == two.findings[i].words.says);
}

TEST_CASE("larvae: an empty or ended bin asks for nothing that it cannot") {
  const auto fresh = look(bin(0));
  CHECK(fresh.findings.empty());
  History ended = box_cf1a();
  ended.batch.ended = at(on(7));
  ended.batch.ended_day = on(7);
  const auto over = look(ended);
  CHECK(over.findings.empty());
  CHECK(over.forecasts.empty());
  CHECK(find_progress(over, "feed") == nullptr);
  CHECK(is_near(figure(over, "larvae.fcr"), 3.402, 1e-3));
}

TEST_CASE("larvae: moistures of several days are averaged, and only those read are named") {
  History history = box_cf1a();
  std::erase_if(history.series, [](const auto& one) { return one.quantity != "sample"; });
  build::reading(history, "feed_moisture", "", at(on(0)), 0.6);
  build::reading(history, "feed_moisture", "", at(on(1)), 0.7);
  const auto assessment = look(history);
  // Dry feed 6 x 0.35 = 2.1 kg; larvae 1.831 x 0.341 less 67.16 g of young ones at 27.4 % dry.
  const double gain = 1.831 * 0.341 - 0.06716 * 0.274;
  CHECK(is_near(figure(assessment, "larvae.bioconversion_dry"), gain / 2.1, 1e-4));
  CHECK(has(build::measure_of(assessment, "larvae.fcr_dry")->basis, "read of: feed; the rest"));
}

TEST_CASE("larvae: a harvest of unknown weight leaves the figures empty") {
  History history = box_cf1a();
  model::Material odd = build::material("larvae");
  history.out.push_back(build::movement(odd, {Dimension::kVolume, 2}, at(on(6))));
  const auto assessment = look(history);
  CHECK(is_near(figure(assessment, "larvae.out"), 1.831, 1e-9));
  CHECK(has(build::measure_of(assessment, "larvae.out")->basis, "1 without a weight left out"));
  CHECK(build::measure_of(assessment, "larvae.fcr") == nullptr);
  CHECK(build::measure_of(assessment, "larvae.survival") == nullptr);
}

TEST_CASE("larvae: dried larvae keep their own water") {
  History history = box_cf1a();
  build::reading(history, "sample", "", at(on(6)), 150e-6);
  history.out.back().material = build::material("dried larvae");
  history.out.back().amount.si = 0.5;
  const auto assessment = look(history);
  // 8 % water by the catalogue, not the 71.6 % of the live ones: 0.5 x 0.92 x 40 % protein.
  CHECK(is_near(figure(assessment, "larvae.protein"), 0.5 * 0.92 * 0.40, 1e-6));
  CHECK(is_near(figure(assessment, "larvae.dried"), 0.5, 1e-9));
  CHECK(has(build::measure_of(assessment, "larvae.fcr")->basis, "weighed dried"));
  CHECK(build::measure_of(assessment, "larvae.survival") == nullptr);
}

TEST_CASE("larvae: young larvae and eggs that were carried in add up") {
  History history = bin(2);
  feed(history, "young larvae", 0.028, 0);
  feed(history, "young larvae", 0.028, 1);
  CHECK(is_near(figure(look(history), "larvae.seeded"), 10000, 1e-6));  // 56 g at 5.6 mg
  History eggs = bin(2);
  eggs.in.push_back(
      build::movement(build::material("bsf eggs"), {Dimension::kCount, 1000}, at(on(0))));
  CHECK(is_near(figure(look(eggs), "larvae.seeded"), 700, 1e-6));
  CHECK(look(eggs).stage == "hatching");
  feed(eggs, "bsf eggs", 0.001, 0);
  CHECK(is_near(figure(look(eggs), "larvae.seeded"), 26950, 1e-6));
  History none = bin(2);
  number(none, "seeded", Dimension::kCount, 0);
  CHECK(std::isnan(figure(look(none), "larvae.seeded")));
  History no_area = bin(2);
  number(no_area, "seeded", Dimension::kCount, 100);
  CHECK(std::isnan(figure(look(no_area), "larvae.density")));
}

TEST_CASE("larvae: the range of what to expect, and own runs in it") {
  History history = bin(5);
  warm(history, 27, 0, 5);
  feed(history, "food scraps", 10, 1);
  // Half of 21.0 to 25.8 % as the spread, eight chances in ten: 23.5 -+ 1.2816 x 2.4.
  CHECK(has(find_forecast(look(history), "larvae")->says, "2 to 2.7 kg of larvae"));
  CHECK_FALSE(has(find_forecast(look(history), "larvae")->says, "leans on"));
  History run = box_cf1a();
  run.batch.ended = at(on(7));
  run.batch.ended_day = on(7);
  history.finished = std::make_shared<std::vector<History>>(std::vector<History>{run});
  // (2 x 23.5 + 29.40) / 3 = 25.47 %.
  CHECK(has(find_forecast(look(history), "larvae")->says, "2.1 to 3 kg of larvae"));
  CHECK(
      has(find_forecast(look(history), "larvae")->says, "leans on 1 of this site's finished runs"));
}

TEST_CASE("larvae: larvae without a feed on record are no contradiction") {
  History history = bin(8);
  take(history, "larvae", 1, 0);  // the day of seeding itself
  CHECK(build::find(look(history), "larvae.record") == nullptr);
  CHECK(figure(look(history), "larvae.out") == 1);
  CHECK(std::isnan(figure(look(history), "larvae.feed")));
}

TEST_CASE("larvae: weighings further apart than their neighbourhood are not compared") {
  const auto doubted = [](int apart) {
    History history = bin(9);
    build::reading(history, "sample", "", at(on(0)), 1e-6);
    build::reading(history, "sample", "", at(on(apart)), 100e-6);
    return build::find(look(history), "larvae.sample") != nullptr;
  };
  CHECK(doubted(3));
  CHECK_FALSE(doubted(4));
  History most = bin(1);
  build::reading(most, "sample", "", at(on(1)), 400e-6);
  CHECK(build::find(look(most), "larvae.sample") == nullptr);
}

TEST_CASE("larvae: light, dark and dried larvae add up, frass must all have a weight") {
  History history = box_cf1a();
  take(history, "dark larvae", 0.2, 6);
  take(history, "dried larvae", 0.1, 6);
  CHECK(is_near(figure(look(history), "larvae.out"), 1.831 + 0.2 + 0.1, 1e-9));
  CHECK(is_near(figure(look(history), "larvae.dark"), 0.2, 1e-9));
  model::Material light = build::material("frass");
  light.figures.clear();
  history.out.push_back(build::movement(light, {Dimension::kVolume, 4}, at(on(6))));
  CHECK(std::isnan(figure(look(history), "larvae.frass")));
  CHECK(std::isnan(figure(look(history), "larvae.waste_reduction")));
}

TEST_CASE("larvae: survival of just all of them is no doubt") {
  History history = box_cf1a();
  // 1831 g over 12,000 larvae.
  build::reading(history, "sample", "", at(on(6)), 1.831 / 12000 * (1 + 1e-9));
  CHECK_FALSE(has(build::measure_of(look(history), "larvae.survival")->basis, "above 100 %"));
}

TEST_CASE("larvae: one weighing shows no growth") {
  History history = bin(5);
  build::reading(history, "sample", "", at(on(5)), 100e-6);
  CHECK(std::isnan(figure(look(history), "larvae.growth")));
  CHECK(is_near(figure(look(history), "larvae.larva_mass"), 100e-6, 1e-12));
}

}  // namespace kinds_larvae_yield_test
