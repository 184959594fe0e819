#include <fmt/format.h>

#include <charconv>
#include <ostream>

#include "book/keep/backup.h"
#include "cli/shell/commands.h"
#include "cli/shell/environment.h"
#include "measure/amount.h"
#include "measure/text.h"
#include "render/json.h"

namespace cli {
namespace {

measure::Result<std::optional<double>> latitude(const Arguments& arguments) {
  const auto option = arguments.option("latitude");
  if (!option) return std::optional<double>();
  const auto number = measure::parse_number(*option);
  if (!number) return measure::Mistake{*option, "--latitude: " + number.mistake().why};
  if (*number < -90 || *number > 90) {
    return measure::Mistake{*option, "--latitude is in degrees, from -90 (south) to 90 (north)"};
  }
  return std::optional(*number);
}

}  // namespace

Outcome run_new(Context& context, const Arguments& arguments) {
  if (!arguments.words.empty()) {
    return measure::Mistake{arguments.words[0],
                            fmt::format("new takes options only, not {}; the site's name is --site",
                                        measure::quoted(arguments.words[0]))};
  }
  book::NewSite site;
  site.name = arguments.option("site").value_or("home");
  const auto zone = arguments.option("zone");
  site.zone = zone ? *zone : system_zone().value_or("Etc/UTC");
  if (!measure::Zone::named(site.zone)) {
    return measure::Mistake{
        site.zone, fmt::format("there is no time zone {}; write it like America/Los_Angeles "
                               "or Europe/Berlin",
                               measure::quoted(site.zone))};
  }
  const bool us = context.units ? *context.units == measure::UnitSystem::kUs : system_is_us();
  site.units = us ? measure::UnitSystem::kUs : measure::UnitSystem::kMetric;
  const auto north = latitude(arguments);
  if (!north) return north.mistake();
  site.latitude = *north;
  book::Logbook::create(context.book_path, site, context.clock);
  if (const auto why = book::unsafe_place(context.book_path)) {
    context.err << "roundbook: warning: " << *why << ".\n";
  }
  if (context.json) {
    context.out << render::dumped({{"logbook", context.book_path.string()},
                                   {"site", site.name},
                                   {"zone", site.zone},
                                   {"units", us ? "us" : "metric"}});
    return kDone;
  }
  context.out << fmt::format(
      "a logbook for {}: {}\n  time zone {}, {} units. Next: roundbook start pile heap-1\n",
      site.name, context.book_path.string(), site.zone, us ? "US" : "metric");
  return kDone;
}

}  // namespace cli
