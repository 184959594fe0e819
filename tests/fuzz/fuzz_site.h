#pragma once

#include <unistd.h>

#include <filesystem>
#include <string>

#include "book/file/error.h"
#include "book/read/query.h"
#include "book/write/pen.h"
#include "measure/text.h"

// A logbook for the fuzz targets that need one.
namespace fuzz {

// Noon of a day in the week that the clock is set back.
inline const measure::Instant kNow{std::chrono::seconds{1793998800}};

inline std::filesystem::path folder() {
  static const std::filesystem::path made = [] {
    const auto path =
        std::filesystem::temp_directory_path() / ("roundbook-fuzz-" + std::to_string(getpid()));
    std::filesystem::create_directories(path);
    return path;
  }();
  return made;
}

// A site with two batches, some readings, and a mapping of each form.
inline book::Logbook& site() {
  static book::Logbook logbook = [] {
    const auto path = folder() / "site.db";
    std::filesystem::remove(path);
    book::Logbook::create(path,
                          {"Tern Hollow", "America/Los_Angeles", measure::UnitSystem::kUs, 44},
                          kNow - std::chrono::hours{9000});
    return book::Logbook(path, book::Access::kWrite);
  }();
  static const bool filled = [] {
    book::Pen pen(logbook, {"ada", "start", "start", kNow - std::chrono::hours{8800}});
    const auto heap =
        pen.start_batch({"heap-1", "pile", std::nullopt, kNow - std::chrono::hours{8800}, {}});
    pen.start_batch({"bin-a", "larvae", std::nullopt, kNow - std::chrono::hours{900}, {}});
    for (int hour = 0; hour < 40; ++hour) {
      pen.add_reading({heap, "temperature", "core", kNow - std::chrono::hours{40 - hour},
                       50 + hour % 20 / 3.0});
    }
    pen.commit();
    return true;
  }();
  static_cast<void>(filled);
  return logbook;
}

}  // namespace fuzz
