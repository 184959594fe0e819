#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/bed/given.h"
#include "kinds/bed/wait.h"
#include "kinds/study.h"

namespace kinds::bed {

// Each piece is worked out when it is first asked for.
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
  bool is_meant(model::Forbids what, const model::Movement& load) const override;
  std::optional<Objection> against_taking(const model::Movement& out) const override;
  std::vector<std::string> on_arrival(const model::Movement& in) const override;
  std::vector<RawOnGround> raw_on_ground() const override { return raw_on(*this); }
  std::vector<const model::Movement*> taken_early() const override { return early(); }
  std::vector<std::string_view> circumstances(const Handled& handled) const override;

  const std::vector<Wait>& waits() const;
  const Wait* wait() const { return longest(waits(), history_.now); }  // or null
  bool waits_now() const { return wait() != nullptr && history_.today < wait()->safe; }
  const std::vector<const model::Movement*>& early() const;
  const std::vector<Given>& given() const;
  const std::optional<Need>& need() const;
  bool stands() const;  // a crop does: planted, and not cleared since
  bool in_harvest() const;

 private:
  mutable std::optional<std::vector<Wait>> waits_;
  mutable std::optional<std::vector<const model::Movement*>> early_;
  mutable std::optional<std::vector<Given>> given_;
  mutable std::optional<std::optional<Need>> need_;
};

}  // namespace kinds::bed
