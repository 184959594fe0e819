// Moments as typed: none that is read lies in the future, and each prints and reads back the same.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "measure/when.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  static const auto zone = measure::Zone::named("America/Los_Angeles");
  // Noon of a day in the week that the clock is set back.
  const measure::Instant now{std::chrono::seconds{1793998800}};
  for (const auto means : {measure::DayMeans::kNoon, measure::DayMeans::kItsEnd}) {
    const auto when = measure::parse_when(text, now, *zone, means);
    if (!when && when.mistake().why.empty()) abort();
    if (!when) continue;
    if (when->at > now) abort();
    const auto again = measure::parse_when(zone->iso(when->at), now, *zone);
    if (again && again->at != when->at) abort();
  }
  measure::parse_day(text, zone->day_of(now));
  measure::parse_iso_date(text);
  return 0;
}
