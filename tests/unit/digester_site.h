#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <set>
#include <string>
#include <string_view>

#include "build_history.h"
#include "kinds/caution.h"
#include "kinds/digester/facts.h"
#include "kinds/digester/study.h"
#include "kinds/digester/vocabulary.h"
#include "kinds/kind.h"

// A digester for tests: started on a fixed day, on a site in UTC.
namespace site {

using build::contains;

inline const model::Rules kDefaults;
inline const model::Day kStart = build::day("2026-03-02");

inline model::Day on(int days) {
  return kStart + date::days{days};
}

// On its n-th day, without any record.
inline model::History digester(int days, measure::UnitSystem units = measure::UnitSystem::kMetric) {
  return build::batch("digester", "dig-1", kStart, on(days), units);
}

inline void volume(model::History& history, double litres) {
  build::setting(history, "volume", std::to_string(litres) + "L",
                 measure::Value{measure::Dimension::kVolume, litres});
}

// One morning reading a day from day `from` to day `to`, both included.
inline void warm(model::History& history, int from, int to, double celsius) {
  for (int day = from; day <= to; ++day) {
    build::reading(history, "temperature", "", build::at(on(day)), celsius);
  }
}

inline void add(model::History& history, model::Material material, measure::Dimension dimension,
                double si, int day) {
  history.in.push_back(
      build::movement(std::move(material), {dimension, si}, build::at(on(day), 9)));
}

inline void add(model::History& history, std::string_view name, measure::Dimension dimension,
                double si, int day) {
  add(history, build::material(name), dimension, si, day);
}

inline void take(model::History& history, std::string_view name, double litres, int day,
                 std::string purpose = "") {
  auto out = build::movement(build::material(name), {measure::Dimension::kVolume, litres},
                             build::at(on(day), 9));
  out.purpose = std::move(purpose);
  history.out.push_back(out);
}

// It burned on that day, so that it counts as running from then on.
inline void burns(model::History& history, int day) {
  build::sensed(history, "flame", "strong", build::at(on(day), 10));
}

// A feed of plain figures: a tenth solids, all of them volatile, 0.2 m3 of methane a kg, 1 kg a
// litre.
inline model::Material plain_feed() {
  model::Material material;
  material.name = "plain feed";
  material.group = "manure";
  material.flags = {"manure", "hoofed"};
  material.figures = {{model::Property::kMoisture, 0.9, "test"},
                      {model::Property::kVolatileSolids, 1, "test"},
                      {model::Property::kMethane, 0.2, "test"},
                      {model::Property::kBulkDensity, 1000, "test"}};
  return material;
}

// At work on its n-th day and as warm as that all the time, fed every day.
inline model::History at_work(int days, double celsius, double litres, double feed_kg,
                              double water_litres) {
  model::History history = digester(days);
  volume(history, litres);
  burns(history, 0);
  warm(history, 0, days, celsius);
  for (int day = 1; day <= days; ++day) {
    if (feed_kg > 0) add(history, plain_feed(), measure::Dimension::kMass, feed_kg, day);
    if (water_litres > 0) add(history, "water", measure::Dimension::kVolume, water_litres, day);
  }
  return history;
}

inline model::Assessment judged(const model::History& history,
                                const model::Rules& rules = kDefaults) {
  model::Assessment made = kinds::assess(history, rules);
  for (const model::Told& one : made.findings) {
    // A morning's line has 46 columns, and the digester's letters take one each.
    const auto points = std::count_if(one.words.line.begin(), one.words.line.end(),
                                      [](char byte) { return (byte & 0xC0) != 0x80; });
    INFO(one.words.line);
    CHECK(points > 0);
    CHECK(points <= 46);
  }
  return made;
}

inline bool has(const model::History& history, std::string_view rule) {
  return build::find(judged(history), rule) != nullptr;
}

// The finding, or an empty one: for its words and its urgency.
inline model::Told found(const model::History& history, std::string_view rule) {
  const auto assessment = judged(history);
  const auto* finding = build::find(assessment, rule);
  return finding == nullptr ? model::Told{} : *finding;
}

using Ids = std::set<std::string, std::less<>>;

inline Ids ids_of(const std::vector<const model::Caution*>& cautions) {
  Ids ids;
  for (const model::Caution* one : cautions) ids.emplace(one->id);
  return ids;
}

// The cautions that are said with an entry.
inline Ids minded(const kinds::Handled& handled, const model::History& before) {
  const kinds::digester::Study study(before, kDefaults);
  return ids_of(kinds::cautions_at(handled, study));
}

inline bool has_reason(const model::Finding& finding, std::string_view id) {
  return std::any_of(finding.reasons.begin(), finding.reasons.end(),
                     [&](const model::Reason& reason) { return reason.id == id; });
}

// The reasons in their order, "cold mix sour".
inline std::string reasons(const model::Finding& finding) {
  std::string ids;
  for (const model::Reason& reason : finding.reasons)
    ids += (ids.empty() ? "" : " ") + std::string(reason.id);
  return ids;
}

inline std::string line(const model::History& history, std::string_view goal) {
  for (const model::Progress& one : judged(history).progress) {
    if (one.goal == goal) return one.says;
  }
  return "";
}

inline double measured(const model::History& history, std::string_view key) {
  for (const model::Measure& one : judged(history).measures) {
    if (one.key == key) return one.value.value.si;
  }
  return -1;
}

}  // namespace site
