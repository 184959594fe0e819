#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "measure/printer.h"
#include "render/html.h"
#include "render/html_parts.h"

// Readings over time, drawn once for paper and for readers without scripts.
namespace render {
namespace {

constexpr double kWidth = 640, kHeight = 260;
constexpr double kLeft = 74, kRight = 64, kTop = 14, kBottom = 42;
// A line is not drawn over a longer silence.
constexpr std::chrono::hours kSilence{24 * 21};
constexpr std::size_t kStyles = 4;
constexpr int kSteps = 7;

struct Scale {
  double from, to, low, high;  // seconds; the plot's unit

  double x(date::local_seconds at) const {
    const auto seconds = static_cast<double>(at.time_since_epoch().count());
    return kLeft + (seconds - from) / (to - from) * (kWidth - kLeft - kRight);
  }
  double y(double value) const {
    return kHeight - kBottom - (value - low) / (high - low) * (kHeight - kTop - kBottom);
  }
};

double nice_step(double range, int steps) {
  const double raw = range / steps;
  const double magnitude = std::pow(10, std::floor(std::log10(raw)));
  for (const double one : {1.0, 2.0, 5.0}) {
    if (raw <= one * magnitude) return one * magnitude;
  }
  return 10 * magnitude;
}

Scale scale_of(const season::TimePlot& plot) {
  Scale scale{1e300, -1e300, 1e300, -1e300};
  for (const season::PlotLine& line : plot.lines) {
    for (const season::PlotPoint& point : line.points) {
      const auto seconds = static_cast<double>(point.at.time_since_epoch().count());
      scale.from = std::min(scale.from, seconds);
      scale.to = std::max(scale.to, seconds);
      scale.low = std::min(scale.low, point.least);
      scale.high = std::max(scale.high, point.greatest);
    }
  }
  for (const season::PlotLimit& limit : plot.limits) {
    scale.low = std::min(scale.low, limit.value);
    scale.high = std::max(scale.high, limit.value);
  }
  if (scale.to <= scale.from) scale.to = scale.from + 1;
  const double step = nice_step(std::max(scale.high - scale.low, 1.0), kSteps);
  scale.low = std::floor(scale.low / step) * step;
  scale.high = std::max(std::ceil(scale.high / step) * step, scale.low + step);
  return scale;
}

std::string axes(const Scale& scale, const season::TimePlot& plot) {
  std::string out;
  const double step = nice_step(scale.high - scale.low, kSteps);
  const long lines = std::lround((scale.high - scale.low) / step);
  for (long i = 0; i <= lines; ++i) {
    const double value = scale.low + static_cast<double>(i) * step;
    const double y = scale.y(value);
    out += fmt::format(R"(<line class="grid" x1="{}" x2="{}" y1="{}" y2="{}"/><text x="{}" y="{}" )"
                       R"(text-anchor="end">{}</text>)",
                       kLeft, kWidth - kRight, svg_number(y), svg_number(y), kLeft - 6,
                       svg_number(y + 4),
                       measure::print_number(value, 1) +
                           (value + step / 2 > scale.high ? " " + html_text(plot.unit) : ""));
  }
  const int days = static_cast<int>((scale.to - scale.from) / 86400) + 1;
  const int every = std::max(1, (days + 5) / 6);
  const date::local_days first = date::floor<date::days>(
      date::local_seconds{std::chrono::seconds{static_cast<std::int64_t>(scale.from)}});
  for (int day = 0;; day += every) {
    const date::local_days at = first + date::days{day};
    const double x = scale.x(date::local_seconds{at} + std::chrono::hours{12});
    if (x > kWidth - kRight + 1) break;
    const std::string words = measure::day_words(at, at);
    out += fmt::format(R"(<text x="{}" y="{}" text-anchor="middle">{}</text>)",
                       svg_number(std::max(x, kLeft)), kHeight - kBottom + 18,
                       words.substr(words.find(' ') + 1));
  }
  return out;
}

// The runs of a line that no long silence breaks.
std::vector<std::vector<season::PlotPoint>> runs_of(const season::PlotLine& line) {
  std::vector<std::vector<season::PlotPoint>> runs;
  for (const season::PlotPoint& point : line.points) {
    if (runs.empty() || point.at - runs.back().back().at > kSilence) runs.emplace_back();
    runs.back().push_back(point);
  }
  return runs;
}

std::string run_svg(const std::vector<season::PlotPoint>& run, const Scale& scale,
                    std::size_t style) {
  std::string band, back, line;
  bool has_band = false;
  for (const season::PlotPoint& point : run) {
    const std::string x = svg_number(scale.x(point.at));
    has_band = has_band || point.greatest > point.least;
    band += x + "," + svg_number(scale.y(point.greatest)) + " ";
    back.insert(0, x + "," + svg_number(scale.y(point.least)) + " ");
    line += x + "," + svg_number(scale.y(point.mean)) + " ";
  }
  if (run.size() == 1) {
    return fmt::format(R"(<circle class="dot-{}" cx="{}" cy="{}" r="2.5"/>)", style,
                       svg_number(scale.x(run[0].at)), svg_number(scale.y(run[0].mean)));
  }
  std::string out;
  if (has_band) out += fmt::format(R"(<polygon class="band-{}" points="{}"/>)", style, band + back);
  return out + fmt::format(R"(<polyline class="line-{}" points="{}"/>)", style, line);
}

}  // namespace

std::string svg_number(double number) {
  std::string text = fmt::format("{:.2f}", number);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string plot_svg(const season::TimePlot& plot) {
  const Scale scale = scale_of(plot);
  std::string out =
      fmt::format(R"(<svg class="plot" viewBox="0 0 {} {}" role="img" aria-label="{}">)", kWidth,
                  kHeight, html_text(plot.title + ". " + plot.says));
  out += axes(scale, plot);
  for (const season::PlotLimit& limit : plot.limits) {
    const std::string y = svg_number(scale.y(limit.value));
    out += fmt::format(R"(<line class="limit" x1="{}" x2="{}" y1="{}" y2="{}"/>)", kLeft,
                       kWidth - kRight, y, y);
    out += fmt::format(R"(<text class="limit-says" x="{}" y="{}">{}</text>)", kWidth - kRight + 4,
                       svg_number(scale.y(limit.value) + 4), html_text(limit.says));
  }
  for (const season::PlotMark& mark : plot.marks) {
    const double x = scale.x(mark.at);
    if (x < kLeft - 1 || x > kWidth - kRight + 1) continue;
    const double y = kHeight - kBottom;
    out += fmt::format(R"(<path class="mark" d="M{} {}l-4 7h8z"><title>{}</title></path>)",
                       svg_number(x), svg_number(y - 6), html_text(mark.says));
  }
  // Lines are told apart by their dashes too; the words below name them in the same order.
  double key_x = kLeft;
  for (std::size_t i = 0; i < plot.lines.size(); ++i) {
    for (const auto& run : runs_of(plot.lines[i])) out += run_svg(run, scale, i % kStyles);
    const std::string name = plot.lines[i].name.empty() ? "where not said" : plot.lines[i].name;
    const double y = kHeight - 8;
    out += fmt::format(
        R"(<line class="line-{}" x1="{}" x2="{}" y1="{}" y2="{}"/><text x="{}" y="{}">{}</text>)",
        i % kStyles, svg_number(key_x), svg_number(key_x + 26), y - 4, y - 4,
        svg_number(key_x + 31), y, html_text(name));
    key_x += 50 + 7.5 * static_cast<double>(name.size());
  }
  if (!plot.marks.empty()) {
    out += fmt::format(R"(<path class="mark" d="M{} {}l-4 7h8z"/><text x="{}" y="{}">done</text>)",
                       svg_number(key_x + 6), kHeight - 16, svg_number(key_x + 15), kHeight - 8);
  }
  return out + "</svg>";
}

}  // namespace render
