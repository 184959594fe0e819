#pragma once

#include <algorithm>
#include <cstdint>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "measure/amount.h"
#include "measure/dimension.h"
#include "measure/moment.h"
#include "model/material.h"

// The plain values of a logbook, and all that is known of one batch up to a moment.
namespace model {

using measure::Day;
using measure::Instant;

struct Site {
  std::string name;
  measure::Zone zone;
  measure::UnitSystem units;
  std::optional<double> latitude;  // degrees, north positive
};

// A fact told of a batch when it was started: its method, its volume, its dates.
struct Setting {
  std::string key;
  std::string typed;                    // as typed
  std::optional<measure::Value> value;  // where it is a number
};

struct Batch {
  std::int64_t id{};
  std::string code;  // "heap-3"
  int run{1};        // the how-manieth batch of that code: a bin is filled again and again
  std::string kind;
  std::string place;  // empty: none said
  Instant started;
  Day started_day;
  std::optional<Instant> ended;
  std::optional<Day> ended_day;
  std::string because;
  std::vector<Setting> settings;

  const Setting* setting(std::string_view key) const;
  std::string text(std::string_view key, std::string_view otherwise) const;
  std::optional<measure::Value> number(std::string_view key) const;
};

// One series' readings of one of the site's days, rolled up.
struct DayRoll {
  Day day;
  int count{};
  double least{}, greatest{}, total{}, last{};
  Instant last_at{};

  double mean() const { return total / count; }
  // Takes in one more reading of the day, later than all before it.
  void add(Instant at, double value) {
    least = count == 0 ? value : std::min(least, value);
    greatest = count == 0 ? value : std::max(greatest, value);
    ++count;
    total += value;
    last = value;
    last_at = at;
  }
};

struct Reading {
  Instant at;
  double value{};  // base unit
};

// A quantity of a batch at one probe position, up to the moment of the history.
struct Series {
  std::string quantity;
  std::string position;         // empty: none said
  std::vector<DayRoll> days;    // ascending; days without a reading are absent
  std::optional<Reading> last;  // the latest
  std::optional<Reading> before_last;

  double total_on(Day day) const;  // the sum of that day's readings; 0 without one
};

struct Deed {
  Instant at;
  Day day;
  std::string word;
};

// A judgement by hand: "moisture: damp", "smell: earthy".
struct Sensed {
  Instant at;
  Day day;
  std::string sense;
  std::string word;
};

struct Note {
  Instant at;
  Day day;
  std::string text;
};

// Raw manure that a load carries with it: where it began and by which batches it came.
struct ManureTrail {
  std::string material;          // "dairy manure", as it was when it came in
  std::vector<std::string> way;  // labels of the batches it passed, the first first; empty: none
  std::string because;           // why it still counts as raw: "heap-2 is not shown to be treated"

  friend bool operator==(const ManureTrail&, const ManureTrail&) = default;
};

// What a load holds, in kg; none where it is not known.
struct Load {
  std::optional<measure::Kilograms> mass, carbon, nitrogen, phosphorus, potassium;
  std::string basis;  // "by the laboratory", "estimated from what went in"; empty: handbook figures
};

// How far a load was treated when it left its batch: the days that counted so far, and the turnings
// among them.
struct TreatedDays {
  int days = 0;
  int turnings = 0;
  bool done = false;  // the treatment is shown: nothing of it is raw
};

// An amount of a material carried somewhere.
struct Movement {
  std::int64_t id{};
  Instant at;
  Day day;
  Material material;
  std::string from;  // batch label; empty: from outside
  std::string to;    // batch label; empty: away
  std::string from_kind, to_kind;
  measure::Value amount;  // as it was measured: a mass, a volume, a count or an energy
  std::string typed;
  std::string purpose;
  std::optional<std::int64_t> paid_cents, sold_cents;
  std::string supplier = {}, lot = {}, buyer = {};  // as typed; empty: not said
  bool sure = false;                                // recorded against an objection

  // Worked out from the other batches, for kinds that ask for it (Needs::provenance).
  std::vector<ManureTrail> manure;  // empty: no raw manure in it
  std::optional<Load> holds;        // where the batch it came from knows better than a handbook
  std::optional<TreatedDays> treated = {};  // where that batch treats manure

  // The mass where it was weighed, or by the material's bulk density; the volume likewise.
  std::optional<measure::Kilograms> mass() const;
  std::optional<measure::Litres> volume() const;
  bool weighed() const { return amount.dimension == measure::Dimension::kMass; }
};

// What a kind learns from its finished batches, in a form of its own: worked out once, it serves
// all the open ones.
struct Lesson {
  virtual ~Lesson() = default;
};

struct History {
  Batch batch;
  measure::UnitSystem units;  // what findings are worded in
  std::optional<double> latitude;
  Instant now;
  Day today;
  // When the batch was entered, by the computer's clock: nobody can have logged it before.
  Instant told_at{};
  std::vector<Series> series;
  std::vector<Deed> deeds;  // ascending, as all below
  std::vector<Sensed> sensed;
  std::vector<Note> notes;
  std::vector<Movement> in, out;
  // What earlier batches of the code were given, for kinds whose ground stays (Needs::ground).
  std::vector<Movement> earlier_in;
  std::vector<Deed> earlier_deeds;  // on the same ground
  std::vector<Sensed> earlier_sensed;
  std::optional<Instant> last_entry;  // of any sort
  // For kinds that learn: the site's ended batches of the kind, latest first (a dozen at the most).
  std::shared_ptr<const std::vector<History>> finished;
  // Names of the materials that any batch of the site was ever given, for kinds that ask
  // (Needs::used).
  std::shared_ptr<const std::set<std::string>> used = {};
  // The kind's lesson from these, where it was worked out already; null: it is when it is needed.
  std::shared_ptr<const Lesson> lesson = {};
  // What the site carries things in, for kinds that say how much to add; null: nothing told.
  std::shared_ptr<const std::vector<measure::Container>> containers = {};

  // The batch's day: 1 on the day it started.
  int day_number() const { return (today - batch.started_day).count() + 1; }
  const Series* find(std::string_view quantity, std::string_view position = "") const;
  std::vector<const Series*> all(std::string_view quantity) const;
  const Deed* last_deed(std::string_view word) const;
  int deeds_since(std::string_view word, Day day) const;
  const Sensed* last_sensed(std::string_view sense) const;
};

// The label by which a batch is shown: its code, with the run where it is not the code's latest.
std::string label(const Batch& batch, bool latest);

// What a movement holds: what it says of itself, else by its material's figures.
Load load_of(const Movement& movement);

// One roll a day over all positions of a quantity: the mean over everything read that day.
std::vector<DayRoll> pooled_days(const std::vector<const Series*>& series);

}  // namespace model
