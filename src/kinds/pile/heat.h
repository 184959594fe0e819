#pragma once

#include <array>
#include <memory>
#include <optional>
#include <vector>

#include "kinds/pile/outlook.h"
#include "model/history.h"
#include "science/numbers/conformal.h"

// How warm a pile will be: as it is, drawn to the air, or while it is new to the heat that piles
// reach, and going on for a day or two as it changed of late; how far that may be off, by what
// real piles, the site's finished ones and its own past days missed by.
namespace kinds::pile {

// What a forecast leans on.
struct Leaning {
  int site_piles = 0;  // finished, replayed
  int replayed = 0;    // forecasts of its own past that could be judged
  // Its past and the site's piles say no more than that it stays as it is.
  bool as_today = false;
  bool warming_up = false;
  std::optional<double> after_turning;  // degC: a turning is known of or due, and cools it to that
};

struct HeatForecast {
  struct Day {
    model::Day day;
    double likely{}, low{}, high{};  // degC; low to high should hold four days of five
    bool disturbed = false;          // it was turned or fed since, which was not foreseen
  };
  std::vector<Day> days;  // from the day after the last reading on
  Leaning leaning;
};

// How far past forecasts were off, by the days ahead (the first: one day), as shares of what the
// rules expect (1: four of five are within).
struct Misses {
  std::array<std::vector<science::PastMiss>, kMostAhead> method, as_today;
  std::array<double, kMostAhead> error{}, naive{};  // absolute, K, in sum
  int judged = 0;

  // Those of one pile: they count for so many forecasts together, however many they are.
  void add(const Misses& other, double weight);
};

// What the site's finished piles show, as of a day.
std::shared_ptr<const model::Lesson> learn(
    const std::shared_ptr<const std::vector<model::History>>& finished, const model::Rules& rules,
    model::Day as_of);

// What is known of a pile's days ahead.
class HeatView {
 public:
  // As seen on `as_of` with what had been recorded by then. None where it was not read in the three
  // days up to then.
  static std::optional<HeatView> of(const model::History& history, const Course& course,
                                    const model::Rules& rules, model::Day as_of);

  // The pile's warmest position from the day after its last reading to so many days after `as_of`.
  HeatForecast ahead(int days_ahead) const;

  // The day on which it will be below a temperature of the working band, with the days that should
  // hold four of five; none where the air is as warm, or it is below it now.
  struct Cooled {
    model::Day earliest, likely, latest;
  };
  std::optional<Cooled> cooled(double below) const;

 private:
  HeatView(Stirring stirring, const Course& course, std::size_t index, const model::Rules& rules,
           model::Day as_of);

  std::shared_ptr<const Stirring> stirring_;
  Outlook outlook_;
  const model::Rules* rules_;
  model::Day as_of_;
  std::array<double, kMostAhead> share_{};  // half widths, of the room there is
  std::array<bool, kMostAhead> as_today_{};
  int site_piles_ = 0, replayed_ = 0;
};

std::optional<HeatForecast> foresee(const model::History& history, const Course& course,
                                    const model::Rules& rules, model::Day as_of, int days_ahead);

}  // namespace kinds::pile
