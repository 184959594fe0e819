#include "season/yardstick.h"

#include <doctest/doctest.h>

#include "build_history.h"
#include "kinds/kind.h"

namespace yardstick_test {

// What batches of any kind can be compared by.

using build::at;
using build::day;
using measure::Dimension;
using measure::UnitSystem;
using measure::Value;
using season::Of;
using season::Plot;

namespace {

Plot plot(std::string kind, std::string code) {
  return {
      code, build::batch(kind, code, day("2027-04-01"), day("2027-09-01"), UnitSystem::kUs), {}};
}

void take(Plot& plot, const char* material, Value amount, const char* on) {
  plot.history.out.push_back(build::movement(build::material(material), amount, at(day(on))));
}

double value(const Plot& one, std::string_view text,
             std::optional<season::Span> span = std::nullopt) {
  auto yardstick = season::read_yardstick(text, {one});
  REQUIRE(yardstick);
  season::Yardstick with = *yardstick;
  with.span = span;
  const auto of = season::value_of(one, with);
  REQUIRE(of);
  return of->si;
}

}  // namespace

TEST_CASE("yardstick: what was taken out, all or of one product, in a span, by area") {
  Plot bed = plot("bed", "bed-1");
  build::setting(bed.history, "area", "100ft2", Value{Dimension::kArea, 9.290304});
  take(bed, "tomatoes", {Dimension::kMass, 10}, "2027-07-01");
  take(bed, "tomatoes", {Dimension::kMass, 5}, "2027-08-01");
  take(bed, "kale", {Dimension::kMass, 2}, "2027-05-01");
  CHECK(value(bed, "yield") == doctest::Approx(17));
  CHECK(value(bed, "tomatoes") == doctest::Approx(15));
  CHECK(value(bed, "Tomatoes", season::Span{day("2027-07-15"), day("2027-08-01")}) ==
        doctest::Approx(5));
  CHECK(value(bed, "tomatoes per area") == doctest::Approx(15 / 9.290304));
  const auto yardstick = season::read_yardstick("tomatoes per area", {bed});
  const auto scale = season::scale_of(*season::value_of(bed, *yardstick), UnitSystem::kUs);
  // 15 kg are 33.07 lb, on 100 ft2.
  CHECK(scale.unit == "lb/100 ft2");
  CHECK(scale.si_unit == "kg/m2");
  CHECK(15 / 9.290304 / scale.factor == doctest::Approx(15 / 0.45359237));
  CHECK(season::described(*yardstick) == "tomatoes taken out, per area");
}

TEST_CASE("yardstick: a batch without the divisor is named") {
  Plot bed = plot("bed", "bed-1");
  take(bed, "kale", {Dimension::kMass, 2}, "2027-05-01");
  const auto yardstick = season::read_yardstick("kale per area", {bed});
  REQUIRE(yardstick);
  const auto of = season::value_of(bed, *yardstick);
  REQUIRE_FALSE(of);
  CHECK(of.mistake().why.find("bed-1 was started without area=") != std::string::npos);
}

TEST_CASE("yardstick: counts stay counts, and what is measured otherwise is left out") {
  Plot hens = plot("flock", "hens");
  take(hens, "eggs", {Dimension::kCount, 11}, "2027-05-01");
  take(hens, "eggs", {Dimension::kCount, 13}, "2027-05-02");
  take(hens, "eggs", {Dimension::kMass, 0.6}, "2027-05-03");
  build::reading(hens.history, "birds", "", at(day("2027-04-02")), 12);
  const auto yardstick = season::read_yardstick("eggs per birds", {hens});
  const auto of = season::value_of(hens, *yardstick);
  REQUIRE(of);
  CHECK(of->si == doctest::Approx(2));
  CHECK(of->leaves_out == "hens: 1 of 3 movements out measured another way, left out");
  CHECK(season::scale_of(*of, UnitSystem::kUs).unit == "/birds");
}

TEST_CASE("yardstick: readings, deeds, figures and days") {
  Plot pile = plot("pile", "heap-1");
  build::reading(pile.history, "temperature", "core", at(day("2027-04-02"), 7), 50);
  build::reading(pile.history, "temperature", "core", at(day("2027-04-02"), 17), 60);
  build::reading(pile.history, "temperature", "core", at(day("2027-04-03"), 7), 65);
  CHECK(value(pile, "temperature") == doctest::Approx(60));  // (55 + 65) / 2
  CHECK(value(pile, "highest temperature") == 65);
  CHECK(value(pile, "lowest temperature") == 50);
  const auto scale =
      season::scale_of({60, Dimension::kTemperature, "", {}, "", ""}, UnitSystem::kUs);
  CHECK(60 / scale.factor + scale.zero == doctest::Approx(140));
  build::deed(pile.history, "turned", at(day("2027-04-05")));
  build::deed(pile.history, "turned", at(day("2027-04-09")));
  CHECK(value(pile, "turned") == 2);
  CHECK(value(pile, "turned", season::Span{day("2027-04-06"), day("2027-04-30")}) == 1);
  const auto open = season::value_of(pile, *season::read_yardstick("days", {pile}));
  CHECK_FALSE(open);
  pile.history.batch.ended_day = day("2027-05-01");
  CHECK(value(pile, "days") == 30);

  Plot box = plot("nestbox", "box-1");
  build::reading(box.history, "eggs", "", at(day("2027-04-20")), 5);
  build::reading(box.history, "fledged", "", at(day("2027-05-22")), 4);
  box.assessment = kinds::assess(box.history, {});
  CHECK(value(box, "nestbox.fledged_brood") == doctest::Approx(4));
  CHECK(value(box, "fledged a brood") == doctest::Approx(4));
  CHECK(value(box, "total fledged") == doctest::Approx(4));
}

TEST_CASE("yardstick: an unknown word is answered with the nearest, or all there are") {
  Plot bed = plot("bed", "bed-1");
  take(bed, "kale", {Dimension::kMass, 2}, "2027-05-01");
  const auto near = season::read_yardstick("kal", {bed});
  REQUIRE_FALSE(near);
  CHECK(near.mistake().why.find("did you mean kale?") != std::string::npos);
  CHECK(season::read_yardstick("happiness", {bed}).mistake().why.find("days, kale and yield") !=
        std::string::npos);
  CHECK_FALSE(season::read_yardstick("highest kale", {bed}));
}

}  // namespace yardstick_test
