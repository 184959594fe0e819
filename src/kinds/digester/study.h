#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kinds/digester/due.h"
#include "kinds/digester/expected.h"
#include "kinds/digester/feed.h"
#include "kinds/digester/gas.h"
#include "kinds/digester/mix.h"
#include "kinds/digester/slurry.h"
#include "kinds/digester/startup.h"
#include "kinds/digester/trend.h"
#include "kinds/digester/warmth.h"
#include "kinds/study.h"

namespace kinds::digester {

using Found = std::optional<model::Finding>;

// Gas of the last days, what was due in them, and what came before.
struct Compared {
  GasRate measured;
  std::optional<science::NormalLitres> expected;
  std::optional<GasRate> before;  // of the same length, before it
};

// Which of its forecasts can be said, by its own last weeks: warmth where these do not show it to
// be worse than "it stays as it is", gas where they show it to be no worse.
struct Foreseen {
  bool warmth = true, gas = true;
};

// Each piece is worked out when it is first asked for.
class Study final : public kinds::Study {
 public:
  Study(const model::History& history, const model::Rules& rules)
      : kinds::Study(history, rules),
        startup_(startup_of(history, rules)),
        warmth_(warmth_of(history, rules)) {}

  std::string stage() const override { return stage_of(history_, startup_); }
  std::vector<model::Finding> findings() const override;
  std::vector<model::Finding> by_calendar() const override;
  std::optional<Rhythm> feed_rhythm() const override;
  model::Words words(const model::Finding& finding) const override;
  std::string well() const override;
  std::vector<model::Progress> progress() const override;
  std::vector<model::Forecast> forecasts() const override;
  std::vector<model::Forecast> coming() const override;
  std::vector<ForesightScore> replay() const override;
  Foreseen foreseen_well() const;
  std::vector<model::Measure> figures() const override;
  std::optional<Objection> against_taking(const model::Movement& load) const override;
  bool is_meant(model::Forbids what, const model::Movement& load) const override;
  std::optional<Objection> against_ending() const override;
  using kinds::Study::doubts;
  std::optional<std::string> doubts(const Quantity& quantity, double si) const override;
  std::vector<std::string_view> circumstances(const Handled& handled) const override;

  const Startup& startup() const { return startup_; }
  const Warmth& warmth() const { return warmth_; }
  const Feed& feed() const;
  const Slurry& slurry() const;
  const Gas& gas() const;
  const std::optional<Expected>& expected() const;
  const std::optional<Compared>& compared() const;  // none while too little was measured
  const std::vector<Trend>& trends() const;
  const FeedMix& mix() const;
  const std::optional<GasDue>& due() const;
  bool running() const { return startup_.running(); }
  bool resting() const { return is_resting(history_); }
  // Through a winter the pace is another than in a spell.
  bool winter() const { return is_winter(history_, rules_, warmth_); }

 private:
  std::vector<ForesightScore> replay_from(model::Day first) const;

  void feed_findings(std::vector<model::Finding>& into) const;

  Startup startup_;
  Warmth warmth_;
  mutable std::optional<Feed> feed_;
  mutable std::optional<Slurry> slurry_;
  mutable std::optional<Gas> gas_;
  mutable std::optional<std::optional<Expected>> expected_;
  mutable std::optional<std::optional<Compared>> compared_;
  mutable std::optional<std::vector<Trend>> trends_;
  mutable std::optional<FeedMix> mix_;
  mutable std::optional<std::optional<GasDue>> due_;
};

}  // namespace kinds::digester
