#include "season/trace.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <ostream>

#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

using season::Direction;
using season::Trace;
using season::TraceBatch;
using season::TraceStep;

// A screen's worth; --json has all.
constexpr std::size_t kMostBatches = 12, kMostSteps = 12, kMostEnds = 12;

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
  return text;
}

// "heap-1, 15 kg of it": a batch on the way.
std::string batch_words(const TraceBatch& one, const Trace& trace, const Desk& desk) {
  const bool up = trace.direction == Direction::kUp;
  if (one.label == trace.batch) {
    return fmt::format("{}: where its contents {}", one.label, up ? "came from" : "went");
  }
  if (one.same_ground) {
    return fmt::format("{}: {} on the same ground", one.label, up ? "before it" : "after it");
  }
  if (!one.part) return fmt::format("{}: how much of it is not known", one.label);
  return fmt::format("{}: {} of it", one.label, desk.print()(*one.part));
}

// So many are shown, the others are counted.
std::string rest_words(std::size_t all, std::size_t shown, std::string_view what) {
  return fmt::format("and {} {} more (--json has all)", all - shown, what);
}

void print_batch(std::ostream& out, const TraceBatch& one, const Trace& trace, const Desk& desk,
                 std::size_t width) {
  out << render::wrapped(batch_words(one, trace, desk), width, 4) << '\n';
  const std::size_t shown = std::min(one.steps.size(), kMostSteps);
  for (std::size_t i = 0; i < shown; ++i) {
    out << "  " << render::wrapped(step_words(one.steps[i], trace.direction, desk), width - 2, 6)
        << '\n';
  }
  if (shown < one.steps.size()) {
    out << render::wrapped("  " + rest_words(one.steps.size(), shown, "rows"), width, 4) << '\n';
  }
}

void print_trace(std::ostream& out, const Trace& trace, const Desk& desk, std::size_t width) {
  const bool up = trace.direction == Direction::kUp;
  const bool none = std::all_of(trace.batches.begin(), trace.batches.end(),
                                [](const TraceBatch& one) { return one.steps.empty(); });
  if (none) {
    out << fmt::format("{}: nothing was {} it\n", trace.batch, up ? "put into" : "taken out of");
    return;
  }
  const std::size_t shown = std::min(trace.batches.size(), kMostBatches + 1);
  for (std::size_t i = 0; i < shown; ++i) print_batch(out, trace.batches[i], trace, desk, width);
  if (shown < trace.batches.size()) {
    out << render::wrapped(rest_words(trace.batches.size(), shown, "batches"), width, 4) << '\n';
  }
  if (trace.ends.empty()) return;
  out << (up ? "in all, by weight of what was put in\n" : "in all, by weight\n");
  render::Table table({{""}, {"", true}, {""}});
  const std::size_t ends = std::min(trace.ends.size(), kMostEnds);
  measure::Kilograms rest;
  for (std::size_t i = 0; i < trace.ends.size(); ++i) {
    const season::TraceEnd& end = trace.ends[i];
    if (i >= ends) {
      rest += end.part;
      continue;
    }
    const std::string place = end.at.empty() ? (up ? "from outside" : "away") : "at " + end.at;
    table.add({end.material, desk.print()(end.part), place});
  }
  if (ends < trace.ends.size()) {
    table.add({fmt::format("{} more", trace.ends.size() - ends), desk.print()(rest), "--json"});
  }
  out << table.text(width, 2);
}

// The crops of each bed, from its first to its last.
std::vector<season::Ground> grounds(const Desk& desk) {
  std::map<std::string, std::vector<const model::Batch*>> by_code;
  for (const model::Batch& one : desk.batches()) {
    if (desk.kind(one).roles.ground) by_code[one.kind + " " + one.code].push_back(&one);
  }
  std::vector<season::Ground> all;
  for (auto& [code, batches] : by_code) {
    std::sort(batches.begin(), batches.end(),
              [](const auto* a, const auto* b) { return a->run < b->run; });
    season::Ground& ground = all.emplace_back();
    for (const model::Batch* one : batches) {
      if (one->started <= desk.now()) ground.push_back(book::label_of(desk.logbook(), *one));
    }
  }
  return all;
}

render::Json json_of(const std::vector<TraceStep>& steps, const Desk& desk) {
  render::Json rows = render::Json::array();
  const auto mass = [&](const std::optional<measure::Kilograms>& one) {
    return one ? render::Json(one->value) : render::Json(nullptr);
  };
  for (const TraceStep& step : steps) {
    rows.push_back({{"material", step.material},
                    {"from", step.from.empty() ? render::Json(nullptr) : render::Json(step.from)},
                    {"to", step.to.empty() ? render::Json(nullptr) : render::Json(step.to)},
                    {"for", step.purpose},
                    {"statement", step.statement},
                    {"first", measure::iso_date(step.first)},
                    {"last", measure::iso_date(step.last)},
                    {"movements", step.movements},
                    {"carried_kg", mass(step.carried)},
                    {"part_kg", mass(step.part)},
                    {"part_shown",
                     step.part ? render::Json(desk.print()(*step.part)) : render::Json(nullptr)}});
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
  render::Json batches = render::Json::array();
  for (const TraceBatch& one : trace.batches) {
    batches.push_back({{"batch", one.label},
                       {"kind", one.kind},
                       {"same_ground", one.same_ground},
                       {"part_kg", one.part ? render::Json(one.part->value) : nullptr},
                       {"steps", json_of(one.steps, desk)}});
  }
  return {{"batches", batches}, {"ends", ends}};
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
  const auto movements =
      book::movements(desk->logbook(), desk->materials(), measure::Instant{}, desk->now());
  const bool both = arguments.flag("up") == arguments.flag("down");
  const auto width = static_cast<std::size_t>(context.width);
  render::Json json{{"batch", label}, {"as_of", desk->site().zone.iso(desk->now())}};
  for (const Direction direction : {Direction::kUp, Direction::kDown}) {
    const bool up = direction == Direction::kUp;
    if (!both && !arguments.flag(up ? "up" : "down")) continue;
    const Trace trace = season::trace(label, direction, movements, grounds(*desk));
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
