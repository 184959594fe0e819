#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/larvae/feeding.h"
#include "kinds/larvae/foresee.h"
#include "kinds/larvae/harvest.h"
#include "kinds/larvae/heat.h"
#include "kinds/larvae/survival.h"
#include "kinds/larvae/yield.h"
#include "kinds/study.h"

namespace kinds::larvae {

// Each piece is worked out when it is first asked for.
class Study final : public kinds::Study {
 public:
  using kinds::Study::Study;

  std::string stage() const override;
  std::vector<model::Finding> findings() const override;
  std::vector<model::Finding> by_calendar() const override;
  std::optional<Rhythm> feed_rhythm() const override;
  model::Words words(const model::Finding& finding) const override;
  std::string well() const override;
  std::vector<model::Progress> progress() const override;
  std::vector<model::Forecast> forecasts() const override;
  std::vector<ForesightScore> replay() const override;
  std::vector<model::Measure> figures() const override;
  std::optional<Objection> against_taking(const model::Movement& load) const override;

  const std::vector<Weighing>& weighings() const;
  const Course& course() const;
  const Diet& diet() const;
  const Warmth& warmth() const;
  const DarkShare& dark() const;
  const Readiness& readiness() const;
  const std::optional<Ordeal>& ordeal() const;
  const std::optional<Warmest>& warmest() const;
  Comfort comfort() const { return comfort_of(warmest(), diet(), rules_); }
  const Feeding& feeding() const;
  const Yield& yield() const;
  const Learned& learned() const;                      // the warmth that they need
  const std::optional<Foreseen>& foreseen() const;     // none of a bin that is ready
  std::vector<std::string> kept_from_animals() const;  // by these feeds

 private:
  mutable std::optional<std::vector<Weighing>> weighings_;
  mutable std::optional<Course> course_;
  mutable std::optional<Diet> diet_;
  mutable std::optional<Warmth> warmth_;
  mutable std::optional<DarkShare> dark_;
  mutable std::optional<Readiness> readiness_;
  mutable std::optional<std::optional<Ordeal>> ordeal_;
  mutable std::optional<std::optional<Warmest>> warmest_;
  mutable std::optional<Feeding> feeding_;
  mutable std::optional<Yield> yield_;
  mutable std::optional<Learned> learned_;
  mutable std::optional<std::optional<Foreseen>> foreseen_;
};

}  // namespace kinds::larvae
