#pragma once

#include <vector>

#include "cli/desk/ahead.h"
#include "render/calendar.h"

namespace cli {

// The days to come with what waits today, as entries for a calendar: whole days, but for what harms
// if it waits, which begins at the next quarter of an hour and makes itself heard.
std::vector<render::CalendarEntry> calendar_entries(const Desk& desk, const season::Ahead& ahead);

}  // namespace cli
