#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "cli/desk/answer.h"
#include "cli/desk/desk.h"
#include "cli/desk/inspection.h"
#include "cli/desk/measure_lines.h"
#include "cli/desk/record.h"
#include "cli/shell/commands.h"
#include "render/chart.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr std::size_t kShortTimeline = 6;

struct Event {
  measure::Instant at;
  std::string text;
};

std::string amount_words(const model::Movement& movement) {
  return fmt::format("{} {}", movement.typed, movement.material.name);
}

// Deeds, judgements, notes and movements, latest first. Readings are in the chart and the table.
std::vector<Event> timeline(const model::History& history) {
  std::vector<Event> events;
  for (const auto& one : history.deeds) events.push_back({one.at, one.word});
  for (const auto& one : history.sensed) events.push_back({one.at, one.sense + ": " + one.word});
  for (const auto& one : history.notes) events.push_back({one.at, "“" + one.text + "”"});
  for (const auto& one : history.in) {
    events.push_back(
        {one.at, amount_words(one) + " in" + (one.from.empty() ? "" : " from " + one.from)});
  }
  for (const auto& one : history.out) {
    events.push_back({one.at, amount_words(one) + " out" + (one.to.empty() ? "" : " to " + one.to) +
                                  (one.purpose.empty() ? "" : " for " + one.purpose)});
  }
  std::stable_sort(events.begin(), events.end(),
                   [](const auto& a, const auto& b) { return a.at > b.at; });
  return events;
}

render::Json json_series(const model::Series& series, const kinds::Kind& kind, const Desk& desk) {
  const kinds::Quantity* quantity = kinds::find_quantity(kind, series.quantity);
  const measure::Dimension dimension =
      quantity == nullptr ? measure::Dimension::kNumber : quantity->dimension;
  render::Json json{
      {"quantity", series.quantity},
      {"position", series.position.empty() ? render::Json(nullptr) : render::Json(series.position)},
      {"unit", std::string(measure::base_unit(dimension))},
      {"last",
       {{"at", desk.site().zone.iso(series.last->at)},
        {"si", series.last->value},
        {"shown", desk.print()({dimension, series.last->value},
                               quantity == nullptr ? measure::ShownIn{} : quantity->shown_in)}}},
      {"days", render::Json::array()}};
  for (const model::DayRoll& roll : series.days) {
    json["days"].push_back({{"day", measure::iso_date(roll.day)},
                            {"n", roll.count},
                            {"least", roll.least},
                            {"mean", roll.mean()},
                            {"greatest", roll.greatest}});
  }
  return json;
}

void print_json(Context& context, const Desk& desk, const model::History& history,
                const model::Assessment& assessment, const std::string& label) {
  render::Json json = render::json_of(history.batch, label, desk.site().zone);
  json["as_of"] = desk.site().zone.iso(desk.now());
  json["day"] = history.day_number();
  json["stage"] = assessment.stage;
  for (const char* key : {"settings", "findings", "progress", "forecasts", "measures", "series",
                          "marked", "in", "out", "timeline"}) {
    json[key] = render::Json::array();
  }
  for (const auto& one : history.batch.settings) {
    json["settings"].push_back(
        {{"key", one.key},
         {"typed", one.typed},
         {"si", one.value ? render::Json(one.value->si) : render::Json(nullptr)}});
  }
  for (const auto& one : assessment.findings)
    json["findings"].push_back(render::json_of(one, desk.print()));
  for (const auto& one : assessment.progress) json["progress"].push_back(render::json_of(one));
  for (const auto& one : assessment.forecasts) json["forecasts"].push_back(render::json_of(one));
  for (const auto& one : assessment.measures)
    json["measures"].push_back(render::json_of(one, desk.print()));
  for (const auto& one : history.series) {
    json["series"].push_back(json_series(one, desk.kind(history.batch), desk));
  }
  for (const book::Marked& one : book::marked_readings(desk.logbook(), history.batch, desk.now())) {
    json["marked"].push_back(
        {{"quantity", one.quantity},
         {"position", one.position.empty() ? render::Json(nullptr) : render::Json(one.position)},
         {"mark", one.mark},
         {"n", one.count},
         {"least", one.least},
         {"greatest", one.greatest},
         {"first_at", desk.site().zone.iso(one.first_at)},
         {"last_at", desk.site().zone.iso(one.last_at)}});
  }
  for (const auto& one : history.in) {
    json["in"].push_back(render::json_of(one, desk.print(), desk.site().zone));
  }
  for (const auto& one : history.out) {
    json["out"].push_back(render::json_of(one, desk.print(), desk.site().zone));
  }
  for (const Event& event : timeline(history)) {
    json["timeline"].push_back({{"at", desk.site().zone.iso(event.at)}, {"text", event.text}});
  }
  context.out << render::dumped(json);
}

