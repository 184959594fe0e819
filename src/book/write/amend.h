#pragma once

#include <optional>
#include <string>
#include <vector>

#include "book/read/read.h"
#include "book/write/pen.h"

// Correcting what an entry recorded. The row is changed in place, the journal keeps what it was,
// and the rolls follow at once; the amending entry can be taken back like any other.
namespace book {

// What one entry recorded and what of it still stands, corrected or not.
struct Written {
  EntrySummary entry;
  std::string command;  // what recorded it first: where the entry is a correction, of what
  std::optional<std::int64_t> undone_by;

  struct Reading {
    std::int64_t entry, series, batch;  // the entry under which it stands now
    std::string quantity, position;
    measure::Instant at;
    double value;
    bool sure;
  };
  struct Word {
    std::int64_t id, batch;
    measure::Instant at;
    std::string sense, word;
  };
  struct Note {
    std::int64_t id, batch;
    measure::Instant at;
    std::string text;
  };
  struct Movement {
    std::int64_t id;
    NewMovement what;
  };
  std::vector<Reading> readings;
  std::vector<Word> words;
  std::vector<Note> notes;
  std::vector<Movement> movements;
  std::optional<std::int64_t> started;  // the batch that it began, or whose start it corrected
  std::optional<std::int64_t> ended;    // the batch that it closed, or whose end it corrected
};

// The entry of that number; none where there is none.
std::optional<Written> written_by(const Logbook& logbook, std::int64_t entry);

// The batch of that id; none where there is none.
std::optional<model::Batch> batch_of_id(const Logbook& logbook, std::int64_t id);

// Another reading that stands at the new place already leaves both as they are and is returned.
std::optional<Pen::Standing> amend(Logbook& logbook, Pen& pen, const Written::Reading& was,
                                   const NewReading& is);
void amend(Logbook& logbook, Pen& pen, const Written::Word& is);
void amend(Logbook& logbook, Pen& pen, const Written::Note& is);
void amend(Logbook& logbook, Pen& pen, const Written::Movement& is);
void amend_start(Logbook& logbook, Pen& pen, std::int64_t batch, measure::Instant at);
// A fact told of the batch, told otherwise, or for the first time.
void amend_setting(Logbook& logbook, Pen& pen, std::int64_t batch, const model::Setting& setting);
void amend_end(Logbook& logbook, Pen& pen, std::int64_t batch, measure::Instant at,
               const std::optional<std::string>& because);

}  // namespace book
