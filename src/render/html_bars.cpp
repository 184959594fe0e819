#include <fmt/format.h>

#include <algorithm>

#include "render/html.h"
#include "render/html_parts.h"

// One product's months as bars, each with its amount above it.
namespace render {
namespace {

constexpr double kWidth = 420, kHeight = 170, kTop = 22, kBottom = 26;

}  // namespace

std::string bars_svg(const season::Bars& bars) {
  std::string out =
      fmt::format(R"(<svg class="bars" viewBox="0 0 {} {}" role="img" aria-label="{}">)", kWidth,
                  kHeight, html_text(bars.says));
  double most = 0;
  for (const season::Bar& bar : bars.bars) most = std::max(most, bar.value);
  const double step = kWidth / static_cast<double>(std::max<std::size_t>(bars.bars.size(), 1));
  const double floor = kHeight - kBottom;
  const std::size_t every = (bars.bars.size() + 11) / 12;
  for (std::size_t i = 0; i < bars.bars.size(); ++i) {
    const season::Bar& bar = bars.bars[i];
    const double x = static_cast<double>(i) * step, middle = x + step / 2;
    const double height = most > 0 ? bar.value / most * (floor - kTop) : 0;
    if (bar.value > 0) {
      out += fmt::format(R"(<rect class="bar" x="{}" y="{}" width="{}" height="{}"/>)",
                         svg_number(x + step * 0.15), svg_number(floor - height),
                         svg_number(step * 0.7), svg_number(std::max(height, 1.0)));
      if (every == 1) {
        out += fmt::format(R"(<text x="{}" y="{}" text-anchor="middle">{}</text>)",
                           svg_number(middle), svg_number(floor - height - 5),
                           html_text(bar.shown.substr(0, bar.shown.find(' '))));
      }
    }
    if (i % every == 0) {
      out += fmt::format(R"(<text x="{}" y="{}" text-anchor="middle">{}</text>)",
                         svg_number(middle), kHeight - 8, html_text(bar.month.substr(0, 3)));
    }
  }
  out +=
      fmt::format(R"(<line class="axis" x1="0" x2="{}" y1="{}" y2="{}"/>)", kWidth, floor, floor);
  return out + "</svg>";
}

}  // namespace render
