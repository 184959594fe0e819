#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/brew/clock.h"
#include "kinds/brew/contents.h"
#include "kinds/brew/use.h"
#include "kinds/study.h"

namespace kinds::brew {

// Each piece is worked out when it is first asked for.
class Study final : public kinds::Study {
 public:
  Study(const model::History& history, const model::Rules& rules)
      : kinds::Study(history, rules), contents_(contents_of(history)) {}

  std::string stage() const override;
  std::vector<model::Finding> findings() const override;
  std::vector<model::Finding> by_calendar() const override;
  model::Words words(const model::Finding& finding) const override;
  std::string well() const override;
  std::vector<model::Progress> progress() const override;
  std::vector<model::Forecast> forecasts() const override;
  std::vector<ForesightScore> replay() const override;
  std::vector<model::Measure> figures() const override;
  std::string_view product() const override;
  bool is_meant(model::Forbids what, const model::Movement& load) const override;
  std::optional<Objection> against_taking(const model::Movement& load) const override;
  std::optional<Objection> against_ending() const override;
  std::optional<model::Load> holds(const model::Movement& load) const override;
  std::vector<std::string> at_use(const model::Movement& load) const override;
  std::vector<std::string_view> circumstances(const Handled& handled) const override;

  const Contents& contents() const { return contents_; }
  const Clock& clock() const;
  const Nutrients& nutrients() const;
  std::optional<Nitrogen> nitrogen() const;  // none where it is neither read nor to be estimated
  const Dilution& dilution() const;
  std::optional<model::Day> waits_until() const {
    return brew::waits_until(history_, rules_, clock());
  }
  bool is_turned() const;  // an aerated brew that stood without air or smells so: for no crop

 private:
  Contents contents_;
  mutable std::optional<Clock> clock_;
  mutable std::optional<Nutrients> nutrients_;
  mutable std::optional<Dilution> dilution_;
};

}  // namespace kinds::brew
