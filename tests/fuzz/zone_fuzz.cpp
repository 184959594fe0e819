// Zones by name, and the round of an instant through the site's clock: the first eight bytes are
// the instant, the rest the zone's name.
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <string>

#include "measure/moment.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 8) return 0;
  std::int64_t seconds{};
  std::memcpy(&seconds, data, 8);
  constexpr std::int64_t kYears200 = 6311390400;  // 1770 to 2170
  const measure::Instant at{std::chrono::seconds{seconds % kYears200}};
  std::string name(reinterpret_cast<const char*>(data) + 8, size - 8);
  auto zone = measure::Zone::named(name);
  if (!zone) {
    static const char* const kNames[] = {"America/Los_Angeles", "Pacific/Apia", "Asia/Kathmandu",
                                         "Africa/Casablanca", "America/Sao_Paulo"};
    zone = measure::Zone::named(kNames[name.size() % 5]);
  }
  const measure::Day day = zone->day_of(at);
  const auto start = zone->start_of(day);
  if (start > at || zone->day_of(start) < day) abort();
  const auto found = zone->instant_of(zone->local(at));
  if (found && !found->twice && found->at != at) abort();
  zone->iso(at);
  measure::moment_words(at, at, *zone);
  return 0;
}
