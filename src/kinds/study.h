#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kinds/vocabulary.h"
#include "measure/dimension.h"
#include "measure/printer.h"
#include "measure/result.h"
#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// One history, studied once: everything that is asked of a batch is asked of its study.
namespace kinds {

// What a kind says of a load that someone is about to carry.
struct Objection {
  bool refuses;  // else it only warns
  std::string rule;
  std::string says;
  std::string source;
  // A warning said with the first such movement alone: about the batch as a whole, or about what is
  // named here, once of each.
  bool once = false;
  std::string about{};
};

// What an entry puts hands to, for the cautions that are said with it.
struct Handled {
  bool starts = false, ends = false;
  std::vector<std::string_view> logged{};  // deeds, judgements and quantities, by their names
  const model::Movement* in = nullptr;
  const model::Movement* out = nullptr;
};

// How one forecast did over one history, replayed as of each of its days with what was known then,
// against saying that nothing changes (or that it takes as long as usual).
struct ForesightScore {
  std::string_view what;  // "temperature", "cooled"
  measure::Dimension
      error{};           // what its errors are: a temperature difference, a duration, a volume
  int days_ahead{};      // 0: what is foreseen is a day, or the next reading
  int count{};           // forecasts that could be judged
  double error_total{};  // absolute errors of the method, in the base unit
  double naive_total{};  // of "then is like today"
  double squared_total{}, naive_squared_total{};
  int ranged{};     // of those forecasts, the ones with an interval
  int within{};     // of these, in the interval that should hold four of five
  int below{};      // of these, below it
  int disturbed{};  // not judged: something was done meanwhile that was neither known nor due

  void judge(double likely, double low, double high, double naive, double came);
  // Of a forecast that names no interval.
  void judge(double likely, double naive, double came);
  // Of a day, foreseen on `asked`: in days from then on. `naive` is such a number too.
  void judge_day(model::Day asked, model::Day likely, std::optional<model::Day> earliest,
                 std::optional<model::Day> latest, double naive, model::Day came);
  // Whether so many forecasts could be judged, and saying that nothing changes did better.
  bool loses_to_naive(int judged_at_least) const;
};

// A load of raw manure on ground, of this crop's time or an earlier one's.
struct RawOnGround {
  model::Movement load;            // id 0: not carried there, but left in place by stock
  std::string way;                 // "dairy manure → dig-1 → bed-3"
  std::string crop;                // that stands or stood there; empty: it was not said
  bool earlier = false;            // an earlier crop of the ground got it
  std::optional<model::Day> safe;  // the first day of a safe harvest; none: nobody eats this crop
};

// A record that someone outside asks for.
enum class RecordOf { kTreatment, kSizing };

// What is done to a batch every so many days, by its own records.
struct Rhythm {
  int every{};        // days, from 1 on
  model::Day next{};  // when it is due again; it may be over
};

// A kind's study of one batch. Findings are always asked for; all else only where it is printed, so
// what only the figures need is worked out by figures(). The history and the rules must outlive it.
class Study {
 public:
  Study(const model::History& history, const model::Rules& rules)
      : history_(history), rules_(rules) {}
  Study(model::History&&, const model::Rules&) = delete;
  Study(const Study&) = delete;
  Study& operator=(const Study&) = delete;
  virtual ~Study() = default;

  const model::History& history() const { return history_; }
  const model::Rules& rules() const { return rules_; }
  measure::Printer print() const { return measure::Printer(history_.units); }

  virtual std::string stage() const = 0;  // "hot", "curing": one or two words
  // What is the case, in no order.
  virtual std::vector<model::Finding> findings() const = 0;
  // What is said of one of them.
  virtual model::Words words(const model::Finding& finding) const = 0;
  // One clause for the list of what was found well: "hot at 148 °F, 5 of 15 days".
  virtual std::string well() const { return {}; }
  virtual std::vector<model::Progress> progress() const { return {}; }
  virtual std::vector<model::Forecast> forecasts() const { return {}; }
  // Those of them that have a line for the days to come.
  virtual std::vector<model::Forecast> coming() const;
  // For the season's account.
  virtual std::vector<model::Measure> figures() const { return {}; }
  // None: the kind keeps no such record.
  virtual std::optional<model::Record> record(RecordOf) const { return std::nullopt; }
  // Scores the kind's foresight over this history; empty: it foresees nothing that a reading
  // judges.
  virtual std::vector<ForesightScore> replay() const { return {}; }

