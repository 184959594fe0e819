#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/digester/warmth.h"
#include "model/finding.h"
#include "model/history.h"
#include "model/rules.h"
#include "science/numbers/units.h"

// What the slurry's chemistry says: whether it sours, or is poisoned by its own ammonia.
namespace kinds::digester {

// How sour it is by whichever sign is the worst.
enum class Souring { kNo, kWatch, kSour };

struct Slurry {
  // Fresh readings only; none: not read, or too long ago.
  std::optional<measure::Ph> ph;
  std::optional<measure::Number> acids_to_alkalinity;
  bool titrated = false;  // that ratio is of a titration, not of a laboratory
  std::optional<science::MilligramsPerLitre> volatile_acids;
  std::optional<science::MilligramsPerLitre> total_ammonia, free_ammonia;  // as nitrogen
  bool smells_sour = false;
  Souring souring = Souring::kNo;

  bool is_read() const { return ph || acids_to_alkalinity || volatile_acids; }
};

Slurry slurry_of(const model::History& history, const model::Rules& rules, const Warmth& warmth);

// Acids to alkalinity of each day that had both, ascending: of titrations, or of a laboratory.
struct RatioDay {
  model::Day day;
  measure::Number ratio;
};
std::vector<RatioDay> ratio_days(const model::History& history, bool titrated);

class Study;

// `digester.sour`: pH, acids to alkalinity, volatile acids, smell.
std::optional<model::Finding> judge_sour(const Study& study);
// `digester.ammonia`: free ammonia from total ammonia, pH and temperature.
std::optional<model::Finding> judge_ammonia(const Study& study);
// `digester.nitrogen`: feed so rich in it that ammonia builds up.
std::optional<model::Finding> judge_nitrogen(const Study& study);

// The latest value of a quantity that is no older than that; none: not read since.
std::optional<double> fresh(const model::History& history, std::string_view quantity,
                            measure::Days longest);

}  // namespace kinds::digester
