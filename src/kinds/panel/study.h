#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "kinds/panel/sun.h"
#include "kinds/study.h"
#include "kinds/uses.h"

namespace kinds::panel {

enum class Chemistry { kLeadAcid, kLithium };

// What the battery's present use is, and how long a full one carries it.
struct Carrying {
  measure::KilowattHours use;  // a day
  int days{};                  // of which that is the mean
  measure::Days carries, wanted;
  measure::KilowattHours needed;  // what would carry it for as long as is wanted
};

// Each setting is read once, where it is first asked for.
class Study final : public kinds::Study {
 public:
  using kinds::Study::Study;

  std::string stage() const override;
  std::vector<model::Finding> findings() const override;
  model::Words words(const model::Finding& finding) const override;
  std::string well() const override;
  std::vector<model::Progress> progress() const override;
  std::vector<model::Measure> figures() const override;
  std::optional<Objection> against_taking(const model::Movement& load) const override;
  std::vector<std::string_view> circumstances(const Handled& handled) const override;

  const std::map<model::Day, Made>& made() const;
  std::optional<measure::Watts> rated() const;
  std::optional<measure::KilowattHours> battery() const;
  Chemistry chemistry() const;
  measure::Fraction usable() const;              // of the battery
  const std::vector<double>& sun_hours() const;  // twelve; none: not told
  const std::vector<Use>& losses() const;        // as told
  const std::vector<Use>& uses() const;
  measure::Fraction loss() const;  // all together; by the rule where none were told
  // What a day of that month gives by the sun hours told; none where none were.
  std::optional<measure::KilowattHours> expected_on(model::Day day) const;
  // What a day gives: expected today, else the mean of what was made; none: neither is known.
  std::optional<measure::KilowattHours> a_day() const;
  std::optional<Carrying> carrying() const;

 private:
  mutable std::optional<std::map<model::Day, Made>> made_;
  mutable std::optional<std::vector<double>> sun_hours_;
  mutable std::optional<std::vector<Use>> losses_, uses_;
};

}  // namespace kinds::panel
