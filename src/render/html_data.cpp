#include <chrono>
#include <cmath>

#include "render/html_parts.h"
#include "render/json.h"

namespace render {
namespace {

// As a clock at the site showed it; the page's scripts read it as universal time, so that no zone
// of the reader comes in.
std::int64_t milliseconds(date::local_seconds at) {
  return at.time_since_epoch().count() * 1000;
}

Json json_plot(const season::TimePlot& plot, const std::string& id) {
  Json json{{"id", id},
            {"unit", plot.unit},
            {"title", plot.title},
            {"lines", Json::array()},
            {"limits", Json::array()},
            {"marks", Json::array()}};
  const auto tenths = [](double value) { return std::round(value * 100) / 100; };
  for (const season::PlotLine& line : plot.lines) {
    Json points = Json::array();
    for (const season::PlotPoint& one : line.points) {
      points.push_back(
          {milliseconds(one.at), tenths(one.least), tenths(one.mean), tenths(one.greatest)});
    }
    json["lines"].push_back({{"name", line.name}, {"points", std::move(points)}});
  }
  for (const season::PlotLimit& one : plot.limits)
    json["limits"].push_back({{"value", one.value}, {"says", one.says}});
  for (const season::PlotMark& one : plot.marks)
    json["marks"].push_back({{"at", milliseconds(one.at)}, {"says", one.says}});
  return json;
}

Json json_bars(const season::Bars& bars, const std::string& id) {
  Json json{{"id", id}, {"of", bars.of}, {"bars", Json::array()}};
  for (const season::Bar& one : bars.bars)
    json["bars"].push_back({{"month", one.month}, {"value", one.value}, {"shown", one.shown}});
  return json;
}

}  // namespace

std::string plot_id(const season::Section& section, std::size_t index) {
  return section.key + "-plot-" + std::to_string(index);
}

std::string bars_id(std::size_t index) {
  return "bars-" + std::to_string(index);
}

std::string picture_data(const season::Report& report) {
  Json json{{"plots", Json::array()}, {"bars", Json::array()}};
  for (const season::Section& section : report.sections) {
    for (std::size_t i = 0; i < section.plots.size(); ++i) {
      json["plots"].push_back(json_plot(section.plots[i], plot_id(section, i)));
    }
    for (std::size_t i = 0; i < section.bars.size(); ++i)
      json["bars"].push_back(json_bars(section.bars[i], bars_id(i)));
  }
  // In JSON these stand in strings only, where an escape says the same; so no text in it can end
  // the script element or begin a comment.
  std::string out;
  for (const char c : dumped_in_line(json)) {
    switch (c) {
      case '<':
        out += "\\u003c";
        break;
      case '>':
        out += "\\u003e";
        break;
      case '&':
        out += "\\u0026";
        break;
      default:
        out += c;
    }
  }
  return out;
}

}  // namespace render
