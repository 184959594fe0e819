#include "render/chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "render/text.h"

namespace render {
namespace {

constexpr std::size_t kLines = 5;
constexpr int kSteps = 8;
constexpr std::array<std::string_view, 9> kBars{" ", "▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};

// The highest reading of each stretch of days; none where the stretch has no reading.
std::vector<std::optional<double>> peaks(const std::vector<model::DayRoll>& days,
                                         const measure::Unit& unit, int days_a_column) {
  const model::Day first = days.front().day;
  const int span = (days.back().day - first).count() + 1;
  std::vector<std::optional<double>> columns(
      static_cast<std::size_t>((span + days_a_column - 1) / days_a_column));
  for (const model::DayRoll& roll : days) {
    auto& column = columns[static_cast<std::size_t>((roll.day - first).count() / days_a_column)];
    const double value = unit.from_base(roll.greatest);
    column = std::max(column.value_or(value), value);
  }
  return columns;
}

double floor_to_ten(double value) {
  return std::floor(value / 10) * 10;
}
double ceil_to_ten(double value) {
  return std::ceil(value / 10) * 10;
}

std::string label_of(double value, const measure::Unit& unit) {
  return fmt::format("{:.0f} {}", value, unit.symbol);
}

// Room for the widest label, a space and the limit's line: "-10 °C", "1580 gal".
std::size_t axis_width(const std::vector<model::DayRoll>& days, const measure::Unit& unit,
                       std::optional<double> mark) {
  std::size_t widest = 7;
  const auto take = [&](double value) {
    for (const double end : {floor_to_ten(value), ceil_to_ten(value)}) {
      widest = std::max(widest, columns(label_of(end, unit)));
    }
  };
  for (const model::DayRoll& roll : days) take(unit.from_base(roll.greatest));
  if (mark) take(unit.from_base(*mark));
  return widest + 2;
}

}  // namespace

std::string chart(const std::vector<model::DayRoll>& days, const measure::Unit& unit,
                  std::optional<double> mark, std::size_t width, model::Day today) {
  if (days.size() < 2) return {};
  const std::size_t axis = axis_width(days, unit, mark);
  const int span = (days.back().day - days.front().day).count() + 1;
  const int room = static_cast<int>(width - axis);
  const int days_a_column = (span + room - 1) / room;
  const auto columns = peaks(days, unit, days_a_column);
  double low = *columns.front(), high = low;
  for (const auto& column : columns) {
    if (!column) continue;
    low = std::min(low, *column);
    high = std::max(high, *column);
  }
  if (mark) high = std::max(high, unit.from_base(*mark));
  low = floor_to_ten(low);
  high = std::max(ceil_to_ten(high), low + 10);
  const double a_step = (high - low) / static_cast<double>(kLines * kSteps);
  std::string out;
  for (std::size_t line = kLines; line-- > 0;) {
    const double bottom = low + static_cast<double>(line * kSteps) * a_step;
    const double top = bottom + kSteps * a_step;
    const bool marked = mark && unit.from_base(*mark) > bottom && unit.from_base(*mark) <= top;
    const std::string label = marked               ? label_of(unit.from_base(*mark), unit)
                              : line == kLines - 1 ? label_of(high, unit)
                              : line == 0          ? label_of(low, unit)
                                                   : "";
    out += padded(label, axis - 2, true) + " " + (marked ? "┄" : " ");
    for (const auto& column : columns) {
      // On the chart's floor, too, a reading shows: an empty column is a day unread.
      const int least = line == 0 ? 1 : 0;
      const int steps =
          column
              ? std::clamp(static_cast<int>(std::ceil((*column - bottom) / a_step)), least, kSteps)
              : 0;
      out += steps == 0 && marked ? "┄" : kBars[static_cast<std::size_t>(steps)];
    }
    while (out.back() == ' ') out.pop_back();
    out += '\n';
  }
  const std::string from = measure::day_words(days.front().day, today);
  const std::string to = measure::day_words(days.back().day, today);
  const std::size_t across = std::max(columns.size(), from.size() + to.size() + 2);
  out += std::string(axis, ' ') + from + padded(to, across - std::min(across, from.size()), true) +
         '\n';
  if (days_a_column > 1) {
    out += std::string(axis, ' ') + fmt::format("(the highest of each {} days)\n", days_a_column);
  }
  return out;
}

}  // namespace render
