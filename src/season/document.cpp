#include "season/document.h"

#include <date/date.h>

namespace season {

DocumentCell day_cell(measure::Day day) {
  return {measure::iso_date(day), std::nullopt, measure::iso_date(day)};
}

DocumentCell moment_cell(measure::Instant at, const measure::Zone& zone) {
  return {measure::iso_date(zone.day_of(at)) + " " + date::format("%H:%M", zone.local(at)),
          std::nullopt, zone.iso(at)};
}

DocumentCell number_cell(double number, std::string shown) {
  return {std::move(shown), number, std::nullopt};
}

}  // namespace season
