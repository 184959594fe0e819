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

// The circle of the flow picture. Angles in radians, 0 at the top, clockwise. What is too little to
// be seen is drawn as wide as kLeastShare of the circle.
inline constexpr double kLeastShare = 0.008;
struct FlowArc {
  double start{}, end{};
};
struct FlowRibbon {
  std::size_t from{}, to{};
  FlowArc source, target;
  std::string says;
};
struct FlowCircle {
  std::vector<FlowArc> arcs;  // of the ends, in their order
  std::vector<FlowRibbon> ribbons;
};
FlowCircle flow_circle(const season::FlowPicture& flow);

// The data of the pictures for the scripts, as JSON that cannot end its script element.
std::string picture_data(const season::Report& report);

// What scripts/embed_page.py made at build, and the SHA-256 of the script in base64 for the page's
// content security policy.
struct PageAssets {
  std::span<const std::string_view> style, script;
  std::string_view script_hash;
};
const PageAssets& page_assets();

}  // namespace render
