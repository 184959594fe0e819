#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "book/read/read.h"
#include "cli/desk/studied.h"
#include "cli/shell/command.h"
#include "kinds/kind.h"
#include "measure/amount.h"
#include "measure/printer.h"
#include "measure/when.h"
#include "season/provenance.h"

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
  const book::Materials& materials() const { return *materials_; }
  const std::vector<measure::Container>& containers() const { return containers_; }

  // The batch of that code, or a mistake that names the nearest.
  measure::Result<model::Batch> batch(std::string_view label) const;
  // The same, and it must be open at `at` and have started by then.
  measure::Result<model::Batch> open_batch(std::string_view label, measure::Instant at) const;
  // All batches of the kinds that this program knows, in walking order.
  const std::vector<model::Batch>& batches() const;
  // Those of other kinds, which a newer roundbook brought: kept, and listed, but not judged.
  std::vector<model::Batch> unknown_batches() const;
  // Those that are open as of now.
  std::vector<model::Batch> open_batches() const;

  // With what the other batches know of the loads that came in, where its kind asks for it.
  model::History history(const model::Batch& batch) const { return history(batch, now_); }
  model::History history(const model::Batch& batch, measure::Instant until) const;
  // Fills in what a load brings along; it need not be recorded yet.
  void bring_provenance(model::Movement& load) const;
  void bring_provenance(std::vector<model::Movement>& loads) const;
  // The movements from `since` up to `until`, with what they bring along.
  std::vector<model::Movement> movements(measure::Instant since, measure::Instant until) const;
  Studied study(const model::Batch& batch) const;
  Studied study(const model::Batch& batch, measure::Instant until) const;
  model::Assessment assess(const model::History& history,
                           kinds::Extent extent = kinds::Extent::kAll) const;
  // The rules in force for the site as a whole.
  model::Rules site_rules() const;

  // The kind of a batch, which is one of batches().
  const kinds::Kind& kind(const model::Batch& batch) const;

 private:
  Desk(const book::Logbook& logbook, measure::Instant now, measure::UnitSystem units);

  // The finished batches of a kind, and what they teach.
  struct Finished {
    std::shared_ptr<const std::vector<model::History>> batches;
    std::shared_ptr<const model::Lesson> lesson;
  };

  // What all batches share: read or worked out when it is first asked for, and again once
  // something was recorded.
  struct Shared {
    std::int64_t changes{};  // of the logbook, when it was read
    std::optional<std::vector<model::Batch>> batches;
    std::map<std::pair<std::string, measure::Instant>, Finished> finished;  // by kind, as of then
    std::optional<season::Provenances> known;  // what stands behind loads
    std::map<measure::Instant, std::shared_ptr<const std::set<std::string>>> used;
    std::map<std::pair<std::int64_t, measure::Instant>, Studied> studies;  // the last few
  };
  Shared& shared() const;

  season::Provenances::Find find_source() const;
  season::Provenances& known() const;
  const Finished& finished(const kinds::Kind& of, measure::Instant until) const;
  std::shared_ptr<const std::set<std::string>> used(measure::Instant until) const;

  const book::Logbook* logbook_;
  measure::Instant now_;
  measure::Printer print_;
  std::shared_ptr<const book::Materials> materials_;
  std::vector<measure::Container> containers_;
  mutable Shared shared_;
};

// The --when of a command that records, or now; with a word for the answer where it was not plain.
struct Recorded {
  measure::Instant at;
  std::string remark;  // "the clock showed 01:30 twice that night; taken as the first"
};
measure::Result<Recorded> recorded_at(const Context& context, const Arguments& arguments,
                                      const model::Site& site);

// The number of an entry as 'history' shows it: "131", "#131".
measure::Result<std::int64_t> entry_number(std::string_view word);

// A nearest-match sentence: "there is no X 'word'; did you mean Y?", or with what is known.
measure::Mistake no_such(std::string_view what, std::string_view word,
                         const std::vector<std::string>& known);
// "horse poo", "cow muck" as the catalogue has it, "horse manure"; else as it was.
std::string dung_as_manure(std::string_view name);
// That no material goes by the word, with the nearest that does, or how one is added.
measure::Mistake no_material(std::string_view word, const book::Materials& materials);
// A name as it is spelled among those known, where only its case or blanks differ; else as typed.
std::string as_known(const std::string& name, const std::vector<std::string>& known);

}  // namespace cli
