#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "kinds/kind.h"
#include "measure/text.h"
#include "season/inspection.h"

// The record of one batch: what went in, what was read and done, what it shows, where it went.
namespace season {
namespace {

using Type = DocumentColumn::Type;

// More moments a day than a person reads: a logger's. The page then says the day in one row.
constexpr std::size_t kMostMoments = 6;

struct Reader {
  const InspectedBatch& batch;
  const Inspected& site;
  measure::Printer print;
  const kinds::Kind& kind;

  const measure::Zone& zone() const { return site.site.zone; }
  bool heat(const model::RecordedReading& one) const {
    return one.quantity == kind.vocabulary.temperature;
  }
  std::string value(const model::RecordedReading& one) const {
    const kinds::Quantity* quantity = kinds::find_quantity(kind, one.quantity);
    if (quantity == nullptr) return measure::print_number(one.value, 3);
    return print(measure::Value{quantity->dimension, one.value}, quantity->shown_in);
  }
  // "core 148 °F", "moisture 55 %", "edge 32 °F (not judged: jump)".
  std::string words(const model::RecordedReading& one) const {
    std::string text = heat(one) && !one.position.empty()
                           ? one.position
                           : one.quantity + (one.position.empty() ? "" : " " + one.position);
    text += " " + value(one);
    if (!one.mark.empty()) text += " (not judged: " + one.mark + ")";
    return text;
  }
};

DocumentTable readings_data(const Reader& reader) {
  DocumentTable table{"readings",
                      "",
                      {{"at", "", "the moment, with the site's offset", Type::kMoment},
                       {"quantity", "", "what was read"},
                       {"position", "", "the probe position; empty: none said"},
                       {"value", "", "the value, in unit", Type::kNumber},
                       {"unit", "", "the unit of value"},
                       {"mark", "", "why it is not judged; empty: it is"},
                       {"recorded_by", "", "who recorded it"}},
                      {},
                      ""};
  for (const model::RecordedReading& one : reader.batch.recorded.readings) {
    const kinds::Quantity* quantity = kinds::find_quantity(reader.kind, one.quantity);
    const auto dimension = quantity == nullptr ? measure::Dimension::kNumber : quantity->dimension;
    table.rows.push_back({moment_cell(one.at, reader.zone()),
                          {one.quantity},
                          {one.position},
                          number_cell(one.value, reader.value(one)),
                          {std::string(measure::base_unit(dimension))},
                          {one.mark},
                          {one.who}});
  }
  return table;
}

using Readings = std::vector<const model::RecordedReading*>;

// "240 readings: core 118 °F to 131 °F".
std::string day_summary(const Readings& of, const Reader& reader) {
  std::map<std::string, std::pair<const model::RecordedReading*, const model::RecordedReading*>>
      ends;
  for (const model::RecordedReading* one : of) {
    auto& [least, greatest] = ends[one->quantity + " " + one->position];
    if (least == nullptr || one->value < least->value) least = one;
    if (greatest == nullptr || one->value > greatest->value) greatest = one;
  }
  std::string text = fmt::format("{} readings", of.size());
  const char* lead = ": ";
  for (const auto& [name, pair] : ends) {
    text += fmt::format("{}{} to {}", lead, reader.words(*pair.first), reader.value(*pair.second));
    lead = ", ";
  }
  return text;
}

// Every reading with its hour and its reader; of a day of a logger, one row.
DocumentTable readings_page(const Reader& reader) {
  DocumentTable table{
      "",
      "What was read",
      {{"day", "day", ""}, {"hour", "hour", ""}, {"read", "read", ""}, {"by", "by", ""}},
      {},
      "Nothing was read."};
  std::map<measure::Day, std::map<measure::Instant, Readings>> days;
  for (const model::RecordedReading& one : reader.batch.recorded.readings) {
    days[reader.zone().day_of(one.at)][one.at].push_back(&one);
  }
  for (const auto& [day, moments] : days) {
    const std::string shown = measure::iso_date(day);
    if (moments.size() > kMostMoments) {
      Readings all;
      for (const auto& [at, of] : moments) all.insert(all.end(), of.begin(), of.end());
      table.rows.push_back({{shown}, {""}, {day_summary(all, reader)}, {all.front()->who}});
      continue;
    }
    for (const auto& [at, of] : moments) {
      std::vector<std::string> parts;
      std::set<std::string> who;
      for (const model::RecordedReading* one : of) {
        parts.push_back(reader.words(*one));
        who.insert(one->who);
      }
      table.rows.push_back(
          {{shown},
           {date::format("%H:%M", reader.zone().local(at))},
           {measure::joined(parts, ", ")},
           {measure::joined(std::vector<std::string>(who.begin(), who.end()), ", ")}});
    }
  }
  return table;
}

DocumentTable words_table(const Reader& reader) {
  DocumentTable table{"done",
                      "What was done, judged and noted",
                      {{"at", "when", "the moment, with the site's offset", Type::kMoment},
                       {"sense", "", "what was judged by hand; empty: a deed or a note"},
                       {"what", "what", "the deed, the judgement or the note"},
                       {"is", "", "deed, judgement or note"},
                       {"recorded_by", "recorded by", "who recorded it"}},
                      {},
                      "Nothing is recorded as done."};
  for (const model::RecordedWord& one : reader.batch.recorded.words) {
    const std::string shown = one.note            ? "“" + one.text + "”"
                              : one.sense.empty() ? one.text
                                                  : one.sense + ": " + one.text;
    table.rows.push_back({moment_cell(one.at, reader.zone()),
                          {one.sense},
                          {shown, std::nullopt, one.text},
                          {one.note            ? "note"
                           : one.sense.empty() ? "deed"
                                               : "judgement"},
                          {one.who}});
  }
  return table;
}

// The days without the reading that its kind lives by, in rows of days that follow each other.
DocumentTable gaps_table(const Reader& reader) {
  const model::History& history = *reader.batch.history;
  const std::string_view asked = !reader.kind.vocabulary.temperature.empty()
                                     ? reader.kind.vocabulary.temperature
                                     : reader.kind.vocabulary.rhythm;
  DocumentTable table{"gaps",
                      fmt::format("Days without a reading of its {}", asked),
                      {{"from", "from", "the first day of the gap", Type::kDay},
                       {"to", "to", "its last day", Type::kDay},
                       {"days", "days", "how many", Type::kWhole}},
                      {},
                      "Every day has one."};
  std::set<measure::Day> read;
  for (const model::Series* series : history.all(asked)) {
    for (const model::DayRoll& roll : series->days) read.insert(roll.day);
  }
  const measure::Day last = history.batch.ended_day.value_or(history.today);
  std::optional<measure::Day> begun;
  for (measure::Day day = history.batch.started_day; day <= last + date::days{1};
       day += date::days{1}) {
    const bool gap = day <= last && !read.contains(day);
    if (gap && !begun) begun = day;
    if (gap || !begun) continue;
    const int days = (day - *begun).count();
    table.rows.push_back(
        {day_cell(*begun), day_cell(day - date::days{1}), number_cell(days, std::to_string(days))});
    begun.reset();
  }
  return table;
}

DocumentTable changes_table(const Reader& reader) {
  DocumentTable table{"corrections",
                      "Corrections",
                      {{"at", "recorded", "when it was corrected", Type::kMoment},
                       {"what", "what", "what it was and what it became"},
                       {"line", "", "the line as typed"},
                       {"by", "by", "who corrected it"}},
                      {},
                      "Nothing was corrected or taken back."};
  for (const model::RecordedChange& one : reader.batch.changes) {
    table.rows.push_back({moment_cell(one.at, reader.zone()), {one.what}, {one.line}, {one.who}});
  }
  return table;
}

struct GroundLoad {
  std::string ground, material;
  measure::Day day;
  std::optional<measure::Kilograms> part;
};

// When its contents first came to each ground, by whatever batches lay between.
std::vector<GroundLoad> grounds_reached(const Reader& reader) {
  std::vector<GroundLoad> all;
  const Trace down = trace(reader.batch.label, Direction::kDown, reader.site.movements);
  for (const TraceBatch& batch : down.batches) {
    for (const TraceStep& step : batch.steps) {
      const bool ground = kinds::has_role(step.to_kind, &kinds::Roles::ground) &&
                          !kinds::has_role(step.from_kind, &kinds::Roles::ground);
      if (ground) all.push_back({step.to, step.material, step.first, step.part});
    }
  }
  std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
    return std::tie(a.day, a.ground) < std::tie(b.day, b.ground);
  });
  return all;
}

