#pragma once

#include <cmath>
#include <string>

#include "build_history.h"
#include "kinds/kind.h"

// A bin of larvae for tests: started on 1 June 2027, looked at so many days later.
namespace bin_of_larvae {

using build::at;
using build::day;
using measure::Dimension;
using measure::Value;
using model::History;
using model::Urgency;

using build::figure;

inline const model::Day kStart = day("2027-06-01");

inline model::Assessment look(const History& history, const model::Rules& rules = {}) {
  return kinds::assess(history, rules);
}

inline History bin(int days_later, measure::UnitSystem units = measure::UnitSystem::kMetric) {
  return build::batch("larvae", "bin-a", kStart, kStart + date::days{days_later}, units);
}

inline model::Day on(int days_later) {
  return kStart + date::days{days_later};
}

// Every day from the start to the last, once a morning.
inline void warm(History& history, double celsius, int first, int last) {
  for (int i = first; i <= last; ++i) {
    build::reading(history, "temperature", "", at(on(i)), celsius);
  }
}

inline void feed(History& history, const char* material, double kilograms, int days_later) {
  history.in.push_back(build::movement(build::material(material), {Dimension::kMass, kilograms},
                                       at(on(days_later))));
}

inline void take(History& history, const char* material, double kilograms, int days_later) {
  history.out.push_back(build::movement(build::material(material), {Dimension::kMass, kilograms},
                                        at(on(days_later))));
}

inline void number(History& history, const char* key, Dimension dimension, double si) {
  build::setting(history, key, "told", Value{dimension, si});
}

inline const model::Progress* find_progress(const model::Assessment& assessment,
                                            std::string_view goal) {
  for (const model::Progress& one : assessment.progress) {
    if (one.goal == goal) return &one;
  }
  return nullptr;
}

inline const model::Forecast* find_forecast(const model::Assessment& assessment,
                                            std::string_view what) {
  for (const model::Forecast& one : assessment.forecasts) {
    if (one.what == what) return &one;
  }
  return nullptr;
}

inline bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

inline bool is_near(double value, double expected, double within) {
  return std::fabs(value - expected) <= within;
}

}  // namespace bin_of_larvae
