#pragma once

#include <string>
#include <vector>

#include "kinds/nestbox/broods.h"
#include "kinds/study.h"

namespace kinds::nestbox {

class Study final : public kinds::Study {
 public:
  Study(const model::History& history, const model::Rules& rules)
      : kinds::Study(history, rules), broods_(nestbox::broods(history)) {}

  std::string stage() const override;
  std::vector<model::Finding> findings() const override;
  std::vector<model::Finding> by_calendar() const override;
  model::Words words(const model::Finding& finding) const override;
  std::string well() const override;
  std::vector<model::Progress> progress() const override;
  std::vector<model::Forecast> forecasts() const override;
  std::vector<model::Measure> figures() const override;

 private:
  const Brood* brood() const { return present(broods_); }  // in the box now
  bool is_season() const { return in_season(history_.today, history_, rules_); }
  std::vector<Brood> broods_;
};

}  // namespace kinds::nestbox
