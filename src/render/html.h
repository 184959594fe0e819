#pragma once

#include <string>
#include <string_view>

#include "season/report.h"

namespace render {

// The season report as one page: no network, no other file. It is whole without scripts; the
// scripts only make its pictures answer to the hand. All text is escaped here and in the files
// html_*.cpp, and nowhere else.
// `all`: its figures by batch stand open, on paper too.
std::string html(const season::Report& report, bool all = false);

// Text as it may stand in an element or in a quoted attribute.
std::string html_text(std::string_view text);

}  // namespace render
