#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "render/html.h"
#include "render/html_parts.h"

// What went where, from left to right: what came, what it became, what left. What goes round
// returns below. A band is as wide as its weight.
namespace render {
namespace {

constexpr double kWidth = 900, kSide = 92, kNode = 10, kGap = 26, kTop = 26, kPassGap = 6;
constexpr double kTall = 300;  // of all that the tallest column passes on
constexpr double kThinnest = 1.5;
constexpr double kLaneGap = 12, kTextHeight = 14, kLetter = 6.6;

struct Node {
  std::size_t column = 0;
  double in = 0, out = 0;  // kg
  double x = 0, y = 0, height = 0;
  double used_in = 0, used_out = 0;  // of its two sides, from the top
};

struct Point {
  double x = 0, y = 0;
};

struct Band {
  const season::FlowPicture::Link* link{};
  bool back = false;  // it returns to an end that stands before it
  double width = 0;
  std::vector<Point> between = {};  // the left ends of its places in the columns that it passes
  double leaves = 0, comes = 0;     // the heights of its two ends
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

// Gives each node its place, and each band one in every column that it passes, above the nodes.
void place(Layout& made) {
  std::size_t columns = 1;
  for (const Node& node : made.nodes) columns = std::max(columns, node.column + 1);
  std::vector<double> load(columns, 0);
  for (const Node& node : made.nodes) load[node.column] += std::max(node.in, node.out);
  const auto passed = [&](const Band& band, auto&& use) {
    if (band.back) return;
    const std::size_t last = made.nodes[band.link->to].column;
    for (std::size_t i = made.nodes[band.link->from].column + 1; i < last; ++i) use(i);
  };
  for (const Band& band : made.bands) {
    passed(band, [&](std::size_t column) { load[column] += band.link->kilograms; });
  }
  made.scale = kTall / std::max(*std::max_element(load.begin(), load.end()), 1e-9);
  std::vector<double> at(columns, kTop);
  const double step =
      columns > 1 ? (kWidth - 2 * kSide - kNode) / static_cast<double>(columns - 1) : 0;
  for (Band& band : made.bands) {
    band.width = std::max(band.link->kilograms * made.scale, kThinnest);
    passed(band, [&](std::size_t column) {
      band.between.push_back(
          {kSide + static_cast<double>(column) * step, at[column] + band.width / 2});
      at[column] += band.width + kPassGap;
    });
  }
  for (double& one : at) one += one > kTop ? kGap : 0;
  for (Node& node : made.nodes) {
    node.height = std::max(std::max(node.in, node.out) * made.scale, 4.0);
    node.x = kSide + static_cast<double>(node.column) * step;
    node.y = at[node.column];
    at[node.column] += node.height + kGap;
  }
  made.bottom = *std::max_element(at.begin(), at.end());
}

// At a node bands lie in the order of where they go next, or come from, so that few cross; what
// goes round leaves and comes at the bottom.
void join_ends(Layout& made) {
  std::vector<Band*> order;
  for (Band& band : made.bands) order.push_back(&band);
  const auto sort_by = [&](auto&& height) {
    std::stable_sort(order.begin(), order.end(), [&](const Band* a, const Band* b) {
      return std::pair(a->back, height(*a)) < std::pair(b->back, height(*b));
    });
  };
  const auto join = [](double& used, const Node& node, double width) {
    const double at = node.y + used + width / 2;
    used += width;
    return at;
  };
  sort_by([&](const Band& one) {
    return one.between.empty() ? made.nodes[one.link->to].y : one.between.front().y;
  });
  for (Band* band : order) {
    Node& from = made.nodes[band->link->from];
    band->leaves = join(from.used_out, from, band->width);
  }
  sort_by([&](const Band& one) {
    return one.between.empty() ? made.nodes[one.link->from].y : one.between.back().y;
  });
  for (Band* band : order) {
    Node& to = made.nodes[band->link->to];
    band->comes = join(to.used_in, to, band->width);
  }
}

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
  place(made);
  join_ends(made);
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
  const Layout made = laid_out(flow);
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
    const Node& from = made.nodes[link.from];
    const Node& to = made.nodes[link.to];
    const double leaves = band.leaves, comes = band.comes;
    const double right = from.x + kNode;
    if (!band.back) {
      Point at{right, leaves};
      std::string way = fmt::format("M{} {}", svg_number(at.x), svg_number(at.y));
      const auto bend_to = [&](Point next) {
        const double middle = (at.x + next.x) / 2;
        way += fmt::format("C{0} {1} {0} {2} {3} {2}", svg_number(middle), svg_number(at.y),
                           svg_number(next.y), svg_number(next.x));
        at = next;
      };
      for (const Point& one : band.between) {
        bend_to(one);
        at.x += kNode;
        way += fmt::format("L{} {}", svg_number(at.x), svg_number(at.y));
      }
      bend_to({to.x, comes});
      bands += band_svg(band, way, flow);
      const Point label = band.between.empty()
                              ? Point{(right + to.x) / 2, (leaves + comes) / 2}
                              : Point{band.between.front().x + kNode / 2, band.between.front().y};
      words += labels.put(label.x, label.y, link.shown);
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
