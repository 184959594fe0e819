#pragma once

#include <optional>
#include <string_view>

#include "kinds/pile/days.h"
#include "model/rules.h"
#include "science/compost/selfheating.h"

// Where a pile stands, from its temperatures and not from its age.
namespace kinds::pile {

enum class Stage {
  kUnread,      // no temperature yet
  kWarming,     // not hot yet, and there is still time
  kNotHeating,  // a failed start: it should be hot by now and does not rise
  kWarm,        // in the thermophilic range, below the heat of a treatment; or dipped by a turning
  kHot,         // at the heat of a treatment
  kCooling,     // left it, but a turning may still bring it back
  kCuring,      // stays below it, turned or left alone
  kReady,       // cured long enough, near the air, not reheating
  kResting,     // made cold
};

std::string_view word(Stage stage);  // "not heating"

// Warm or hot: in the thermophilic range.
bool in_heat(Stage stage);

// Whether the last two days that were read climb by a kelvin a day or more; so too where there are
// fewer.
bool is_rising(const Course& course);

struct Wanting {
  enum class What {
    kNothing,
    kSelfHeatingTest,  // the last one says that it still works
    kDays,
    kAirReading,
    kNearerAir,
    kTurning,
    kDaysAfterTurning,
  };
  What what{};
  int days = 0;              // in all, for kDays
  measure::Kelvins above{};  // the air, for kNearerAir
};

struct Standing {
  Stage stage{};
  std::optional<model::Day> first_hot, last_hot;
  int hot_days = 0;         // days read hot
  int reheats = 0;          // times it came back by itself after two days or more below
  int turning_reheats = 0;  // times it came back after a turning
  bool dipped = false;      // below the range now because it was turned lately
  bool turned_since_hot = false;
  int curing_days = 0;                  // since it was last hot
  double peak_now = 0;                  // the latest day's, degC
  std::optional<measure::Celsius> air;  // of the last days
  std::optional<science::SelfHeatingClass> self_heating;
  Wanting wants{};  // what a curing or resting pile still wants before it is ready
};

Standing standing(const model::History& history, const model::Rules& rules, const Course& course);

}  // namespace kinds::pile
