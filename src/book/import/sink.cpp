#include "book/import/sink.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "book/read/query.h"
#include "book/read/rolls.h"

namespace book {
namespace {

// Rows that wait to be sorted: 10 MB of them.
constexpr std::size_t kMostBuffered = 400'000;
// Rows looked up, and written, at a time. Many rows a statement is worth a factor of two, as long
// as they stand in the order of the key.
constexpr std::size_t kRowsAtOnce = 100;

// "INSERT INTO reading (series, at, value, entry) VALUES (?1,?3,?4,?2),(?1,?,?,?2),...": a bare "?"
// is the parameter after the greatest so far.
constexpr std::string_view kInsertHead = "INSERT INTO reading (series, at, value, entry) VALUES ";
constexpr std::string_view kFirstRow = "(?1,?3,?4,?2)";
constexpr std::string_view kNextRow = ",(?1,?,?,?2)";
constexpr auto kInsertMany = [] {
  std::array<char, kInsertHead.size() + kFirstRow.size() + (kRowsAtOnce - 1) * kNextRow.size() + 1>
      text{};
  std::size_t at = 0;
  for (const char c : kInsertHead) text[at++] = c;
  for (const char c : kFirstRow) text[at++] = c;
  for (std::size_t i = 1; i < kRowsAtOnce; ++i) {
    for (const char c : kNextRow) text[at++] = c;
  }
  return text;
}();

// The same number in another unit differs in its last bits.
bool same_value(double a, double b) {
  return std::fabs(a - b) <= 1e-6 * std::max(1.0, std::fabs(a));
}

measure::Instant instant(std::int64_t at) {
  return measure::Instant{std::chrono::seconds{at}};
}

}  // namespace

// Every series and the entry exist: they were looked up once, and need not be for each row.
ImportSink::Settings::Settings(Logbook& book) : logbook(book) {
  logbook.connection().database.exec("PRAGMA foreign_keys = OFF");
  logbook.connection().database.exec("PRAGMA cache_size = -8000");
}
ImportSink::Settings::~Settings() {
  logbook.connection().database.tryExec("PRAGMA foreign_keys = ON");
}

ImportSink::ImportSink(Logbook& logbook, const Typed& typed, const std::vector<Target>& targets,
                       std::function<void(const Conflict&)> on_conflict)
    : settings_(logbook),
      logbook_(logbook),
      pen_(logbook, typed, Pen::Covers::kEntry),
      targets_(targets),
      on_conflict_(std::move(on_conflict)) {}

void ImportSink::make_places() {
  while (places_.size() < targets_.size()) {
    const auto target = static_cast<std::uint32_t>(places_.size());
    std::vector<Place>& runs = places_.emplace_back();
    for (std::uint32_t run = 0; run < targets_[target].runs.size(); ++run) {
      runs.push_back({target, run, 0, {}, 0, 0, 0});
    }
  }
}

ImportSink::~ImportSink() = default;

void ImportSink::add(const RowReading& reading, std::int64_t at, std::uint64_t line) {
  if (reading.target >= places_.size()) make_places();
  places_[reading.target][reading.run].rows.push_back({at, reading.value, line});
  if (++buffered_ >= kMostBuffered) flush();
}

void ImportSink::flush() {
  for (std::vector<Place>& runs : places_) {
    for (Place& place : runs) {
      if (!place.rows.empty()) flush(place);
    }
  }
  buffered_ = 0;
}

void ImportSink::look_up(Place& place) {
  const Target& target = targets_[place.target];
  place.series = pen_.series(target.runs[place.run].batch, target.quantity, target.position);
}

// What stands before a moment, as far as the rule of the marks wants to know.
Marker ImportSink::marker_for(const Place& place, std::int64_t before) const {
  const Target& target = targets_[place.target];
  Marker marker(target.least, target.greatest, target.hourly_change, target.stands_still);
  const auto latest = latest_two(logbook_, place.series, instant(before - 1));
  marker.begin(
      latest.empty() ? std::nullopt : std::optional(latest[0].at.time_since_epoch().count()),
      latest.empty() ? 0 : latest[0].value);
  Query row(logbook_, "SELECT at, value FROM reading WHERE series = ? AND at < ? ORDER BY at DESC",
            place.series, before);
  while (row.next() && marker.seed_run(row.integer(0), row.real(1))) {
  }
  return marker;
}

void ImportSink::flush(Place& place) {
  const auto earlier = [](const Row& a, const Row& b) { return a.at < b.at; };
  std::vector<Row>& rows = place.rows;
  if (!std::is_sorted(rows.begin(), rows.end(), earlier)) {
    std::stable_sort(rows.begin(), rows.end(), earlier);
  }
  if (place.series == 0) look_up(place);
  Marker marker = marker_for(place, rows.front().at);
  std::vector<Row> unmarked, standing;
  std::optional<Row> before;
  for (std::size_t from = 0; from < rows.size(); from += kRowsAtOnce) {
    const std::size_t until = std::min(from + kRowsAtOnce, rows.size());
    standing.clear();
    {
      Query row(logbook_,
                "SELECT at, value FROM reading WHERE series = ? AND at BETWEEN ? AND ? ORDER BY at",
                place.series, rows[from].at, rows[until - 1].at);
      while (row.next()) standing.push_back({row.integer(0), row.real(1), 0});
    }
    auto other = standing.begin();
    for (std::size_t i = from; i < until; ++i) {
      const Row& row = rows[i];
      while (other != standing.end() && other->at < row.at) ++other;
      const bool in_book = other != standing.end() && other->at == row.at;
      const bool in_file = before && before->at == row.at;
      if (in_book || in_file) {
        const double there = in_book ? other->value : before->value;
        if (same_value(there, row.value)) {
          ++already_;
        } else {
          on_conflict_({row.line, place.target, row.at, there, row.value});
        }
        if (in_book && !in_file) marker.judge(row.at, there);
        before = Row{row.at, there, row.line};
        continue;
      }
      before = row;
      const Mark mark = marker.judge(row.at, row.value);
      if (mark == Mark::kNone) {
        unmarked.push_back(row);
      } else {
        note_marked(place, row, mark);
      }
    }
    if (unmarked.size() >= kMostBuffered / 8 || until == rows.size()) {
      write(place, unmarked);
      roll(place, unmarked);
      unmarked.clear();
    }
  }
  rows.clear();
}

void ImportSink::write(Place& place, const std::vector<Row>& unmarked) {
  std::size_t at = 0;
  for (; at + kRowsAtOnce <= unmarked.size(); at += kRowsAtOnce) {
    Query insert(logbook_, Sql(kInsertMany.data()), Query::kBindLater);
    insert.set(1, place.series);
    insert.set(2, pen_.entry());
    int parameter = 3;
    for (std::size_t i = at; i < at + kRowsAtOnce; ++i) {
      insert.set(parameter++, unmarked[i].at);
      insert.set(parameter++, unmarked[i].value);
    }
    insert.run();
  }
  for (; at < unmarked.size(); ++at) {
    Query(logbook_, "INSERT INTO reading (series, at, value, entry) VALUES (?, ?, ?, ?)",
          place.series, unmarked[at].at, unmarked[at].value, pen_.entry())
        .run();
  }
  if (unmarked.empty()) return;
  place.first_at =
      place.count == 0 ? unmarked.front().at : std::min(place.first_at, unmarked.front().at);
  place.last_at = std::max(place.last_at, unmarked.back().at);
  place.count += static_cast<std::int64_t>(unmarked.size());
  recorded_ += unmarked.size();
}

// The rows are in order, so that each day is rolled up in memory and written once.
void ImportSink::roll(Place& place, const std::vector<Row>& unmarked) {
  std::optional<model::DayRoll> roll;
  std::int64_t day_ends = 0;
  for (const Row& row : unmarked) {
    if (!roll || row.at >= day_ends) {
      if (roll) roll_in(logbook_, place.series, *roll);
      const measure::Zone& zone = logbook_.site().zone;
      const measure::Day day = zone.day_of(instant(row.at));
      day_ends = zone.start_of(day + date::days{1}).time_since_epoch().count();
      roll = model::DayRoll{day};
    }
    roll->add(instant(row.at), row.value);
  }
  if (roll) roll_in(logbook_, place.series, *roll);
}

void ImportSink::note_marked(Place& place, const Row& row, Mark mark) {
  Query(logbook_, "INSERT INTO reading (series, at, value, entry, mark) VALUES (?, ?, ?, ?, ?)",
        place.series, row.at, row.value, pen_.entry(), word(mark))
      .run();
  mark_in(logbook_, place.series,
          {logbook_.site().zone.day_of(instant(row.at)), std::string(word(mark)), 1, row.value,
           row.value, instant(row.at), instant(row.at)});
  place.first_at = place.count == 0 ? row.at : std::min(place.first_at, row.at);
  place.last_at = std::max(place.last_at, row.at);
  ++place.count;
  ++recorded_;
  ++marked_;
}

void ImportSink::keep_spans() {
  for (const std::vector<Place>& runs : places_) {
    for (const Place& place : runs) {
      if (place.count == 0) continue;
      const Target& target = targets_[place.target];
      Query(
          logbook_,
          "INSERT INTO import_span (entry, series, batch_uid, quantity, position, first_at,"
          " last_at, n) VALUES (?1, ?2, (SELECT uid FROM batch WHERE id = ?3), ?4, ?5, ?6, ?7, ?8)",
          pen_.entry(), place.series, target.runs[place.run].batch, target.quantity,
          target.position, place.first_at, place.last_at, place.count)
          .run();
    }
  }
}

void ImportSink::commit() {
  flush();
  keep_spans();
  pen_.commit();
}

}  // namespace book
