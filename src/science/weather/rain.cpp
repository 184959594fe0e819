#include "science/weather/rain.h"

#include <cassert>
#include <cmath>

#include "science/numbers/constants.h"

namespace science {

using measure::Fraction;
using measure::Litres;
using measure::Metres;
using measure::SquareMetres;

namespace {

constexpr double kMillimetresPerMetre = 1000;

}  // namespace

Litres roof_catch(SquareMetres roof, Metres rain, Fraction coefficient) {
  return Litres{roof.value * rain.value * kLitresPerCubicMetre * coefficient.value};
}

Metres flush_depth(Litres flush, SquareMetres roof, Fraction coefficient) {
  assert(roof.value > 0 && coefficient.value > 0);
  return Metres{flush.value / kLitresPerCubicMetre / (roof.value * coefficient.value)};
}

Fraction dirt_left_after(Metres rain) {
  return Fraction{std::exp2(-rain.value * kMillimetresPerMetre)};
}

Metres rain_until_dirt_left(Fraction share) {
  assert(share.value > 0 && share.value <= 1);
  return Metres{std::log2(1 / share.value) / kMillimetresPerMetre};
}

}  // namespace science
