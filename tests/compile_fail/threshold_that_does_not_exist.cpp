#include "kinds/thresholds.h"

namespace limits = kinds::thresholds::pile;

measure::Celsius right(const model::Rules& rules) {
  return rules(limits::hot_above);
}
#ifdef WRONG
measure::Celsius wrong(const model::Rules& rules) {
  return rules(limits::hot_abov);  // ERROR: 'hot_abov' is not a member|no member named 'hot_abov'
}
#endif
