#include "book/write/pen.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "book/read/query.h"
#include "book/read/read.h"
#include "book/read/rolls.h"
#include "measure/text.h"

namespace book {
namespace {

// Entries are ordered by their uid: 12 hexadecimal digits of a time that never goes back (the
// clock's in 1/4096 s, or one more than the latest entry's where the clock jumped back or stands),
// then 20 random ones. So two copies that are merged agree on which correction is the newest.
std::string next_entry_uid(const Logbook& logbook, measure::Instant now) {
  constexpr std::int64_t kTicks = 4096;
  std::int64_t time = now.time_since_epoch().count() * kTicks;
  Query latest(logbook, "SELECT max(uid) FROM entry");
  if (latest.next() && !latest.null(0)) {
    std::int64_t before{};
    const std::string digits = latest.text(0).substr(0, 12);
    std::from_chars(digits.data(), digits.data() + digits.size(), before, 16);
    time = std::max(time, before + 1);
  }
  Query random(logbook, "SELECT lower(hex(randomblob(10)))");
  random.next();
  return fmt::format("{:012x}{}", time, random.text(0));
}

}  // namespace

Pen::Pen(Logbook& logbook) : logbook_(logbook) {
  Query(logbook_, "BEGIN IMMEDIATE").run();
  open_ = true;
}

Pen::Pen(Logbook& logbook, const Typed& typed, Covers covers) : Pen(logbook) {
  write_entry(typed, covers);  // where it fails, the destructor rolls back: the pen is made already
}

void Pen::write_entry(const Typed& typed, Covers covers) {
  const std::int64_t before = logbook_.connection().database.getTotalChanges();
  Query insert(logbook_,
               "INSERT INTO entry (uid, recorded_at, who, command, line)"
               " VALUES (?, ?, ?, ?, ?) RETURNING id",
               next_entry_uid(logbook_, typed.now), typed.now, typed.who, typed.command,
               typed.line);
  insert.next();
  entry_ = insert.integer(0);
  insert.run();
  Query(logbook_, "UPDATE pen SET entry = ?", entry_).run();
  logbook_.connection().entry_rows += logbook_.connection().database.getTotalChanges() - before;
  witness_.emplace(logbook_.connection().database, entry_, covers == Covers::kRows);
}

void Pen::seal() {
  if (!witness_) return;  // the entry begun last was dropped
  try {
    witness_->seal();
  } catch (const SQLite::Exception& error) {
    fail(logbook_.path(), error);
  }
  witness_.reset();
}

void Pen::begin(const Typed& typed) {
  if (begun_) {
    seal();
    Query(logbook_, "RELEASE begun").run();
  }
  Query(logbook_, "SAVEPOINT begun").run();
  begun_ = true;
  write_entry(typed, Covers::kRows);
}

void Pen::drop() {
  witness_.reset();
  Query(logbook_, "ROLLBACK TO begun").run();
  Query(logbook_, "RELEASE begun").run();
  begun_ = false;
}

// An abandoned entry leaves nothing; that a ROLLBACK after a failed write has itself nothing to
// roll back is no news.
Pen::~Pen() {
  if (open_) logbook_.connection().database.tryExec("ROLLBACK");
}

void Pen::commit() {
  seal();
  if (begun_) Query(logbook_, "RELEASE begun").run();
  Query(logbook_, "UPDATE pen SET entry = NULL").run();
  Query(logbook_, "COMMIT").run();
  open_ = false;
  logbook_.connection().recorded = true;
}

std::int64_t Pen::start_batch(const NewBatch& batch) {
  std::int64_t id{};
  {
    Query insert(logbook_,
                 // An id is never used again: the journal speaks of rows by it.
                 "INSERT INTO batch (id, uid, code, run, kind, place, started_at, started_day,"
                 " entry) VALUES (1 + max((SELECT coalesce(max(id), 0) FROM batch),"
                 " (SELECT coalesce(max(before ->> 'id'), 0) FROM journal"
                 " WHERE table_name = 'batch')), lower(hex(randomblob(16))), ?1,"
                 " (SELECT coalesce(max(run), 0) + 1 FROM batch WHERE code = ?1), ?2,"
                 " (SELECT id FROM place WHERE name = ?3), ?4, ?5, ?6) RETURNING id",
                 batch.code, batch.kind, batch.place, batch.at,
                 logbook_.site().zone.day_of(batch.at), entry_);
    insert.next();
    id = insert.integer(0);
    insert.run();
  }
  for (const model::Setting& setting : batch.settings) {
    std::optional<double> value;
    std::optional<std::string> dimension;
    if (setting.value) {
      value = setting.value->si;
      dimension = std::string(measure::key(setting.value->dimension));
    }
    Query(logbook_,
          "INSERT INTO setting (batch, key, typed, value, dimension, entry)"
          " VALUES (?, ?, ?, ?, ?, ?)",
          id, setting.key, setting.typed, value, dimension, entry_)
        .run();
  }
  return id;
}

void Pen::end_batch(std::int64_t batch, measure::Instant at,
                    const std::optional<std::string>& because) {
  Query(logbook_,
        "UPDATE batch SET ended_at = ?, ended_day = ?, because = ?, entry = ? WHERE id = ?", at,
        logbook_.site().zone.day_of(at), because, entry_, batch)
      .run();
}

std::int64_t Pen::series(std::int64_t batch, std::string_view quantity, std::string_view position) {
  {
    Query row(logbook_, "SELECT id FROM series WHERE batch = ? AND quantity = ? AND position = ?",
              batch, quantity, position);
    if (row.next()) return row.integer(0);
  }
  Query insert(logbook_,
               "INSERT INTO series (id, uid, batch, quantity, position) VALUES ("
               "1 + max((SELECT coalesce(max(id), 0) FROM series),"
               " (SELECT coalesce(max(before ->> 'series'), 0) FROM journal"
               " WHERE table_name = 'reading')), lower(hex(randomblob(16))), ?, ?, ?) RETURNING id",
               batch, quantity, position);
  insert.next();
  const std::int64_t id = insert.integer(0);
  insert.run();
  return id;
}

std::optional<Pen::Standing> Pen::add_reading(const NewReading& reading) {
  const std::int64_t of = series(reading.batch, reading.quantity, reading.position);
  {
    Query standing(logbook_, "SELECT value FROM reading WHERE series = ? AND at = ?", of,
                   reading.at);
    if (standing.next()) {
      return Standing{standing.real(0), standing.real(0) == reading.value};
    }
  }
  Query(logbook_, "INSERT INTO reading (series, at, value, entry, sure) VALUES (?, ?, ?, ?, ?)", of,
        reading.at, reading.value, entry_, reading.sure ? 1 : 0)
      .run();
  note_typed(logbook_, entry_, of, reading.at);
  roll_in(logbook_, of, reading.at, reading.value);
  return std::nullopt;
}

void Pen::add_word(std::int64_t batch, measure::Instant at, std::string_view sense,
                   std::string_view word) {
  Query(logbook_,
        "INSERT INTO deed (uid, batch, at, day, sense, word, entry)"
        " VALUES (lower(hex(randomblob(16))), ?, ?, ?, ?, ?, ?)",
        batch, at, logbook_.site().zone.day_of(at), sense, word, entry_)
      .run();
}

void Pen::add_note(std::int64_t batch, measure::Instant at, std::string_view text) {
  Query(logbook_,
        "INSERT INTO note (uid, batch, at, day, text, entry)"
        " VALUES (lower(hex(randomblob(16))), ?, ?, ?, ?, ?)",
        batch, at, logbook_.site().zone.day_of(at), text, entry_)
      .run();
}

void Pen::add_movement(const NewMovement& movement) {
  Query(logbook_,
        "INSERT INTO movement (uid, at, day, material, from_batch, to_batch, dimension, amount,"
        " typed, purpose, paid_cents, sold_cents, supplier, lot, buyer, sure, entry)"
        " VALUES (lower(hex(randomblob(16))), ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        movement.at, logbook_.site().zone.day_of(movement.at), movement.material, movement.from,
        movement.to, measure::key(movement.amount.dimension), movement.amount.si, movement.typed,
        movement.purpose, movement.paid_cents, movement.sold_cents, movement.supplier, movement.lot,
        movement.buyer, movement.sure ? 1 : 0, entry_)
      .run();
}

void Pen::add_photo(const NewPhoto& photo) {
  Query(logbook_,
        // An id is never used again: the journal speaks of rows by it.
        "INSERT INTO photo (id, uid, name, sha256, kept, entry) VALUES ("
        "1 + max((SELECT coalesce(max(id), 0) FROM photo),"
        " (SELECT coalesce(max(before ->> 'id'), 0) FROM journal WHERE table_name = 'photo')),"
        " lower(hex(randomblob(16))), ?, ?, ?, ?)",
        photo.name, photo.sha256, photo.kept, entry_)
      .run();
}

void Pen::set_material(const model::Material& material) {
  Query(logbook_,
        "INSERT INTO material (name, material_group, aliases, flags, statement, entry)"
        " VALUES (?, ?, ?, ?, ?, ?)"
        " ON CONFLICT (name) DO UPDATE SET material_group = excluded.material_group,"
        " aliases = excluded.aliases, flags = excluded.flags, statement = excluded.statement,"
        " entry = excluded.entry",
        material.name, material.group, measure::joined(material.aliases, ";"),
        measure::joined(material.flags, ";"), material.statement, entry_)
      .run();
}

void Pen::set_figure(const std::string& material, const model::Figure& figure) {
  Query(logbook_,
        "INSERT INTO figure (material, property, value, source, entry) VALUES (?, ?, ?, ?, ?)"
        " ON CONFLICT (material, property) DO UPDATE SET value = excluded.value,"
        " source = excluded.source, entry = excluded.entry",
        material, model::info(figure.property).key, figure.value, figure.source, entry_)
      .run();
}

void Pen::set_container(const std::string& name, measure::Litres content,
                        const std::string& typed) {
  Query(logbook_,
        "INSERT INTO container (name, litres, typed, entry) VALUES (?, ?, ?, ?)"
        " ON CONFLICT (name) DO UPDATE SET litres = excluded.litres, typed = excluded.typed,"
        " entry = excluded.entry",
        name, content.value, typed, entry_)
      .run();
}

void Pen::check_tool(const std::string& name, measure::Day day, const std::string& against) {
  Query(logbook_,
        "INSERT INTO tool (name, checked_day, against, entry) VALUES (?, ?, ?, ?)"
        " ON CONFLICT (name, checked_day) DO UPDATE SET against = excluded.against,"
        " entry = excluded.entry",
        name, day, against, entry_)
      .run();
}

void Pen::set_place(const std::string& name, std::optional<int> position) {
  std::vector<std::string> walk = places(logbook_);
  std::erase(walk, name);
  const auto last = static_cast<int>(walk.size());
  const int at = position ? std::min(std::max(*position - 1, 0), last) : last;
  walk.insert(walk.begin() + at, name);
  for (std::size_t i = 0; i < walk.size(); ++i) {
    Query(logbook_,
          "INSERT INTO place (uid, name, position, entry)"
          " VALUES (lower(hex(randomblob(16))), ?, ?, ?)"
          " ON CONFLICT (name) DO UPDATE SET position = excluded.position, entry = excluded.entry"
          " WHERE position <> excluded.position",
          walk[i], static_cast<std::int64_t>(i + 1), entry_)
        .run();
  }
}

void Pen::set_rule(const std::string& key, std::int64_t batch, double value,
                   const std::string& typed) {
  Query(logbook_,
        "INSERT INTO rule (key, batch, value, typed, entry) VALUES (?, ?, ?, ?, ?)"
        " ON CONFLICT (key, batch) DO UPDATE SET value = excluded.value, typed = excluded.typed,"
        " entry = excluded.entry",
        key, batch, value, typed, entry_)
      .run();
}

void Pen::put_off(std::int64_t batch, const std::string& rule, measure::Day until) {
  Query(logbook_,
        "INSERT INTO put_off (batch, rule, until, entry) VALUES (?, ?, ?, ?)"
        " ON CONFLICT (batch, rule) DO UPDATE SET until = excluded.until, entry = excluded.entry",
        batch, rule, until, entry_)
      .run();
}

bool Pen::clear_rule(const std::string& key, std::int64_t batch) {
  Query gone(logbook_, "DELETE FROM rule WHERE key = ? AND batch = ? RETURNING key", key, batch);
  const bool any = gone.next();
  gone.run();
  return any;
}

}  // namespace book
