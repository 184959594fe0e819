#include "science/weather/rain.h"

#include <doctest/doctest.h>

#include <cmath>

#include "tests/published/figures.h"

using measure::Fraction;
using measure::Litres;
using measure::Metres;
using measure::SquareMetres;

namespace {

// Exact by definition (NIST Special Publication 811, 2008, appendix B.8).
constexpr double kGallon = 3.785411784;
constexpr double kMetresPerInch = 0.0254;
constexpr double kSquareMetresPerSquareFoot = 0.09290304;

double gallons(double square_feet, double inches, double coefficient) {
  return science::roof_catch(SquareMetres{square_feet * kSquareMetresPerSquareFoot},
                             Metres{inches * kMetresPerInch}, Fraction{coefficient})
             .value /
         kGallon;
}

}  // namespace

TEST_CASE("rain: printed examples of what a roof catches") {
  // Home Power magazine, "Sizing a whole-house rainwater system": 1000 ft2 and an inch give 623
  // gal, at 90 % 561 gal.
  CHECK(is_near(gallons(1000, 1, 1), 623, 0.5));
  CHECK(is_near(gallons(1000, 1, 0.9), 561, 0.5));
  // Common practice, no source: 800 ft2 and two inches of rain at 0.623 give 996.8 gal. The exact
  // factor is 144/231 = 0.623377, 0.06 % more than the rounded one.
  CHECK(is_near(gallons(800, 2, 1), 996.8, 0.001 * 996.8));
  CHECK(is_near(gallons(800, 2, 1), 800 * 2 * 144.0 / 231, 1e-9));
  // Greywater Action, rainwater FAQ: 2000 ft2 at 0.56 gal (0.62 with 90 %) give 1,120 gal an inch
  // and 28,000 gal from 25 inches. Their factor is rounded by 0.2 %.
  CHECK(is_near(gallons(2000, 1, 0.9), 1120, 0.003 * 1120));
  CHECK(is_near(gallons(2000, 25, 0.9), 28000, 0.003 * 28000));
  // Texas A&M AgriLife: 2000 ft2 at 0.6 gal give 1,200 gal an inch, 44,400 gal from 37 inches: 0.6
  // is 0.623377 at a coefficient of 0.9625.
  CHECK(is_near(gallons(2000, 1, 0.6 * 231 / 144), 1200, 1e-6));
  CHECK(is_near(gallons(2000, 37, 0.6 * 231 / 144), 44400, 1e-4));
  // An acre-inch, "27,000 gallons" in round numbers; 27,154.2857 by the unit definitions.
  CHECK(is_near(gallons(43560, 1, 1), 27154.2857, 1e-4));
  // A litre a square metre and millimetre.
  CHECK(science::roof_catch(SquareMetres{50}, Metres{0.010}, Fraction{0.9}).value ==
        doctest::Approx(450).epsilon(1e-12));
}

TEST_CASE("rain: the first flush") {
  // "A minimum of 10 gallons for every 1,000 square feet" (trade rule; the Texas Manual on
  // Rainwater Harvesting has 1 gal a 100 ft2, the same depth): 231/14400 in, 0.407458 mm by the
  // unit definitions.
  const SquareMetres roof{100 * kSquareMetresPerSquareFoot};
  const double depth = science::flush_depth(Litres{kGallon}, roof, Fraction{1}).value;
  CHECK(is_near(depth * 1000, 0.407458, 1e-6));
  // A roof that loses a tenth needs more rain to fill the same pipe.
  CHECK(science::flush_depth(Litres{kGallon}, roof, Fraction{0.9}).value ==
        doctest::Approx(depth / 0.9));
  // "Contamination is halved for each mm of rainfall flushed away" (12th International Rainwater
  // Catchment Systems Conference 2005; LibreTexts, To Catch the Rain, 4.4).
  CHECK(science::dirt_left_after(Metres{0}).value == 1);
  CHECK(science::dirt_left_after(Metres{0.001}).value == doctest::Approx(0.5));
  CHECK(science::dirt_left_after(Metres{0.002}).value == doctest::Approx(0.25));
  CHECK(science::dirt_left_after(Metres{0.003}).value == doctest::Approx(0.125));
  // log2(10) = 3.321928.
  CHECK(is_near(science::rain_until_dirt_left(Fraction{0.1}).value * 1000, 3.321928, 1e-6));
}