std::string heading(const Desk& desk, const model::History& history,
                    const model::Assessment& assessment, const std::string& label) {
  const model::Batch& batch = history.batch;
  std::string text = fmt::format("{} · {} · {} · ", label, batch.kind, assessment.stage);
  if (batch.ended_day) {
    const int days = (*batch.ended_day - batch.started_day).count() + 1;
    text +=
        fmt::format("{} to {}, {} day{}", measure::day_words(batch.started_day, desk.today()),
                    measure::day_words(*batch.ended_day, desk.today()), days, days == 1 ? "" : "s");
    if (!batch.because.empty()) text += " (" + batch.because + ")";
  } else {
    text += fmt::format("day {}, since {}", history.day_number(),
                        measure::day_words(batch.started_day, desk.today()));
  }
  if (!batch.place.empty()) text += " · " + batch.place;
  for (const model::Setting& setting : batch.settings)
    text += fmt::format(" · {} {}", setting.key, setting.typed);
  return text;
}

std::string series_name(const model::Series& series) {
  return series.quantity + (series.position.empty() ? "" : " " + series.position);
}

void print_readings(std::ostream& out, const Desk& desk, const model::History& history,
                    std::size_t width) {
  const kinds::Kind& kind = desk.kind(history.batch);
  render::Table table({{""}, {""}, {""}});
  for (const model::Series& series : history.series) {
    const kinds::Quantity* quantity = kinds::find_quantity(kind, series.quantity);
    if (quantity == nullptr) continue;
    table.add({series_name(series),
               desk.print()({quantity->dimension, series.last->value}, quantity->shown_in),
               measure::moment_words(series.last->at, desk.now(), desk.site().zone)});
  }
  if (!table.empty()) out << "\nlast readings\n" << table.text(width, 2);
}

// What was recorded and is not judged: a count, between which values, and since when.
void print_marked(std::ostream& out, const Desk& desk, const model::History& history,
                  std::size_t width) {
  const kinds::Kind& kind = desk.kind(history.batch);
  render::Table table({{""}, {"", true}, {""}, {""}});
  for (const book::Marked& one : book::marked_readings(desk.logbook(), history.batch, desk.now())) {
    const kinds::Quantity* quantity = kinds::find_quantity(kind, one.quantity);
    if (quantity == nullptr) continue;
    const auto value = [&](double si) {
      return desk.print()({quantity->dimension, si}, quantity->shown_in);
    };
    const auto moment = [&](measure::Instant at) {
      return measure::moment_words(at, desk.now(), desk.site().zone);
    };
    table.add({one.quantity + (one.position.empty() ? "" : " " + one.position),
               fmt::format("{} {}", one.count, one.mark),
               one.least == one.greatest
                   ? value(one.least)
                   : fmt::format("{} to {}", value(one.least), value(one.greatest)),
               one.first_at == one.last_at
                   ? moment(one.first_at)
                   : fmt::format("{} to {}", moment(one.first_at), moment(one.last_at))});
  }
  if (!table.empty()) out << "\nmarked, and left out of what is judged\n" << table.text(width, 2);
}

void print_chart(std::ostream& out, const Desk& desk, const model::History& history,
                 std::size_t width) {
  const kinds::Kind& kind = desk.kind(history.batch);
  const std::string_view charted = !kind.drawing.quantity.empty() ? kind.drawing.quantity
                                   : !kind.vocabulary.temperature.empty()
                                       ? kind.vocabulary.temperature
                                       : kind.vocabulary.rhythm;
  const kinds::Quantity* quantity = kinds::find_quantity(kind, charted);
  if (quantity == nullptr) return;
  const measure::Unit& unit = measure::usual_unit(quantity->dimension, desk.print().system());
  std::optional<double> mark;
  if (kind.drawing.limit != nullptr) {
    mark = book::rules(desk.logbook(), history.batch).in_force(*kind.drawing.limit).si;
  }
  const std::string text =
      render::chart(model::pooled_days(history.all(charted)), unit, mark, width, desk.today());
  if (!text.empty()) out << fmt::format("\n{}, the day's highest\n", charted) << text;
}

