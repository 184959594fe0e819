#pragma once

#include <string>

#include "season/report.h"

namespace render {

// The season report for a terminal of that width. A table that is too wide for it is written a row
// a paragraph; appendices are left to the other forms.
std::string report_text(const season::Report& report, std::size_t width);

// One of its chapters.
std::string chapter_text(const season::Report& report, const season::Section& chapter,
                         std::size_t width);

// A screen of 24 lines: what the season came to, and the names of the chapters.
std::string report_screen(const season::Report& report, std::size_t width);

}  // namespace render
