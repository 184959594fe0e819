// How near a computed value must come to a published one, and the units these come in.
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "measure/scalar.h"

// Equal to within an absolute tolerance; doctest's own is relative.
inline doctest::Approx within(double tolerance, double value) {
  return doctest::Approx(value).epsilon(1e-12).scale(tolerance * 1e12);
}

inline bool is_near(double value, double expected, double within) {
  return std::fabs(value - expected) <= within;
}

// Relative, where doctest::Approx would forgive any error in figures far below 1.
inline bool close_to(double value, double expected, double relative) {
  return is_near(value, expected, relative * std::fabs(expected));
}

constexpr measure::Kilograms grams(double g) {
  return measure::Kilograms{g / 1000};
}

inline constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
