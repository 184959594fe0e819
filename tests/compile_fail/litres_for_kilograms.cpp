#include "measure/scalar.h"

double weighed(measure::Kilograms);

double right() {
  return weighed(measure::Kilograms{40});
}
#ifdef WRONG
double wrong() {
  return weighed(measure::Litres{40});  // ERROR: could not convert|no matching function
}
#endif
