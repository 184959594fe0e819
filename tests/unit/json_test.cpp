#include "render/json.h"

#include <doctest/doctest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "build_history.h"

namespace json_test {

using measure::Dimension;
using measure::UnitSystem;

namespace {

const measure::Printer kUs(UnitSystem::kUs);
const model::Day kDay = build::day("2026-04-06");

// What we write, as another reader of JSON takes it.
using Json = nlohmann::ordered_json;
template <class... Args>
Json json_of(Args&&... args) {
  return Json::parse(render::dumped(render::json_of(std::forward<Args>(args)...)));
}

std::vector<std::string> names(const Json& json) {
  std::vector<std::string> all;
  for (const auto& [name, value] : json.items()) all.push_back(name);
  return all;
}

}  // namespace

TEST_CASE("a measured value carries base unit and shown text") {
  const Json json = json_of(model::Measured{"temperature", {Dimension::kTemperature, 55}, ""}, kUs);
  CHECK(json ==
        Json({{"quantity", "temperature"}, {"si", 55}, {"unit", "degC"}, {"shown", "131 °F"}}));
  const Json rate = json_of(model::Measured{"", {Dimension::kNumber, 120}, "mg/larva/d"}, kUs);
  CHECK(rate["quantity"].is_null());
  CHECK(rate["unit"] == "mg/larva/d");
  CHECK(rate["shown"] == "120 mg/larva/d");
}

TEST_CASE("a finding's names are stable, and what is not said is null") {
  model::Told finding;
  finding.batch = "heap-3";
  finding.kind = "pile";
  finding.rule = "pile.hot";
  finding.urgency = model::Urgency::kNow;
  finding.words.says = "its core is too hot";
  const Json bare = json_of(finding, kUs);
  CHECK(names(bare) == std::vector<std::string>{"batch", "kind", "rule", "line", "urgency", "says",
                                                "why", "do", "caution", "caution_short", "since",
                                                "due", "value", "limit", "threshold", "source"});
  CHECK(bare["urgency"] == "now");
  for (const std::string_view name : {"line", "why", "do", "caution", "caution_short", "since",
                                      "due", "value", "limit", "threshold", "source"}) {
    CAPTURE(name);
    CHECK(bare[name].is_null());
  }
  finding.words.action = "turn it";
  finding.due = kDay;
  finding.value = model::Measured{"temperature", {Dimension::kTemperature, 75}, ""};
  const Json full = json_of(finding, kUs);
  CHECK(full["do"] == "turn it");
  CHECK(full["due"] == "2026-04-06");
  CHECK(full["value"]["si"] == 75);
}

TEST_CASE("forecasts, progress and measures") {
  const Json forecast =
      json_of(model::Forecast{"harvest", kDay, std::nullopt, std::nullopt, "soon"});
  CHECK(forecast["earliest"] == "2026-04-06");
  CHECK(forecast["likely"].is_null());
  const Json progress = json_of(model::Progress{"treated", "3 of 15 days", 0.2});
  CHECK(progress["share"] == 0.2);
  CHECK(json_of(model::Progress{"treated", "too few", std::nullopt})["share"].is_null());
  const Json measure = json_of(
      model::Measure{"pile.peak", "hottest reading", {"", {Dimension::kTemperature, 60}, ""}, ""},
      kUs);
  CHECK(names(measure) ==
        std::vector<std::string>{"key", "name", "quantity", "si", "unit", "shown", "basis"});
  CHECK(measure["basis"].is_null());
}

TEST_CASE("a movement says whether its mass was weighed") {
  const auto zone = *measure::Zone::named("Etc/UTC");
  auto movement =
      build::movement(build::material("leaves"), {Dimension::kMass, 40}, build::at(kDay));
  movement.to = "heap-3";
  movement.typed = "40 kg";
  movement.paid_cents = 1250;
  const Json json = json_of(movement, kUs, zone);
  CHECK(json["at"] == "2026-04-06T07:00:00+00:00");
  CHECK(json["from"].is_null());
  CHECK(json["to"] == "heap-3");
  CHECK(json["mass_kg"] == 40);
  CHECK(json["weighed"] == true);
  CHECK(json["paid"] == 12.5);
  CHECK(json["sold"].is_null());
  CHECK(json["amount"]["quantity"] == "mass");
  movement.material = {};
  movement.amount = {Dimension::kVolume, 60};
  CHECK(json_of(movement, kUs, zone)["mass_kg"].is_null());
  CHECK(json_of(movement, kUs, zone)["weighed"] == false);
}

TEST_CASE("a batch that runs has no end") {
  const auto zone = *measure::Zone::named("Etc/UTC");
  model::Batch batch = build::batch("pile", "heap-3", kDay, kDay).batch;
  CHECK(json_of(batch, "heap-3", zone)["ended"].is_null());
  CHECK(json_of(batch, "heap-3", zone)["place"].is_null());
  batch.ended = build::at(kDay, 9);
  batch.because = "done";
  CHECK(json_of(batch, "heap-3/1", zone)["ended"] == "2026-04-06T09:00:00+00:00");
  CHECK(json_of(batch, "heap-3/1", zone)["because"] == "done");
}

// RFC 8259: strings are UTF-8, quotes, backslashes and control characters escaped.
TEST_CASE("the text of it is JSON, whatever the strings hold") {
  const std::string text = render::dumped({{"note", "say \"½\"\\\n\x01\xFF"}});
  CHECK(text == "{\n  \"note\": \"say \\\"½\\\"\\\\\\n\\u0001\uFFFD\"\n}\n");
  CHECK(Json::accept(text));
}

// The text is that of the library that writes it, character by character.
TEST_CASE("a value is written as the same list would be by the library") {
  const auto same = [](const render::Json& ours, const Json& theirs) {
    CHECK(render::dumped(ours) ==
          theirs.dump(2, ' ', false, Json::error_handler_t::replace) + '\n');
    CHECK(render::dumped_in_line(ours) ==
          theirs.dump(-1, ' ', true, Json::error_handler_t::replace));
  };
  same({{"z", 1}, {"a", 2.0}, {"m", -3L}}, {{"z", 1}, {"a", 2.0}, {"m", -3L}});
  same({{"b", true}, {"n", nullptr}, {"u", 18446744073709551615ULL}},
       {{"b", true}, {"n", nullptr}, {"u", 18446744073709551615ULL}});
  same({1, 2.5, "three"}, {1, 2.5, "three"});
  same({"one", "two"}, {"one", "two"});
  same({{"one", "two"}}, {{"one", "two"}});
  same({{1, "two"}}, {{1, "two"}});
  same(render::Json::array(), Json::array());
  same(std::vector<std::string>{"a", "½"}, std::vector<std::string>{"a", "½"});
  same(0.1, 0.1);
  same(1e300, 1e300);
  same(std::nan(""), std::nan(""));
  render::Json ours;
  Json theirs;
  ours["list"].push_back({{"x", 1}});
  theirs["list"].push_back({{"x", 1}});
  ours["list"].push_back({"x", 1});
  theirs["list"].push_back({"x", 1});
  ours["map"] = {{"k", {{"deep", {1, 2}}}}};
  theirs["map"] = {{"k", {{"deep", {1, 2}}}}};
  ours.update({{"list", 0}, {"more", "m"}});
  theirs.update(Json{{"list", 0}, {"more", "m"}});
  same(ours, theirs);
}

}  // namespace json_test
