#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// How far the site closes its loop over a span, what it replaced, and its greenhouse account.
namespace season {

// Of what entered batches of one kind, what came from the site's own batches.
struct LoopShare {
  std::string key;  // "beds", "flock": stable
  std::string name;
  measure::Kilograms all, own;  // by mass as carried, water left out
  std::optional<measure::Fraction> share() const;
  std::optional<measure::Fraction> nitrogen_share;  // the same by nitrogen, where it is known
  std::string basis;
};

// Something bought that the site's own took the place of.
struct Replaced {
  std::string key;  // "feed", "nitrogen", "phosphorus", "potassium", "fuel", "water": stable
  std::string name;
  model::Measured amount;
  std::optional<model::Measure::Range> range;  // what the amount lies between, in its base unit
  std::optional<double> money;  // amount x the site's price; none: the site has set no price
  std::string basis;
};

// kg of carbon dioxide equivalent: above zero kept out of the air, below zero let into it.
struct GreenhouseLine {
  std::string key;  // "landfill", "composting", "digester", "char", "burning", "fuel": stable
  std::string name;
  measure::Kilograms co2e;
  measure::Kilograms low, high;  // what it lies between, by the factors' published ranges
  std::string basis;             // how it is reckoned, what it leaves out
  std::string source;            // of the factors
};

struct Greenhouse {
  std::string set;  // "IPCC AR6, 100 years: CH4 27.9, N2O 273"
  std::vector<GreenhouseLine> lines;
  measure::Kilograms net() const;
  // All lines at their low ends, and all at their high ones: where the sign differs, whether the
  // site keeps gas out of the air is not known.
  measure::Kilograms low() const, high() const;
  std::vector<std::string> notes;  // what is not counted, and why no carbon is counted twice
};

struct Loop {
  std::vector<LoopShare> shares;
  measure::Kilograms kept_from_landfill;
  std::string kept_basis;
  std::vector<Replaced> replaced;  // of amounts above zero
  Greenhouse greenhouse;           // an estimate: every line leans on default factors
};

// A batch with what its kind worked out of it by the span's end, and by the day before it began
// (empty where it had not started): a span's own figure is their difference.
struct Judged {
  std::string label;
  std::string kind;
  std::vector<model::Measure> measures, before;
};

// `movements` are those of the span, oldest first, with their provenance.
Loop loop_of(const std::vector<model::Movement>& movements, const std::vector<Judged>& batches,
             const model::Rules& rules);

// The span's large figures of the loop and of the beds, with stable keys "site.*", to be set beside
// those of the span before.
std::vector<model::Measure> site_figures(const std::vector<model::Movement>& movements,
                                         const Loop& loop);

// A figure beside the same of the span before; none where that span has no such figure.
struct Compared {
  model::Measure now;
  std::optional<model::Measure> before;
};
std::vector<Compared> compared(const std::vector<model::Measure>& now,
                               const std::vector<model::Measure>& before);

}  // namespace season
