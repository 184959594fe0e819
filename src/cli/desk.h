#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "book/read.h"
#include "cli/command.h"
#include "kinds/kind.h"
#include "measure/amount.h"
#include "measure/printer.h"
#include "measure/when.h"

// What most commands lay out before them: the open logbook, the moment, the units, the materials,
// and the batches with what is to be said of them.
namespace cli {

class Desk {
 public:
  // `now` is the moment of judging: the clock, or --as-of.
  static measure::Result<Desk> lay_out(const Context& context);

  const book::Logbook& logbook() const { return *logbook_; }
  const model::Site& site() const { return logbook_->site(); }
  measure::Instant now() const { return now_; }
  measure::Day today() const { return site().zone.day_of(now_); }
  const measure::Printer& print() const { return print_; }
  const book::Materials& materials() const { return materials_; }
  const std::vector<measure::Container>& containers() const { return containers_; }

  // The batch of that code, or a mistake that names the nearest.
  measure::Result<model::Batch> batch(std::string_view label) const;
  // The same, and it must be open at `at` and have started by then.
  measure::Result<model::Batch> open_batch(std::string_view label, measure::Instant at) const;
  // The open batches as of now, in walking order.
  std::vector<model::Batch> open_batches() const;

  // All that is known of a batch as of now, or as of another moment.
  model::History history(const model::Batch& batch) const { return history(batch, now_); }
  model::History history(const model::Batch& batch, measure::Instant at) const;
  model::Assessment assess(const model::History& history) const;

  // The kind of a batch. A logbook holds only kinds that this program knows.
  const kinds::Kind& kind(const model::Batch& batch) const;

 private:
  Desk(const book::Logbook& logbook, measure::Instant now, measure::UnitSystem units);

  const book::Logbook* logbook_;
  measure::Instant now_;
  measure::Printer print_;
  book::Materials materials_;
  std::vector<measure::Container> containers_;
};

// The --when of a command that records, or now; with a word for the answer where it was not plain.
struct Recorded {
  measure::Instant at;
  std::string remark;  // "the clock showed 01:30 twice that night; taken as the first"
};
measure::Result<Recorded> recorded_at(const Context& context, const Arguments& arguments,
                                      const model::Site& site);

// A nearest-match sentence: "there is no X 'word'; did you mean Y?", or with what is known.
measure::Mistake no_such(std::string_view what, std::string_view word,
                         const std::vector<std::string>& known);

}  // namespace cli