DocumentTable harvests_table(const Reader& reader) {
  DocumentTable table{"harvests-after",
                      "Harvests that followed on the ground it went to, this crop and later ones",
                      {{"ground", "ground", "the bed"},
                       {"load_day", "got it", "when its contents first came there", Type::kDay},
                       {"load", "as", "as what it came"},
                       {"crop", "harvest", "what was harvested"},
                       {"first_day", "first", "the first harvest from then on", Type::kDay},
                       {"days_between", "days after", "days from the load to it", Type::kWhole},
                       {"last_day", "last", "the latest harvest", Type::kDay},
                       {"mass_kg", "weight", "what is known of its mass", Type::kNumber}},
                      {},
                      "None of it is recorded as having gone to ground that was harvested."};
  for (const GroundLoad& load : grounds_reached(reader)) {
    std::map<std::string, std::vector<const model::Movement*>> crops;
    for (const model::Movement* one : harvests_after(load.ground, load.day, reader.site)) {
      crops[one->material.name].push_back(one);
    }
    for (const auto& [crop, of] : crops) {
      measure::Kilograms mass;
      bool any = false;
      for (const model::Movement* one : of) {
        if (const auto known = one->mass()) {
          mass += *known;
          any = true;
        }
      }
      const int days = (of.front()->day - load.day).count();
      table.rows.push_back({{load.ground},
                            day_cell(load.day),
                            {load.material},
                            {crop},
                            day_cell(of.front()->day),
                            number_cell(days, std::to_string(days)),
                            day_cell(of.back()->day),
                            any ? number_cell(mass.value, reader.print(mass)) : DocumentCell{}});
    }
  }
  return table;
}

