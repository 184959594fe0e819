#pragma once

#include <optional>
#include <vector>

#include "kinds/pile/days.h"
#include "model/rules.h"

// A pile on one day, as far as its days ahead go: what was read by then, and what stirred it.
namespace kinds::pile {

// Days without a reading over which the last one still says where a pile stands.
inline constexpr int kFreshDays = 3;
// How far ahead its temperature is foreseen.
inline constexpr int kMostAhead = 7;

// What changes a pile's heat from outside: turnings, and loads that are a good part of all it
// holds.
struct Stirring {
  struct Turning {
    model::Instant at;
    model::Day day;
  };
  std::vector<Turning> turnings;  // ascending
  std::vector<model::Day>
      fed;  // ascending: with at least pile.foresee.fed_share of all it then held
  bool wants_turnings = false;  // a treatment that is asked for counts them
  bool turned_by_hand = false;  // its method

  static Stirring of(const model::History& history, const model::Rules& rules);
};

// What a forecast rests on: the day's reading, how it changed of late, the air, the pile's age.
class Outlook {
 public:
  // As of the reading of course.days[index] with what was recorded by `known`.
  Outlook(const Course& course, std::size_t index, const Stirring& stirring,
          const model::Rules& rules, model::Day known);

  struct Ahead {
    double likely{};  // degC
    // What the widths are shares of (K): there is less room to rise near the hottest that a pile
    // gets, and less to fall near the air; and a young pile is less sure.
    double room_up{}, room_down{};
    // How far from `likely` a reading was, in those shares.
    double miss(double read) const;
  };
  Ahead ahead(int days_ahead) const;
  // The same from "it stays as it is".
  Ahead as_today(int days_ahead) const;

  // Whether a turning within so many days is known of or due: it is foreseen.
  bool turning_foreseen(int days_ahead) const;
  // Whether it was turned or fed in those days, and that was neither known of nor due: what comes
  // after it was not foreseen.
  bool disturbed(int days_ahead) const;

  double read() const { return read_; }
  double air() const { return air_; }
  model::Day day() const { return day_; }
  bool warming_up() const { return warming_up_; }
  bool turned_since() const { return turned_since_; }

 private:
  Ahead with_room(double likely, int days_ahead) const;

  const Stirring* stirring_;
  const model::Rules* rules_;
  model::Day day_;
  model::Instant at_;
  double read_ = 0;   // degC
  double start_ = 0;  // degC: without the dip of a turning just before the reading
  double air_ = 0;
  double slope_ = 0;           // K a day
  int age_ = 0;                // days since it was laid, or fed a good part of itself
  bool warming_up_ = false;    // new, and it has not fallen yet
  bool turned_ = false;        // ever, as known
  bool turned_since_ = false;  // turned after the reading, and known
  bool fed_since_ = false;
  std::optional<model::Day> turning_due_;
};

}  // namespace kinds::pile
