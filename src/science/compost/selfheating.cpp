#include "science/compost/selfheating.h"

#include <cmath>

namespace science {

std::optional<SelfHeatingClass> self_heating_class(measure::Kelvins greatest_rise) {
  const double rise = greatest_rise.value;
  if (std::isnan(rise)) return std::nullopt;
  if (rise > 40) return SelfHeatingClass::I;
  if (rise > 30) return SelfHeatingClass::II;
  if (rise > 20) return SelfHeatingClass::III;
  if (rise > 10) return SelfHeatingClass::IV;
  return SelfHeatingClass::V;
}

}  // namespace science
