#include "kinds/thresholds.h"

namespace limits = kinds::thresholds::pile;

// A limit of temperature is a Celsius, and nothing else.
measure::Celsius right(const model::Rules& rules) {
  return rules(limits::hot_above);
}
#ifdef WRONG
measure::Days wrong(const model::Rules& rules) {
  return rules(limits::hot_above);  // ERROR: could not convert|no viable conversion
}
#endif
