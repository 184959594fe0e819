#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/flock/laying.h"
#include "kinds/flock/ration.h"
#include "kinds/study.h"

namespace kinds::flock {

// Each piece is worked out when it is first asked for.
class Study final : public kinds::Study {
 public:
  using kinds::Study::Study;

  std::string stage() const override;
  std::vector<model::Finding> findings() const override;
  model::Words words(const model::Finding& finding) const override;
  std::string well() const override;
  std::vector<model::Progress> progress() const override;
  std::vector<model::Measure> figures() const override;
  bool is_meant(model::Forbids what, const model::Movement& load) const override;
  std::optional<model::Load> holds(const model::Movement& load) const override;
  std::optional<std::string> doubts(const Quantity& quantity, double si) const override;

  // What the hens were fed of late, what it falls short of, and how much of it are larvae.
  const FeedSpan& fed() const;
  const Wants& wants() const;
  const std::optional<LarvaeShare>& larvae() const;
  const Laying& laying() const;

 private:
  mutable std::optional<FeedSpan> fed_;
  mutable std::optional<Wants> wants_;
  mutable std::optional<std::optional<LarvaeShare>> larvae_;
  mutable std::optional<Laying> laying_;
};

}  // namespace kinds::flock
