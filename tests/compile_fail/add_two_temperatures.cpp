#include "measure/scalar.h"

// Two points on the temperature scale have no sum; 55 degC and 10 K do.
measure::Celsius sum(measure::Celsius a, measure::Kelvins d) {
  return a + d;
}
#ifdef WRONG
measure::Celsius wrong(measure::Celsius a, measure::Celsius b) {
  return a + b;  // ERROR: no match for .operator\+.|invalid operands to binary expression
}
#endif
