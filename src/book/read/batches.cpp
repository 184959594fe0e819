#include <charconv>
#include <unordered_map>

#include "book/read/query.h"
#include "book/read/read.h"
#include "measure/text.h"

namespace book {
namespace {

model::Batch batch_row(const Query& row) {
  model::Batch batch;
  batch.id = row.integer(0);
  batch.code = row.text(1);
  batch.run = static_cast<int>(row.integer(2));
  batch.kind = row.text(3);
  batch.place = row.null(4) ? "" : row.text(4);
  batch.started = row.instant(5);
  batch.started_day = row.day(6);
  if (!row.null(7)) batch.ended = row.instant(7);
  if (!row.null(8)) batch.ended_day = row.day(8);
  batch.because = row.null(9) ? "" : row.text(9);
  return batch;
}

model::Setting setting_row(const Query& row) {
  model::Setting setting{row.text(0), row.text(1), std::nullopt};
  if (!row.null(2)) {
    const auto dimension = measure::find_dimension(row.text(3));
    setting.value = measure::Value{dimension.value_or(measure::Dimension::kNumber), row.real(2)};
  }
  return setting;
}

void read_settings(const Logbook& logbook, model::Batch& batch) {
  Query row(logbook,
            "SELECT key, typed, value, dimension FROM setting WHERE batch = ? ORDER BY key",
            batch.id);
  while (row.next()) batch.settings.push_back(setting_row(row));
}

// One query for all.
void read_settings(const Logbook& logbook, std::vector<model::Batch>& batches) {
  std::unordered_map<std::int64_t, model::Batch*> by_id;
  for (model::Batch& batch : batches) by_id.emplace(batch.id, &batch);
  Query row(logbook, "SELECT key, typed, value, dimension, batch FROM setting ORDER BY batch, key");
  while (row.next()) {
    const auto found = by_id.find(row.integer(4));
    if (found != by_id.end()) found->second->settings.push_back(setting_row(row));
  }
}

}  // namespace

std::optional<model::Batch> find_batch(const Logbook& logbook, std::string_view label) {
  const std::string wanted = measure::folded(label);
  const std::size_t slash = wanted.find('/');
  const std::string code = wanted.substr(0, slash);
  std::optional<std::int64_t> run;
  if (slash != std::string::npos) {
    std::int64_t number{};
    const char* const end = wanted.data() + wanted.size();
    const auto parsed = std::from_chars(wanted.data() + slash + 1, end, number);
    if (parsed.ec != std::errc{} || parsed.ptr != end) return std::nullopt;
    run = number;
  }
  std::optional<model::Batch> found;
  {
    Query row(logbook,
              "SELECT b.id, code, run, kind, p.name, started_at, started_day, ended_at, ended_day,"
              " because FROM batch AS b LEFT JOIN place AS p ON p.id = b.place"
              " WHERE code = ?1 AND run = coalesce(?2, run) ORDER BY run DESC LIMIT 1",
              code, run);
    if (row.next()) found = batch_row(row);
  }
  if (found) read_settings(logbook, *found);
  return found;
}

std::vector<std::string> kinds_in_use(const Logbook& logbook) {
  std::vector<std::string> kinds;
  Query row(logbook, "SELECT DISTINCT kind FROM batch ORDER BY kind");
  while (row.next()) kinds.push_back(row.text(0));
  return kinds;
}

std::vector<model::Batch> all_batches(const Logbook& logbook) {
  std::vector<model::Batch> batches;
  {
    Query row(logbook,
              "SELECT b.id, code, run, kind, p.name, started_at, started_day, ended_at, ended_day,"
              " because FROM batch AS b LEFT JOIN place AS p ON p.id = b.place"
              " ORDER BY p.position IS NULL, p.position, started_at, b.id");
    while (row.next()) batches.push_back(batch_row(row));
  }
  read_settings(logbook, batches);
  return batches;
}

std::vector<model::Batch> ended_batches(const Logbook& logbook, std::string_view kind,
                                        measure::Instant until, std::size_t most) {
  std::vector<model::Batch> batches;
  {
    Query row(logbook,
              "SELECT b.id, code, run, kind, p.name, started_at, started_day, ended_at, ended_day,"
              " because FROM batch AS b LEFT JOIN place AS p ON p.id = b.place"
              " WHERE kind = ? AND ended_at <= ?"
              " ORDER BY ended_at DESC, p.position IS NULL, p.position, started_at, b.id LIMIT ?",
              kind, until, static_cast<std::int64_t>(most));
    while (row.next()) batches.push_back(batch_row(row));
  }
  for (model::Batch& batch : batches) read_settings(logbook, batch);
  return batches;
}

std::optional<model::Batch> overlapping(const Logbook& logbook, const model::Batch& batch) {
  Query row(logbook,
            "SELECT b.id, code, run, kind, p.name, started_at, started_day, ended_at, ended_day,"
            " because FROM batch AS b LEFT JOIN place AS p ON p.id = b.place"
            " WHERE code = ?1 AND b.id <> ?2 AND (ended_at IS NULL OR ended_at > ?3)"
            " AND (?4 IS NULL OR started_at < ?4) ORDER BY run LIMIT 1",
            batch.code, batch.id, batch.started, batch.ended);
  return row.next() ? std::optional(batch_row(row)) : std::nullopt;
}

std::string label_of(const Logbook& logbook, const model::Batch& batch) {
  Query row(logbook, "SELECT max(run) FROM batch WHERE code = ?", batch.code);
  row.next();
  return model::label(batch, row.integer(0) == batch.run);
}

}  // namespace book
