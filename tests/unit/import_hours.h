#pragma once

#include <limits>

#include "book/import/sink.h"

// Degrees in the core of a pile.
inline book::Target core_of(std::int64_t batch) {
  return {"heap-1 core",
          "temperature",
          "core",
          measure::Dimension::kTemperature,
          &measure::unit("°C"),
          -30,
          95,
          15,
          {{batch, 0, std::numeric_limits<std::int64_t>::max()}}};
}

// Hourly values of a logger from a moment on; every 30th is implausible and marked. How many stood
// already with another value.
inline int import_hours(book::Logbook& logbook, std::int64_t batch, measure::Instant from,
                        int hours, bool commits = true) {
  const std::vector<book::Target> targets{core_of(batch)};
  int conflicts = 0;
  book::ImportSink sink(logbook, {"ada", "import", "import x.csv", from}, targets,
                        [&](const auto&) { ++conflicts; });
  for (int hour = 0; hour < hours; ++hour) {
    const double value = hour % 30 == 29 ? 120 : 50 + hour % 7;
    sink.add({0, 0, value}, (from + std::chrono::hours{hour}).time_since_epoch().count(),
             static_cast<std::uint64_t>(hour) + 2);
  }
  if (commits) sink.commit();
  return conflicts;
}
