#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "book/file/logbook.h"
#include "book/keep/seal.h"

namespace book {

// Who writes, and what they typed.
struct Typed {
  std::string who;
  std::string command;
  std::string line;
  measure::Instant now;
};

struct NewBatch {
  std::string code, kind;
  std::optional<std::string> place;  // one of the site's
  measure::Instant at;
  std::vector<model::Setting> settings;
};

struct NewMovement {
  measure::Instant at;
  std::string material;                  // its own name, no alias
  std::optional<std::int64_t> from, to;  // batch ids; one of them at least
  measure::Value amount;                 // a mass, a volume, a count or an energy; above zero
  std::string typed;
  std::optional<std::string> purpose;
  std::optional<std::int64_t> paid_cents, sold_cents;
  std::optional<std::string> supplier = {}, lot = {}, buyer = {};
  bool sure = false;
};

// A picture that goes with an entry.
struct NewPhoto {
  std::string name;    // the file's own
  std::string sha256;  // of its bytes
  std::string kept;    // its name in the folder of photos; empty: not copied
};

struct NewReading {
  std::int64_t batch;
  std::string quantity, position;
  measure::Instant at;
  double value;  // base unit
  bool sure = false;
};

// The only way to write: one transaction that records one entry (or several), whole or not at all.
// Other writers wait for it; it waits for them (some seconds, then BookError). Nothing is kept
// unless commit() was called.
class Pen {
 public:
  // `covers`: what the entry's seal is of (book/keep/seal.h); an import's is of the entry alone.
  enum class Covers { kRows, kEntry };
  Pen(Logbook& logbook, const Typed& typed, Covers covers = Covers::kRows);
  // For several entries that are kept together or not at all, each begun with begin().
  explicit Pen(Logbook& logbook);
  ~Pen();
  Pen(const Pen&) = delete;
  Pen& operator=(const Pen&) = delete;

  std::int64_t entry() const { return entry_; }
  void commit();

  // Only of a pen for several: what is written from here on is of a new entry; and the entry begun
  // last, with all that it wrote, is dropped again.
  void begin(const Typed& typed);
  void drop();

  std::int64_t start_batch(const NewBatch& batch);
  void end_batch(std::int64_t batch, measure::Instant at,
                 const std::optional<std::string>& because);

  // What stands at that instant already: none, and it was recorded; the same value, and nothing was
  // done; or another value, which was left as it is.
  struct Standing {
    double value;
    bool same;
  };
  std::optional<Standing> add_reading(const NewReading& reading);

  // The series of a batch's quantity at a position, made where there is none.
  std::int64_t series(std::int64_t batch, std::string_view quantity, std::string_view position);

  // An empty sense: a deed; else a judgement by hand.
  void add_word(std::int64_t batch, measure::Instant at, std::string_view sense,
                std::string_view word);
  void add_note(std::int64_t batch, measure::Instant at, std::string_view text);
  void add_movement(const NewMovement& movement);
  void add_photo(const NewPhoto& photo);

  void set_material(const model::Material& material);
  void set_figure(const std::string& material, const model::Figure& figure);
  void set_container(const std::string& name, measure::Litres content, const std::string& typed);
  // Of one of the site's tools: what it was compared with on that day, and how it read.
  void check_tool(const std::string& name, measure::Day day, const std::string& against);
  // Puts a place at `position` (1 the first) of the walk; none: at its end. Others move along.
  void set_place(const std::string& name, std::optional<int> position);
  // batch 0: for the whole kind.
  void set_rule(const std::string& key, std::int64_t batch, double value, const std::string& typed);
  // Back to the default. False: the site had not changed it.
  bool clear_rule(const std::string& key, std::int64_t batch);
  // What the batch wants by that rule (empty: by any) is not asked for until that day.
  void put_off(std::int64_t batch, const std::string& rule, measure::Day until);

 private:
  void write_entry(const Typed& typed, Covers covers);
  void seal();

  Logbook& logbook_;
  std::int64_t entry_{};
  std::optional<Witness> witness_;
  bool open_ = false;
  bool begun_ = false;  // a savepoint stands before the entry
};

}  // namespace book
