#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/burn/account.h"
#include "kinds/burn/course.h"
#include "kinds/burn/ember.h"
#include "kinds/burn/measures.h"
#include "kinds/study.h"

namespace kinds::burn {

// Each piece is worked out when it is first asked for.
class Study final : public kinds::Study {
 public:
  Study(const model::History& history, const model::Rules& rules)
      : kinds::Study(history, rules), course_(course_of(history)) {}

  std::string stage() const override;
  std::vector<model::Finding> findings() const override;
  std::vector<model::Finding> by_calendar() const override;
  model::Words words(const model::Finding& finding) const override;
  std::string well() const override;
  std::vector<model::Progress> progress() const override;
  std::vector<model::Forecast> forecasts() const override;
  std::vector<model::Measure> figures() const override;
  std::optional<Objection> against_taking(const model::Movement& load) const override;
  std::optional<Objection> against_ending() const override;
  bool loses_yet() const override;
  using kinds::Study::doubts;
  std::optional<std::string> doubts(const Word& word, model::Instant at) const override;
  std::vector<std::string_view> circumstances(const Handled& handled) const override;

  const Course& course() const { return course_; }
  const Embers& embers() const;
  const Account& account() const;
  const Lasting& lasting() const;
  bool is_burning() const;  // lit, and no quench is logged
  bool is_laid() const;     // nothing says that it was ever lit
  // There was a fire, and it is not found cold and wet since.
  bool may_hold_embers() const { return course_.had_fire() && !embers().out; }
  std::optional<int> days_charged() const { return burn::days_charged(course_, history_.today); }

 private:
  Course course_;
  mutable std::optional<Embers> embers_;
  mutable std::optional<Account> account_;
  mutable std::optional<Lasting> lasting_;
};

}  // namespace kinds::burn
