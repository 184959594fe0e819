#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "book/file/logbook.h"
#include "measure/amount.h"
#include "model/history.h"
#include "model/rules.h"

// What a logbook holds, as plain values. Every function here throws BookError where the file cannot
// be read, and changes nothing.
namespace book {

// Counts up with every row that this program writes through the logbook, but for those that only
// say that an entry was begun: as long as it stands, what was read of batches before still holds.
std::int64_t changes(const Logbook& logbook);

// Which of the batches that bear a code is meant: "bin-a" the open one, else the latest; "bin-a/1"
// the first. None: there is no such batch.
std::optional<model::Batch> find_batch(const Logbook& logbook, std::string_view label);

// All batches, in the order in which the site walks: by place, then as they were started.
std::vector<model::Batch> all_batches(const Logbook& logbook);
// The kinds of its batches, as the file has them: they may be of another version.
std::vector<std::string> kinds_in_use(const Logbook& logbook);

// The batches of a kind that had ended by `until`, the latest first, `most` at the most.
std::vector<model::Batch> ended_batches(const Logbook& logbook, std::string_view kind,
                                        measure::Instant until, std::size_t most);

// Another batch of that code whose life overlaps that of `batch`, as given; none where none does.
// That one ends at the moment the next begins is no overlap.
std::optional<model::Batch> overlapping(const Logbook& logbook, const model::Batch& batch);

// The label by which people know a batch: its code, with "/run" where a later batch has the code.
std::string label_of(const Logbook& logbook, const model::Batch& batch);

// The catalogue with the site's own materials and figures over it, by name. It is read when it is
// first asked for (most lines typed name no material), so the logbook must outlive it.
class Materials {
 public:
  explicit Materials(const Logbook& logbook) : logbook_(&logbook) {}
  explicit Materials(std::vector<model::Material> materials) : all_(std::move(materials)) {}

  const std::vector<model::Material>& all() const;
  // By name or alias, singular or plural; case does not count, and a hyphen may stand for a space
  // (no quotes to type). Null where none is called so.
  const model::Material* find(std::string_view name) const;
  std::optional<std::string> nearest(std::string_view name) const;
  // The material of that very name; where the logbook has one that this version does not know, a
  // bare one.
  model::Material named(const std::string& name) const;

 private:
  const Logbook* logbook_ = nullptr;
  mutable std::optional<std::vector<model::Material>> all_;
  mutable std::map<std::string, std::size_t> by_name_;  // where in all_; made when first asked
};

// All that is known of a batch up to `now`; what was recorded of later moments is left out.
model::History history(const Logbook& logbook, const Materials& materials,
                       const model::Batch& batch, measure::Instant now);

// Every movement up to `until` that happened from `since` on, oldest first.
std::vector<model::Movement> movements(const Logbook& logbook, const Materials& materials,
                                       measure::Instant since, measure::Instant until);

// Of these, what went into one batch up to `until`.
std::vector<model::Movement> loads_into(const Logbook& logbook, const Materials& materials,
                                        const model::Batch& batch, measure::Instant until);

// Names of the materials that went into any batch up to `until`.
std::set<std::string> materials_used(const Logbook& logbook, measure::Instant until);

// Every reading of a series from `since` to `until` that is not marked as wrong, oldest first.
std::vector<model::Reading> readings(const Logbook& logbook, const model::Batch& batch,
                                     std::string_view quantity, std::string_view position,
                                     measure::Instant since, measure::Instant until);

std::vector<measure::Container> containers(const Logbook& logbook);
std::vector<std::string> places(const Logbook& logbook);

struct SiteRule {
  std::string key;
  std::string batch;  // label; empty: for the whole kind
  double value;
  std::string typed;
};
std::vector<SiteRule> site_rules(const Logbook& logbook);

// What was put off, and until which day, by the entries up to a moment; also what has come back
// since.
struct PutOff {
  std::string batch;  // code of an open batch
  std::string rule;   // empty: whatever it wants
  measure::Day until;
};
std::vector<PutOff> put_offs(const Logbook& logbook, measure::Instant at);

// The rules in force for a batch: the site's for its kind, and over them the batch's own.
model::Rules rules(const Logbook& logbook, const model::Batch& batch);

// All entries, the taken back and the undos too.
int count_entries(const Logbook& logbook);

// The last entry that was not taken back, for "what would undo take back?".
struct EntrySummary {
  std::int64_t id;
  measure::Instant recorded_at;
  std::string who, command, line;
};
std::optional<EntrySummary> last_entry(const Logbook& logbook);

// What is marked of a series, and so left out of all that is judged: how much, between which values
// and moments. By quantity, position and mark.
struct Marked {
  std::string quantity, position, mark;
  std::int64_t count;
  double least, greatest;  // base unit
  measure::Instant first_at, last_at;
};
// Those up to `now`.
std::vector<Marked> marked_readings(const Logbook& logbook, const model::Batch& batch,
                                    measure::Instant now);

// The latest unmarked reading of a series at or before `at`; none where there is none.
std::optional<model::Reading> reading_before(const Logbook& logbook, const model::Batch& batch,
                                             std::string_view quantity, std::string_view position,
                                             measure::Instant at);

// How much of a material (in one dimension's base unit) is in a batch: all that came in less all
// that went out.
double held(const Logbook& logbook, const model::Batch& batch, const std::string& material,
            measure::Dimension dimension);

// The instant of the earliest thing recorded of a batch, its start aside; none where nothing was.
std::optional<measure::Instant> first_of(const Logbook& logbook, const model::Batch& batch);

// The instant of the latest thing recorded of a batch; none where nothing was.
std::optional<measure::Instant> latest_of(const Logbook& logbook, const model::Batch& batch);

}  // namespace book