  // The material that a load taken now is, where none is said; empty: it must be said.
  virtual std::string_view product() const;
  // What speaks against taking that load out now.
  virtual std::optional<Objection> against_taking(const model::Movement&) const {
    return std::nullopt;
  }
  // Whether a finding that forbids this is meant of that load.
  virtual bool is_meant(model::Forbids what, const model::Movement& load) const;
  // What putting that load in now would cost, where it would break what is going on.
  virtual std::optional<Objection> against_adding(const model::Movement&) const {
    return std::nullopt;
  }
  // What must be made safe before the batch is closed; asked back unless the person is sure.
  virtual std::optional<Objection> against_ending() const { return std::nullopt; }
  // What a load of it holds, where the kind knows better than the material's figures.
  virtual std::optional<model::Load> holds(const model::Movement&) const { return std::nullopt; }
  // How far it is treated, where the kind treats manure (7 CFR 205.203(c)(2)).
  virtual std::optional<model::TreatedDays> treated(const model::Movement&) const {
    return std::nullopt;
  }
  // What is said of a load at the moment when it goes to the ground of a bed: by the batch it
  // leaves, and by the one that gets it.
  virtual std::vector<std::string> at_use(const model::Movement&) const { return {}; }
  virtual std::vector<std::string> on_arrival(const model::Movement&) const { return {}; }
  // Of ground: the raw manure that lies on it, and what a harvest of this crop waits for; oldest
  // first.
  virtual std::vector<RawOnGround> raw_on_ground() const { return {}; }
  // What was harvested inside its interval, whoever was sure of it.
  virtual std::vector<const model::Movement*> taken_early() const { return {}; }
  // What the calendar alone brings: asked of a study of a day to come, of which nothing more is
  // logged. Its readings are taken to be kept up and to stay as they were.
  virtual std::vector<model::Finding> by_calendar() const { return {}; }
  // When it is fed next if it goes on as of late; none: it is not fed, or should not be now.
  virtual std::optional<Rhythm> feed_rhythm() const { return std::nullopt; }
  // After how many days without its reading it is asked for; none: never.
  virtual std::optional<model::Threshold<measure::Days>> unread_after() const;
  // Whether the losses to the air that the kind expects have begun.
  virtual bool loses_yet() const { return true; }

  // A reading typed in another dimension than its quantity's (a tank's level in gallons), as it is
  // in the quantity's base unit for this batch; none: it is not known in any other.
  virtual std::optional<measure::Result<double>> reading_from(const Quantity&,
                                                              measure::Value) const {
    return std::nullopt;
  }
  // What is impossible in a reading for this very batch (more than it holds), or hardly so beside
  // the rest of its history (more eggs in a day than hens): asked back unless the person is sure.
  virtual std::optional<std::string> doubts(const Quantity&, double /*si*/) const {
    return std::nullopt;
  }
  // What is hardly so of a deed at that moment beside the whole history (quenched before it was
  // lit): asked back unless the person is sure.
  virtual std::optional<std::string> doubts(const Word&, model::Instant) const {
    return std::nullopt;
  }

  // Under which circumstances hands are put to it now ("sealed", "has_gas"), for cautions that hold
  // only there: see kinds/caution.h.
  virtual std::vector<std::string_view> circumstances(const Handled&) const { return {}; }

  // One of its findings with its words and cautions.
  model::Told tell(model::Finding finding) const;
  // The findings with their words and cautions: most urgent first; none of a batch that has ended.
  std::vector<model::Told> told() const;

 protected:
  // The findings with their words, before what holds for every kind is added.
  virtual std::vector<model::Told> worded() const;

  const model::History& history_;
  const model::Rules& rules_;
};

// The study of a batch by its kind.
std::unique_ptr<Study> study(const model::History& history, const model::Rules& rules);
std::unique_ptr<Study> study(model::History&&, const model::Rules&) = delete;

enum class Extent {
  kFindings,  // stage, findings, progress and what is well
  kFigures,   // with figures
  kAll,       // with figures and forecasts
};
// All of it at once, of a study or of a history. Most urgent first; a batch that has ended has no
// findings.
model::Assessment assess(const Study& study, Extent extent = Extent::kAll);
model::Assessment assess(const model::History& history, const model::Rules& rules,
                         Extent extent = Extent::kAll);

}  // namespace kinds
