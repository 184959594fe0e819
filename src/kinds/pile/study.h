#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/pile/blend.h"
#include "kinds/pile/heat.h"
#include "kinds/pile/stage.h"
#include "kinds/pile/treatment.h"
#include "kinds/study.h"

// A pile, studied once: its days, its contents, where it stands and what its treatments came to.
// Each is worked out when it is first asked for.
namespace kinds::pile {

// A load that is laid on another pile: its mix and its days of treatment go with it.
bool goes_on_composting(const model::Movement& load);

class Study final : public kinds::Study {
 public:
  using kinds::Study::Study;

  std::string stage() const override;
  std::vector<model::Finding> findings() const override;
  std::vector<model::Finding> by_calendar() const override;
  model::Words words(const model::Finding& finding) const override;
  std::string well() const override;
  std::vector<model::Progress> progress() const override;
  std::vector<model::Forecast> forecasts() const override;
  std::vector<model::Measure> figures() const override;
  std::optional<model::Record> record(RecordOf of) const override;
  std::vector<ForesightScore> replay() const override;
  std::vector<std::string> at_use(const model::Movement& out) const override;
  std::optional<Objection> against_adding(const model::Movement& load) const override;
  std::optional<Objection> against_taking(const model::Movement& load) const override;
  std::optional<Objection> against_ending() const override;
  std::optional<model::Load> holds(const model::Movement& load) const override;
  std::optional<model::TreatedDays> treated(const model::Movement& load) const override;
  std::optional<model::Threshold<measure::Days>> unread_after() const override;
  std::vector<std::string_view> circumstances(const Handled& handled) const override;

  Method method() const { return method_of(history_.batch); }
  const Course& course() const;
  const Inputs& inputs() const;
  const StartRatio& ratio() const;
  const Standing& at() const;
  // Those asked for.
  const std::vector<Treatment>& treatments() const;
  Treatment treatment(Standard standard) const;
  bool shown() const;       // every treatment asked for
  bool days_shown() const;  // and those of which only curing is left
  // As of today; none of a cold or an ended pile, or one that was not read of late.
  const std::optional<HeatView>& heat() const;

 private:
  mutable std::optional<Course> course_;
  mutable std::optional<Inputs> inputs_;
  mutable std::optional<StartRatio> ratio_;
  mutable std::optional<Standing> at_;
  mutable std::optional<std::vector<Treatment>> treatments_;
  mutable std::optional<std::optional<HeatView>> heat_;
};

}  // namespace kinds::pile
