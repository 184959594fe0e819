#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "render/html.h"
#include "render/html_parts.h"

// What went where, as a circle: the ends stand around it, and a band leads from each to each.
namespace render {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;
constexpr double kWidth = 640, kHeight = 440, kRadius = 170, kRing = 12;
constexpr double kShort = 9;  // a band ends so far before the ring where it goes to
constexpr std::size_t kStyles = 6;

std::string point(double angle, double radius) {
  return svg_number(std::sin(angle) * radius) + " " + svg_number(-std::cos(angle) * radius);
}

std::string arc_to(double start, double end, double radius, bool back = false) {
  const bool large = std::fabs(end - start) > std::numbers::pi;
  return fmt::format("A{0} {0} 0 {1} {2} {3}", svg_number(radius), large ? 1 : 0, back ? 0 : 1,
                     point(end, radius));
}

}  // namespace

FlowCircle flow_circle(const season::FlowPicture& flow) {
  FlowCircle circle;
  const std::size_t ends = flow.ends.size();
  double total = 0;
  for (const auto& link : flow.links) total += link.kilograms;
  if (total <= 0) return circle;
  // Each link takes its width at both of its ends.
  std::vector<double> widths(flow.links.size());
  std::vector<double> of_end(ends, 0);
  double all = 0;
  for (std::size_t i = 0; i < flow.links.size(); ++i) {
    widths[i] = std::max(flow.links[i].kilograms / total, kLeastShare);
    of_end[flow.links[i].from] += widths[i];
    of_end[flow.links[i].to] += widths[i];
    all += 2 * widths[i];
  }
  const double gap = std::min(0.06, kTurn / 4 / static_cast<double>(ends));
  const double a_share = (kTurn - gap * static_cast<double>(ends)) / all;
  double at = 0;
  for (std::size_t i = 0; i < ends; ++i) {
    circle.arcs.push_back({at, at + of_end[i] * a_share});
    at += of_end[i] * a_share + gap;
  }
  for (const auto& link : flow.links)
    circle.ribbons.push_back(
        {link.from,
         link.to,
         {},
         {},
         fmt::format("{} from {} to {}", link.shown, flow.ends[link.from], flow.ends[link.to])});
  // At an end, its bands lie in the order in which the other ends stand backwards around the
  // circle, so that they cross as little as they can.
  for (std::size_t i = 0; i < ends; ++i) {
    std::vector<std::pair<std::size_t, bool>> here;  // the ribbon, and whether it leaves here
    for (std::size_t k = 0; k < circle.ribbons.size(); ++k) {
      if (circle.ribbons[k].from == i) here.emplace_back(k, true);
      if (circle.ribbons[k].to == i) here.emplace_back(k, false);
    }
    const auto steps_back = [&](const std::pair<std::size_t, bool>& one) {
      const FlowRibbon& ribbon = circle.ribbons[one.first];
      return (i + ends - (one.second ? ribbon.to : ribbon.from)) % ends;
    };
    std::stable_sort(here.begin(), here.end(),
                     [&](const auto& a, const auto& b) { return steps_back(a) < steps_back(b); });
    double angle = circle.arcs[i].start;
    for (const auto& [k, leaves] : here) {
      FlowArc& arc = leaves ? circle.ribbons[k].source : circle.ribbons[k].target;
      arc = {angle, angle + widths[k] * a_share};
      angle = arc.end;
    }
  }
  return circle;
}

std::string flow_svg(const season::FlowPicture& flow) {
  const FlowCircle circle = flow_circle(flow);
  std::string out =
      fmt::format(R"(<svg class="flow" viewBox="{} {} {} {}" role="img" aria-label="{}">)",
                  -kWidth / 2, -kHeight / 2, kWidth, kHeight, html_text(flow.says));
  for (const FlowRibbon& one : circle.ribbons) {
    const double inner = kRadius - kShort;
    out += fmt::format(
        R"(<path class="ribbon ribbon-{}" d="M{}{}Q0 0 {}{}Q0 0 {}Z"><title>{}</title></path>)",
        one.from % kStyles, point(one.source.start, kRadius),
        arc_to(one.source.start, one.source.end, kRadius), point(one.target.start, inner),
        arc_to(one.target.start, one.target.end, inner), point(one.source.start, kRadius),
        html_text(one.says));
  }
  for (std::size_t i = 0; i < circle.arcs.size(); ++i) {
    const FlowArc& arc = circle.arcs[i];
    const double outer = kRadius + kRing, middle = (arc.start + arc.end) / 2;
    out += fmt::format(R"(<path class="ring ring-{}" d="M{}{}L{}{}Z"/>)", i % kStyles,
                       point(arc.start, outer), arc_to(arc.start, arc.end, outer),
                       point(arc.end, kRadius), arc_to(arc.end, arc.start, kRadius, true));
    const double x = std::sin(middle);
    out +=
        fmt::format(R"(<text x="{}" y="{}" text-anchor="{}">{}</text>)",
                    svg_number(x * (outer + 8)), svg_number(-std::cos(middle) * (outer + 10) + 4),
                    std::fabs(x) < 0.25 ? "middle"
                    : x > 0             ? "start"
                                        : "end",
                    html_text(flow.ends[i]));
  }
  return out + "</svg>";
}

}  // namespace render
