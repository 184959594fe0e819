#pragma once

#include <span>
#include <string>
#include <string_view>

#include "season/report.h"

// Inside the page: its pictures as SVG, the data its scripts read, and what is embedded at build.
namespace render {

// A number as SVG wants it: two decimals at the most, a point.
std::string svg_number(double number);

std::string plot_svg(const season::TimePlot& plot);
std::string bars_svg(const season::Bars& bars);
std::string flow_svg(const season::FlowPicture& flow);

std::string grid_svg(const season::MonthGrid& grid);
std::string beside_svg(const season::Beside& beside);
std::string lives_svg(const season::Lives& lives);

// The names by which the page and the data of its pictures speak of them.
std::string plot_id(const season::Section& section, std::size_t index);
std::string bars_id(std::size_t index);

// The data of the pictures for the scripts, as JSON that cannot end its script element.
std::string picture_data(const season::Report& report);

// What scripts/embed_page.py made at build, and the SHA-256 of the script in base64 for the page's
// content security policy.
struct PageAssets {
  std::span<const std::string_view> style, script;
  std::string_view script_hash;
};
const PageAssets& page_assets();

// The style of a printed page's margins: these words on top, the page's number below.
std::string page_margins(const std::string& words);

}  // namespace render
