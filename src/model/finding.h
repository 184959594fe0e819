#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/dimension.h"
#include "measure/moment.h"
#include "measure/printer.h"
#include "model/caution.h"
#include "model/facts.h"

// What the analysis finds of a batch, as facts; and what is said of it, written from those facts.
namespace model {

enum class Urgency {
  kNow,    // harm if it waits
  kToday,  // wants hands today
  kSoon,   // at its due day
  kReady,  // something to gain
};

std::string_view word(Urgency urgency);  // "now", "today", "soon", "ready"

// A number with the name of what it measures.
struct Measured {
  std::string quantity;
  measure::Value value;
  std::string label;  // the unit of a kNumber: "mg/larva/d"
  measure::ShownIn shown_in = {};
  // How it is shown, where words say it better than the number: "not yet". Empty: the number.
  std::string words{};
};

// As it is shown: in its own words, in the system's units, or with its own label.
std::string shown(const Measured& measured, const measure::Printer& print);
// The unit of its value: its own label, else the dimension's base unit.
std::string unit_of(const Measured& measured);

// How well the records support a reason: what was measured stands before what was felt, and that
// before what follows from the recipe or the calendar.
enum class Support { kRead, kFelt, kWorkedOut };

// Why something may be so.
struct Reason {
  std::string_view id;  // a constant of its kind: "too_dry"
  Support support{};
  Facts facts{};
};

// What would end a finding: the entry that a person can make, or the day on which it ends by
// itself.
struct Ending {
  enum class By {
    kReading,
    kAnyEntry,
    kDeed,
    kJudgement,
    kAdding,
    kTaking,
    kSetting,
    kEndOfBatch,
    kDay
  };
  By by{};
  std::string name{};      // of the quantity, the word, the material or the setting
  std::string position{};  // of a reading
  std::optional<measure::Day> day{};
};

// What a finding forbids until it is over, whoever carries or logs it.
enum class Forbids {
  kNothing,
  kProduct,  // taking what the batch gives: its eggs, its brew, its water, its harvest
  kFlame,    // burning its gas
};

struct Finding {
  std::string batch;  // label
  std::string kind;
  std::string rule;            // "pile.hot"
  std::string_view case_of{};  // which case of the rule it is, where there are several: "fire";
                               // cautions and words differ by it
  Urgency urgency{};
  // What one pair of hands does at once is one job: two findings of a batch with the same job are.
  std::string_view job{};
  std::optional<measure::Day> since{};  // the day from which it holds by the records
  std::optional<measure::Day> due{};
  bool hold = false;  // something must not be done until that day
  Forbids forbids = Forbids::kNothing;
  // Only that nothing was read or logged of late: one round with the thermometer ends all of these.
  bool silence = false;
  bool remarked = false;   // a danger that a note told of; its case is the danger's word
  bool keeps_off = false;  // nobody works at the batch until it is over
  std::optional<Measured> value{}, limit{};
  Facts facts{};
  std::vector<Reason> reasons{};  // best supported first
  std::vector<Ending> ends{};     // any of these ends it
  std::string threshold{};        // the key of the rule's number: "pile.hot.above"
  std::string source{};           // of that number
};

// What is said of a finding: a line for the morning, and the whole.
struct Words {
  std::string line;   // imperative first, then the fact that proves it; at most 46 columns
  std::string says;   // what is the case, with its number and its limit
  std::string why{};  // the reason, where it is not the number itself
  // What stands in place of a long reason where there is no room; empty: the reason itself.
  std::string why_briefly{};
  std::string action{};  // what to do
  // A caution that has to name what it is about (a feed, a law), where no row can.
  std::string caution{};
  // The thing in two or three words, where several stand in one line: "leak check". Empty: the
  // rule's own.
  std::string tag{};
};

// A finding with its words and the cautions that belong to it.
struct Told : Finding {
  Words words{};
  std::vector<const Caution*> cautions{};
};

// The full forms of cautions, one after the other; empty: none.
std::string full_text(const std::vector<const Caution*>& cautions);
// Those of a finding, with its own caution behind them.
std::string full_text(const Told& finding);
// The short forms, "no flame; face away"; empty: none.
std::string brief_text(const std::vector<const Caution*>& cautions);

}  // namespace model
