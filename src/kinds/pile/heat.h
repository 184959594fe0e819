#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "kinds/pile/balance.h"

// How warm a pile will be: the published heat balance, its heat corrected by what the pile itself
// did of late, and before that by the site's finished piles; and how far that may be believed, by
// how it would have done on the pile's own past days.
namespace kinds::pile {

// How much each source had to say, as shares that sum to 1.
struct Leaning {
  double model = 1;  // the published heat balance
  double site = 0;   // the heat of the site's finished piles
  double own = 0;    // the pile's own last days
  double still = 0;  // that it stays as it is
  int site_piles = 0;
  int own_days = 0;  // balances of its own
  int replayed = 0;  // forecasts of its own past that could be judged
};

struct HeatForecast {
  struct Day {
    model::Day day;
    double likely{}, low{}, high{};  // degC; low to high should hold four days of five
  };
  std::vector<Day> days;  // from the day after the last reading on
  Leaning leaning;
  // The corrected model alone, from the day after the last reading on; and with the heat a good
  // deal less and more, for days that lie weeks ahead, where these were wanted.
  std::vector<double> model, lesser, greater;
};

enum class Courses { kNotWanted, kWanted };  // HeatForecast::lesser and greater

// What the finished piles show of the site's heat and of how far the model may be believed.
std::shared_ptr<const model::Lesson> learn(
    const std::shared_ptr<const std::vector<model::History>>& finished, const model::Rules& rules,
    model::Day as_of);

// What is known of a pile's heat on a day: the model as the pile's own days, and the site's,
// correct it.
class HeatView {
 public:
  // As seen on `as_of` with what had been recorded by then. None where it was not read in the three
  // days up to then.
  static std::optional<HeatView> of(const model::History& history, const Course& course,
                                    const model::Rules& rules, model::Day as_of);

  // The pile's warmest position from the day after its last reading on.
  std::optional<HeatForecast> ahead(int days_ahead, Courses courses = Courses::kNotWanted) const;

 private:
  struct Spread {
    double share, drift, widening, first, growth;
    double half_width(int days_ahead) const;
  };
  HeatView(science::PileModel pile, Spread spread) : pile_(pile), spread_(spread) {}

  science::PileModel pile_;
  Spread spread_;
  Leaning leaning_;
  model::Day last_, as_of_;
  double degradable_ = 0, log_factor_ = 0, start_ = 0, air_ = 0;
};

std::optional<HeatForecast> foresee(const model::History& history, const Course& course,
                                    const model::Rules& rules, model::Day as_of, int days_ahead);

}  // namespace kinds::pile
