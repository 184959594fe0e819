#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "book/file/logbook.h"

// Where words stand.
namespace book {

struct Found {
  measure::Instant at;  // when it happened
  std::string batch;    // label; empty: of none
  std::string_view of;  // "note", "load", "batch", "material", "place", "photo", "who"
  std::string text;     // with the words in it
  std::string who;      // whose entry it is
  std::int64_t entry;   // its number; of a person, the latest
};

// The notes, loads (amount, material, purpose), batches (code, kind, settings, why they ended),
// materials of the site's own, places, names of photos and people whose text holds each of the
// words, as a part of it, in any order; the case of a to z does not count. The latest first. What
// was taken back is not found. A scan of those tables.
std::vector<Found> find_words(const Logbook& logbook, const std::vector<std::string>& words);

}  // namespace book
