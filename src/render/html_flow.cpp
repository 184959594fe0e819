#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "render/html.h"
#include "render/html_parts.h"

// What went where, from left to right: what came, what it became, what left. What goes round
// returns below. A band is as wide as its weight.
namespace render {
namespace {

constexpr double kWidth = 900, kSide = 92, kNode = 10, kGap = 26, kTop = 26;
constexpr double kTall = 300;  // of all that the tallest column passes on
constexpr double kThinnest = 1.5;
constexpr double kLaneGap = 12, kTextHeight = 14, kLetter = 6.6;

struct Node {
  std::size_t column = 0;
  double in = 0, out = 0;  // kg
  double x = 0, y = 0, height = 0;
  double used_in = 0, used_out = 0;  // of its two sides, from the top
};

struct Band {
  const season::FlowPicture::Link* link{};
  bool back = false;  // it returns to an end that stands before it
  double width = 0;
};

// A place for a label that no other label has.
class Labels {
 public:
  std::string put(double x, double y, const std::string& text) {
    const double half = kLetter * static_cast<double>(text.size()) / 2;
    constexpr int kTries = 9;
    for (int i = 0; i < kTries; ++i) {
      const double at = y + (i % 2 == 0 ? 1 : -1) * ((i + 1) / 2) * kTextHeight;
      const bool free = std::none_of(taken_.begin(), taken_.end(), [&](const Box& one) {
        return std::fabs(one.y - at) < kTextHeight && std::fabs(one.x - x) < one.half + half + 4;
      });
      if (!free) continue;
      taken_.push_back({x, at, half});
      return fmt::format(R"(<text class="weight" x="{}" y="{}" text-anchor="middle">{}</text>)",
                         svg_number(x), svg_number(at + 4), html_text(text));
    }
    return "";
  }

 private:
  struct Box {
    double x, y, half;
  };
  std::vector<Box> taken_;
};

struct Layout {
  std::vector<Node> nodes;
  std::vector<Band> bands;
  double scale = 0;   // of a kilogram
  double bottom = 0;  // of the nodes
};

// The column of an end is one more than that of the furthest that leads to it. Ends stand in the
// order of the work, so a link to an earlier one goes back.
Layout laid_out(const season::FlowPicture& flow) {
  Layout made;
  made.nodes.resize(flow.ends.size());
  for (const auto& link : flow.links) {
    made.nodes[link.from].out += link.kilograms;
    made.nodes[link.to].in += link.kilograms;
    made.bands.push_back({&link, link.to <= link.from, 0});
  }
  for (std::size_t i = 0; i < flow.ends.size(); ++i) {
    for (const Band& band : made.bands) {
      if (band.back || band.link->from != i) continue;
      Node& to = made.nodes[band.link->to];
      to.column = std::max(to.column, made.nodes[i].column + 1);
    }
  }
  std::size_t columns = 1;
  for (const Node& node : made.nodes) columns = std::max(columns, node.column + 1);
  std::vector<double> load(columns, 0);
  for (const Node& node : made.nodes) load[node.column] += std::max(node.in, node.out);
  const double most = std::max(*std::max_element(load.begin(), load.end()), 1e-9);
  made.scale = kTall / most;
  std::vector<double> at(columns, kTop);
  const double step =
      columns > 1 ? (kWidth - 2 * kSide - kNode) / static_cast<double>(columns - 1) : 0;
  for (Node& node : made.nodes) {
    node.height = std::max(std::max(node.in, node.out) * made.scale, 4.0);
    node.x = kSide + static_cast<double>(node.column) * step;
    node.y = at[node.column];
    at[node.column] += node.height + kGap;
  }
  made.bottom = *std::max_element(at.begin(), at.end());
  for (Band& band : made.bands) {
    band.width = std::max(band.link->kilograms * made.scale, kThinnest);
  }
  // Bands that come from above leave at the top: fewer cross.
  std::stable_sort(made.bands.begin(), made.bands.end(), [&](const Band& a, const Band& b) {
    return made.nodes[a.link->to].y < made.nodes[b.link->to].y;
  });
  return made;
}

std::string band_class(const Band& band, const season::FlowPicture& flow) {
  if (band.back) return "back";
  if (band.link->from == 0) return "came";
  return band.link->to + 1 == flow.ends.size() ? "left" : "on";
}

std::string band_svg(const Band& band, const std::string& way, const season::FlowPicture& flow) {
  const auto& link = *band.link;
  return fmt::format(
      R"(<path class="band {}" stroke-width="{}" d="{}"><title>{} from {} to {}</title></path>)",
      band_class(band, flow), svg_number(band.width), way, html_text(link.shown),
      html_text(flow.ends[link.from]), html_text(flow.ends[link.to]));
}

}  // namespace

std::string flow_svg(const season::FlowPicture& flow) {
  if (flow.links.empty()) return "";
  Layout made = laid_out(flow);
  std::string bands, words;
  Labels labels;
  for (std::size_t i = 0; i < made.nodes.size(); ++i) {
    const Node& node = made.nodes[i];
    const bool first = node.column == 0;
    words += fmt::format(R"(<text x="{}" y="{}" text-anchor="{}">{}</text>)",
                         svg_number(first ? node.x - 6 : node.x + kNode / 2),
                         svg_number(first ? node.y + node.height / 2 + 4 : node.y - 6),
                         first ? "end" : "middle", html_text(flow.ends[i]));
  }
  double lane = made.bottom;
  for (const Band& band : made.bands) {
    const auto& link = *band.link;
    Node& from = made.nodes[link.from];
    Node& to = made.nodes[link.to];
    const double leaves = from.y + from.used_out + band.width / 2;
    const double comes = to.y + to.used_in + band.width / 2;
    from.used_out += band.width;
    to.used_in += band.width;
    const double right = from.x + kNode;
    if (!band.back) {
      const double middle = (right + to.x) / 2;
      bands += band_svg(
          band,
          fmt::format("M{0} {1}C{2} {1} {2} {3} {4} {3}", svg_number(right), svg_number(leaves),
                      svg_number(middle), svg_number(comes), svg_number(to.x)),
          flow);
      words += labels.put(middle, (leaves + comes) / 2, link.shown);
      continue;
    }
    const double y = lane + band.width / 2;
    lane += band.width + kLaneGap;
    const double out = right + 30, in = to.x - 30;
    bands +=
        band_svg(band,
                 fmt::format("M{0} {1}C{2} {1} {2} {3} {0} {3}L{4} {3}C{5} {3} {5} {6} {4} {6}",
                             svg_number(right), svg_number(leaves), svg_number(out), svg_number(y),
                             svg_number(to.x), svg_number(in), svg_number(comes)),
                 flow);
    words += labels.put((right + to.x) / 2, y, link.shown);
  }
  std::string nodes;
  for (const Node& node : made.nodes) {
    nodes += fmt::format(R"(<rect class="node" x="{}" y="{}" width="{}" height="{}"/>)",
                         svg_number(node.x), svg_number(node.y), kNode, svg_number(node.height));
  }
  return fmt::format(
      R"(<svg class="flow" viewBox="0 0 {} {}" role="img" aria-label="{}">{}{}{}</svg>)", kWidth,
      svg_number(lane + 8), html_text(flow.says), bands, nodes, words);
}

}  // namespace render