DocumentPart first_part(const Reader& reader) {
  const model::History& history = *reader.batch.history;
  const model::Batch& batch = history.batch;
  DocumentPart part;
  part.title = fmt::format("{}, {}", reader.batch.label, kinds::one_of(reader.kind));
  part.facts.emplace_back("begun", measure::iso_date(batch.started_day));
  part.facts.emplace_back(batch.ended_day ? "ended" : "open, as of",
                          measure::iso_date(batch.ended_day.value_or(history.today)) +
                              (batch.because.empty() ? "" : " (" + batch.because + ")"));
  if (!batch.place.empty()) part.facts.emplace_back("place", batch.place);
  for (const model::Setting& one : batch.settings) part.facts.emplace_back(one.key, one.typed);
  const auto record =
      kinds::study(history, *reader.batch.rules)->record(kinds::RecordOf::kTreatment);
  if (!record) return part;
  part.says = record->outcome;
  for (const model::Record::Fact& one : record->facts) {
    const bool said = std::any_of(part.facts.begin(), part.facts.end(),
                                  [&](const auto& other) { return other.first == one.name; });
    const bool of_head = one.name == batch.kind || one.name == "as of" || one.name == "ended";
    if (!said && !of_head) part.facts.emplace_back(one.name, one.value);
  }
  return part;
}

}  // namespace

std::vector<DocumentPart> batch_parts(const InspectedBatch& batch, const Inspected& site) {
  const Reader reader{batch, site, measure::Printer(site.units),
                      *kinds::find_kind(batch.history->batch.kind)};
  std::vector<DocumentPart> parts;
  DocumentPart first = first_part(reader);
  first.new_page = true;
  parts.push_back(std::move(first));
  DocumentTable in = loads_in(batch.history->in, site);
  DocumentTable out = loads_out(batch.history->out, site);
  parts.push_back({"Inputs", {}, {}, {std::move(in)}, false});
  DocumentPart read{"Readings and deeds", {}, {}, {}, false};
  read.tables.push_back(readings_page(reader));
  read.tables.push_back(readings_data(reader));
  const bool rhythmic =
      !reader.kind.vocabulary.temperature.empty() || !reader.kind.vocabulary.rhythm.empty();
  if (rhythmic) read.tables.push_back(gaps_table(reader));
  read.tables.push_back(words_table(reader));
  parts.push_back(std::move(read));
  parts.push_back(
      {"Outputs and harvests", {}, {}, {std::move(out), harvests_table(reader)}, false});
  parts.push_back(
      {"Corrections and tools", {}, {}, {changes_table(reader), tools_table(site)}, false});
  return parts;
}

Document batch_record(const InspectedBatch& batch, const Inspected& site) {
  const model::Batch& of = batch.history->batch;
  Document made;
  made.site = site.site.name;
  made.title = "Record of " + batch.label;
  made.span = measure::full_day_words(of.started_day) + " to " +
              measure::full_day_words(of.ended_day.value_or(batch.history->today));
  made.made = made_words(site);
  made.key = batch.label;
  std::replace(made.key.begin(), made.key.end(), '/', '-');
  made.parts = batch_parts(batch, site);
  made.parts.front().new_page = false;
  return made;
}

}  // namespace season