// What to do: a line each, with the short cautions; all of it where the whole was asked for.
void print_findings(std::ostream& out, const Desk& desk, const model::Assessment& assessment,
                    std::size_t width, bool all) {
  CautionOnce once;
  for (const model::Told& one : assessment.findings) {
    const std::string lead = fmt::format("  {}: ", model::word(one.urgency));
    if (all || one.words.line.empty()) {
      out << finding_text(once.said(one), desk, lead, width, 4) << '\n';
      continue;
    }
    const std::string minds = model::brief_text(one.cautions);
    out << render::wrapped(
               fmt::format("{}{}{}{}", lead, one.words.line, minds.empty() ? "" : " ! ", minds),
               width, 4)
        << '\n';
  }
}

void print_timeline(std::ostream& out, const Desk& desk, const model::History& history,
                    std::size_t width, bool all) {
  const std::vector<Event> events = timeline(history);
  if (events.empty()) return;
  out << "\nwhat happened, latest first\n";
  const std::size_t shown = all ? events.size() : std::min(events.size(), kShortTimeline);
  std::vector<std::string> moments;
  std::size_t longest = 0;
  for (std::size_t i = 0; i < shown; ++i) {
    moments.push_back(measure::moment_words(events[i].at, desk.now(), desk.site().zone));
    longest = std::max(longest, render::columns(moments.back()));
  }
  for (std::size_t i = 0; i < shown; ++i) {
    out << render::wrapped(
               fmt::format("  {}  {}", render::padded(moments[i], longest), events[i].text), width,
               longest + 4)
        << '\n';
  }
  if (shown < events.size()) out << fmt::format("  and {} more\n", events.size() - shown);
}

// In the order in which a person asks: what to do, how it stands, what comes, the picture, what
// happened. The figures of a batch that goes on are for the whole of it.
void print_text(Context& context, const Desk& desk, const model::History& history,
                const model::Assessment& assessment, const std::string& label, bool all) {
  std::ostream& out = context.out;
  const auto width = static_cast<std::size_t>(context.width);
  const bool ended = history.batch.ended.has_value();
  out << render::wrapped(heading(desk, history, assessment, label), width, 2) << '\n';
  print_findings(out, desk, assessment, width, all);
  for (const model::Progress& one : assessment.progress) {
    const bool brief = !all && !one.briefly.empty();
    out << render::wrapped(fmt::format("  {}: {}", one.goal, brief ? one.briefly : one.says), width,
                           4)
        << '\n';
  }
  print_readings(out, desk, history, width);
  print_marked(out, desk, history, width);
  if (!assessment.forecasts.empty()) out << "\nwhat comes\n";
  for (const model::Forecast& one : assessment.forecasts) {
    out << render::wrapped(fmt::format("  {}: {}", one.what, one.says), width, 4) << '\n';
  }
  print_chart(out, desk, history, width);
  print_timeline(out, desk, history, width, all);
  if ((all || ended) && !assessment.measures.empty()) {
    out << (ended ? "\nin all\n" : "\nso far\n")
        << measure_lines(assessment.measures, desk.print(), width, all);
  }
  if (all) return;
  out << '\n'
      << render::wrapped(
             fmt::format("'roundbook show {0} --all' shows the whole{1}.", label,
                         assessment.findings.empty()
                             ? ""
                             : fmt::format(", 'roundbook why {}' says why", history.batch.code)),
             width, 0)
      << '\n';
}

}  // namespace

Outcome run_show(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.size() != 1)
    return measure::Mistake{"", "show needs one batch, like 'show heap-3'"};
  const auto batch = desk->batch(arguments.words[0]);
  if (!batch) return batch.mistake();
  if (batch->started > desk->now()) {
    return measure::Mistake{batch->code,
                            fmt::format("{} was started {}, after the moment you give", batch->code,
                                        measure::day_words(batch->started_day, desk->today()))};
  }
  const model::History history = desk->history(*batch);
  for (const RecordSort& sort : kRecordSorts) {
    if (!arguments.flag(sort.option)) continue;
    if (arguments.option("html")) {
      return measure::Mistake{"--html", fmt::format("--html writes the batch's whole record, the "
                                                    "{0} with it; leave --{0} away",
                                                    sort.option)};
    }
    return show_record(context, arguments, *desk, history, sort);
  }
  if (arguments.option("csv") || arguments.option("html")) {
    write_document(context, arguments, record_of_batch(*desk, history), "html");
    return kDone;
  }
  const model::Assessment assessment = desk->assess(history);
  const std::string label = book::label_of(desk->logbook(), *batch);
  if (context.json) {
    print_json(context, *desk, history, assessment, label);
  } else {
    print_text(context, *desk, history, assessment, label, arguments.flag("all"));
  }
  return kDone;
}

}  // namespace cli
