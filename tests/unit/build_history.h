#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>

#include "model/assessment.h"
#include "model/history.h"

// Builders for a model::History in tests: a batch on a site in UTC, so that days are plain.
namespace build {

inline model::Instant at(model::Day day, int hours = 7, int minutes = 0) {
  return model::Instant{date::sys_days{day.time_since_epoch()}} + std::chrono::hours{hours} +
         std::chrono::minutes{minutes};
}

inline model::Day day(const char* iso) {
  return *measure::parse_iso_date(iso);
}

inline model::History batch(std::string kind, std::string code, model::Day started,
                            model::Day today,
                            measure::UnitSystem units = measure::UnitSystem::kUs) {
  model::History history{};
  history.batch.code = std::move(code);
  history.batch.kind = std::move(kind);
  history.batch.started = at(started, 6);
  history.batch.started_day = started;
  history.units = units;
  history.now = at(today, 8);
  history.today = today;
  return history;
}

inline void setting(model::History& history, std::string key, std::string typed,
                    std::optional<measure::Value> value = std::nullopt) {
  history.batch.settings.push_back({std::move(key), std::move(typed), value});
}

// Readings of a series must come in order of time.
inline void reading(model::History& history, std::string quantity, std::string position,
                    model::Instant when, double value) {
  auto found = std::find_if(history.series.begin(), history.series.end(), [&](const auto& one) {
    return one.quantity == quantity && one.position == position;
  });
  if (found == history.series.end()) {
    history.series.push_back({quantity, position, {}, std::nullopt, std::nullopt});
    found = std::prev(history.series.end());
  }
  const model::Day of{date::floor<date::days>(when).time_since_epoch()};
  if (found->days.empty() || found->days.back().day != of) {
    found->days.push_back({of, 0, value, value, 0, value, when});
  }
  model::DayRoll& roll = found->days.back();
  ++roll.count;
  roll.least = std::min(roll.least, value);
  roll.greatest = std::max(roll.greatest, value);
  roll.total += value;
  roll.last = value;
  roll.last_at = when;
  found->before_last = found->last;
  found->last = model::Reading{when, value};
  history.last_entry = std::max(history.last_entry.value_or(when), when);
}

inline void deed(model::History& history, std::string word, model::Instant when) {
  history.deeds.push_back(
      {when, model::Day{date::floor<date::days>(when).time_since_epoch()}, word});
}

inline void sensed(model::History& history, std::string sense, std::string word,
                   model::Instant when) {
  history.sensed.push_back(
      {when, model::Day{date::floor<date::days>(when).time_since_epoch()}, sense, word});
}

inline model::Movement movement(model::Material material, measure::Value amount,
                                model::Instant when) {
  model::Movement made;
  made.at = when;
  made.day = model::Day{date::floor<date::days>(when).time_since_epoch()};
  made.material = std::move(material);
  made.amount = amount;
  return made;
}

inline model::Material material(std::string_view name) {
  for (const model::Material& one : model::catalogue()) {
    if (one.name == name) return one;
  }
  return {};
}

inline double celsius(double fahrenheit) {
  return (fahrenheit - 32) * 5 / 9;
}

inline const model::Told* find(const model::Assessment& assessment, std::string_view rule) {
  for (const model::Told& one : assessment.findings) {
    if (one.rule == rule) return &one;
  }
  return nullptr;
}

// What an assessment says: a measure's number in SI (none: not a number), what it rests on, and the
// words of a progress.
inline const model::Measure* measure_of(const model::Assessment& assessment, std::string_view key) {
  for (const model::Measure& one : assessment.measures) {
    if (one.key == key) return &one;
  }
  return nullptr;
}

inline double figure(const model::Assessment& assessment, std::string_view key) {
  const model::Measure* found = measure_of(assessment, key);
  return found == nullptr ? std::nan("") : found->value.value.si;
}

inline std::string basis(const model::Assessment& assessment, std::string_view key) {
  const model::Measure* found = measure_of(assessment, key);
  return found == nullptr ? "no such measure" : found->basis;
}

inline std::string progress(const model::Assessment& assessment, std::string_view goal) {
  for (const model::Progress& one : assessment.progress) {
    if (one.goal == goal) return one.says;
  }
  return "";
}

// Code points of UTF-8: the columns that a line takes.
inline int columns(std::string_view text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), [](char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0) != 0x80;
  }));
}

inline bool contains(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

}  // namespace build
