#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "render/html.h"
#include "render/html_parts.h"

// The pictures of the page's chapters: discs by month, bars beside each other, batches in time.
namespace render {
namespace {

constexpr double kPicture = 640, kNames = 120, kRow = 44, kHead = 22;
constexpr double kBarRow = 20, kBarNames = 210, kBarNumbers = 120;
constexpr double kLifeRow = 15, kLifeNames = 80;

std::string text(double x, double y, std::string_view anchor, std::string_view words) {
  return fmt::format(R"(<text x="{}" y="{}" text-anchor="{}">{}</text>)", svg_number(x),
                     svg_number(y), anchor, html_text(words));
}

std::string svg(double height, const std::string& says, const std::string& inside) {
  return fmt::format(
      R"(<svg class="chart" viewBox="0 0 {} {}" role="img" aria-label="{}">{}</svg>)", kPicture,
      svg_number(height), html_text(says), inside);
}

}  // namespace

std::string grid_svg(const season::MonthGrid& grid) {
  double most = 0;
  for (const auto& row : grid.rows) {
    for (const double value : row.values) most = std::max(most, value);
  }
  const double step =
      (kPicture - kNames) / static_cast<double>(std::max<std::size_t>(grid.months.size(), 1));
  const double largest = std::min(step, kRow) / 2 - 8;
  std::string out;
  for (std::size_t i = 0; i < grid.months.size(); ++i) {
    out += text(kNames + (static_cast<double>(i) + 0.5) * step, 14, "middle", grid.months[i]);
  }
  for (std::size_t r = 0; r < grid.rows.size(); ++r) {
    const auto& row = grid.rows[r];
    const double y = kHead + (static_cast<double>(r) + 0.5) * kRow;
    out += fmt::format(R"(<line class="grid" x1="{}" x2="{}" y1="{}" y2="{}"/>)", kNames, kPicture,
                       svg_number(y + kRow / 2), svg_number(y + kRow / 2));
    out += text(kNames - 10, y + 4, "end", row.name);
    for (std::size_t i = 0; i < row.values.size(); ++i) {
      if (row.values[i] <= 0) continue;
      // The area is the amount.
      const double radius = std::max(std::sqrt(row.values[i] / most) * largest, 1.5);
      const double x = kNames + (static_cast<double>(i) + 0.5) * step;
      out += fmt::format(R"(<circle class="bar" cx="{}" cy="{}" r="{}"/>)", svg_number(x),
                         svg_number(y - 7), svg_number(radius));
      out += text(x, y + kRow / 2 - 3, "middle", row.shown[i]);
    }
  }
  return svg(kHead + static_cast<double>(grid.rows.size()) * kRow + 4, grid.says, out);
}

std::string beside_svg(const season::Beside& beside) {
  std::string out;
  double y = 0;
  for (const auto& row : beside.rows) {
    double most = 0;
    for (const auto& bar : row.bars) most = std::max(most, bar.value);
    out += text(0, y + 15, "start", row.name);
    y += kBarRow;
    for (std::size_t i = 0; i < row.bars.size(); ++i) {
      const auto& bar = row.bars[i];
      const double room = kPicture - kBarNames - kBarNumbers;
      const double width = most > 0 ? bar.value / most * room : 0;
      out += text(kBarNames - 8, y + 14, "end", bar.name);
      out += fmt::format(R"(<rect class="bar{}" x="{}" y="{}" width="{}" height="{}"/>)",
                         i == 0 ? "" : " second", kBarNames, svg_number(y + 2),
                         svg_number(std::max(width, 0.8)), kBarRow - 5);
      out += text(kBarNames + width + 6, y + 14, "start", bar.shown);
      y += kBarRow;
    }
    y += 6;
  }
  return svg(y, beside.title + ". " + beside.says, out);
}

std::string lives_svg(const season::Lives& lives) {
  const double room = kPicture - kLifeNames;
  const double height = kHead + static_cast<double>(lives.rows.size()) * kLifeRow + 4;
  std::string out;
  for (const auto& [at, month] : lives.months) {
    const std::string x = svg_number(kLifeNames + at * room);
    out += fmt::format(R"(<line class="grid" x1="{0}" x2="{0}" y1="{1}" y2="{2}"/>)", x, kHead,
                       svg_number(height));
    out += text(kLifeNames + at * room + 2, 14, "start", month);
  }
  for (std::size_t i = 0; i < lives.rows.size(); ++i) {
    const auto& row = lives.rows[i];
    const double y = kHead + static_cast<double>(i) * kLifeRow;
    const double from = kLifeNames + row.from * room, to = kLifeNames + row.to * room;
    out += text(kLifeNames - 6, y + 11, "end", row.name);
    out += fmt::format(
        R"(<rect class="bar{}" x="{}" y="{}" width="{}" height="{}"><title>{}</title></rect>)",
        row.open ? " open" : "", svg_number(from), svg_number(y + 2),
        svg_number(std::max(to - from, 2.0)), kLifeRow - 4, html_text(row.says));
  }
  return svg(height, lives.says, out);
}

}  // namespace render
