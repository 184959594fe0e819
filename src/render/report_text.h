#pragma once

#include <string>

#include "season/report.h"

namespace render {

// The season report for a terminal of that width. A table that is too wide for it is written a row
// a paragraph; appendices are left to the other forms.
std::string report_text(const season::Report& report, std::size_t width);

}  // namespace render
