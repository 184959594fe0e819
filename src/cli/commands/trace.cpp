#include "season/trace.h"

#include <fmt/format.h>

#include <cmath>
#include <ostream>

#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

using season::Direction;
using season::Trace;
using season::TraceStep;

std::string when_words(const TraceStep& step, measure::Day today) {
  const std::string first = measure::day_words(step.first, today);
  if (step.movements.size() == 1) return first;
  return fmt::format("{} loads, {} to {}", step.movements.size(), first,
                     measure::day_words(step.last, today));
}

// "2 loads of compost, from heap-1": what was carried, and its far end.
std::string step_words(const TraceStep& step, Direction direction, const Desk& desk) {
  const bool up = direction == Direction::kUp;
  const std::string& end = up ? step.from : step.to;
  std::string far;
  if (!end.empty()) {
    far = (up ? "from " : "to ") + end;
  } else if (up) {
    far = "from outside";
  } else {
    far = step.purpose.empty() ? "away" : "for " + step.purpose;
  }
  std::string text = fmt::format("{} {}", step.material, far);
  if (step.carried) text += ": " + desk.print()(*step.carried);
  const bool same =
      step.part && step.carried && std::abs(step.part->value - step.carried->value) < 1e-9;
  if (step.part && !same) text += fmt::format(", {} of it", desk.print()(*step.part));
  text += fmt::format(" ({})", when_words(step, desk.today()));
  if (!step.statement.empty()) {
    text += fmt::format("; treated, by its supplier's statement: {}", step.statement);
  }
  if (step.loop) text += fmt::format("; a loop: {} is on this way already", end);
  return text;
}

void print_steps(std::ostream& out, const std::vector<TraceStep>& steps, Direction direction,
                 const Desk& desk, std::size_t depth, std::size_t width) {
  for (const TraceStep& step : steps) {
    const std::size_t indent = 2 + 2 * depth;
    out << std::string(indent, ' ')
        << render::wrapped(step_words(step, direction, desk), width - indent, indent + 4) << '\n';
    print_steps(out, step.steps, direction, desk, depth + 1, width);
  }
}

void print_trace(std::ostream& out, const Trace& trace, const Desk& desk, std::size_t width) {
  const bool up = trace.direction == Direction::kUp;
  if (trace.steps.empty()) {
    out << fmt::format("{}: nothing was {} it\n", trace.batch, up ? "put into" : "taken out of");
    return;
  }
  out << fmt::format("{}: {}\n", trace.batch,
                     up ? "where its contents came from" : "where its contents went");
  print_steps(out, trace.steps, trace.direction, desk, 0, width);
  if (trace.ends.empty()) return;
  out << (up ? "in all, by weight of what was put in\n" : "in all, by weight\n");
  render::Table table({{""}, {"", true}, {""}});
  for (const season::TraceEnd& end : trace.ends) {
    const std::string place = end.at.empty() ? (up ? "from outside" : "away") : "at " + end.at;
    table.add({end.material, desk.print()(end.part), place});
  }
  out << table.text(width, 2);
}

render::Json json_of(const std::vector<TraceStep>& steps, const Desk& desk) {
  render::Json rows = render::Json::array();
  const auto mass = [&](const std::optional<measure::Kilograms>& one) {
    return one ? render::Json(one->value) : render::Json(nullptr);
  };
  for (const TraceStep& step : steps) {
    rows.push_back(
        {{"material", step.material},
         {"from", step.from.empty() ? render::Json(nullptr) : render::Json(step.from)},
         {"to", step.to.empty() ? render::Json(nullptr) : render::Json(step.to)},
         {"for", step.purpose},
         {"statement", step.statement},
         {"first", measure::iso_date(step.first)},
         {"last", measure::iso_date(step.last)},
         {"movements", step.movements},
         {"carried_kg", mass(step.carried)},
         {"part_kg", mass(step.part)},
         {"part_shown", step.part ? render::Json(desk.print()(*step.part)) : render::Json(nullptr)},
         {"loop", step.loop},
         {"steps", json_of(step.steps, desk)}});
  }
  return rows;
}

render::Json json_of(const Trace& trace, const Desk& desk) {
  render::Json ends = render::Json::array();
  for (const season::TraceEnd& end : trace.ends) {
    ends.push_back({{"material", end.material},
                    {"at", end.at.empty() ? render::Json(nullptr) : render::Json(end.at)},
                    {"part_kg", end.part.value}});
  }
  return {{"steps", json_of(trace.steps, desk)}, {"ends", ends}};
}

}  // namespace

Outcome run_trace(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.size() != 1) {
    return measure::Mistake{"", "trace needs one batch, like 'trace bed-2 --up'"};
  }
  const auto batch = desk->batch(arguments.words[0]);
  if (!batch) return batch.mistake();
  const std::string label = book::label_of(desk->logbook(), *batch);
  const auto movements = desk->movements(measure::Instant{}, desk->now());
  const bool both = arguments.flag("up") == arguments.flag("down");
  const auto width = static_cast<std::size_t>(context.width);
  render::Json json{{"batch", label}, {"as_of", desk->site().zone.iso(desk->now())}};
  for (const Direction direction : {Direction::kUp, Direction::kDown}) {
    const bool up = direction == Direction::kUp;
    if (!both && !arguments.flag(up ? "up" : "down")) continue;
    const Trace trace = season::trace(label, direction, movements);
    if (context.json) {
      json[up ? "up" : "down"] = json_of(trace, *desk);
    } else {
      print_trace(context.out, trace, *desk, width);
    }
  }
  if (context.json) context.out << render::dumped(json);
  return kDone;
}

}  // namespace cli
