#pragma once

#include <compare>

// Numbers that carry their unit in their type, so that a litre cannot be passed where a kilogram is
// wanted. Construction and reading are explicit; amounts of one unit add, subtract and compare.
namespace measure {

template <class Tag>
struct Scalar {
  double value{};

  constexpr Scalar() = default;
  constexpr explicit Scalar(double v) : value(v) {}
  friend constexpr auto operator<=>(Scalar, Scalar) = default;
  friend constexpr Scalar operator+(Scalar a, Scalar b) { return Scalar{a.value + b.value}; }
  friend constexpr Scalar operator-(Scalar a, Scalar b) { return Scalar{a.value - b.value}; }
  friend constexpr Scalar operator*(Scalar a, double k) { return Scalar{a.value * k}; }
  friend constexpr Scalar operator*(double k, Scalar a) { return Scalar{a.value * k}; }
  friend constexpr Scalar operator/(Scalar a, double k) { return Scalar{a.value / k}; }
  // How many times b goes into a: a bare ratio.
  friend constexpr double operator/(Scalar a, Scalar b) { return a.value / b.value; }
  constexpr Scalar& operator+=(Scalar b) {
    value += b.value;
    return *this;
  }
};

using Kelvins = Scalar<struct KelvinsTag>;                          // a temperature difference
using Kilograms = Scalar<struct KilogramsTag>;                      //
using Litres = Scalar<struct LitresTag>;                            //
using SquareMetres = Scalar<struct SquareMetresTag>;                //
using Metres = Scalar<struct MetresTag>;                            //
using Fraction = Scalar<struct FractionTag>;                        // 0.55 is 55 %
using Ph = Scalar<struct PhTag>;                                    //
using DecisiemensPerMetre = Scalar<struct DecisiemensPerMetreTag>;  // = mS/cm
using Kilopascals = Scalar<struct KilopascalsTag>;                  //
using KilowattHours = Scalar<struct KilowattHoursTag>;              //
using Watts = Scalar<struct WattsTag>;                              //
using Days = Scalar<struct DaysTag>;                                // a length of time, not a date
using DegreeDays = Scalar<struct DegreeDaysTag>;                    // degC x days
using Number =
    Scalar<struct NumberTag>;  // a count, a ratio such as C:N, a rate that names its unit

// A point on the temperature scale. Two points differ by Kelvins; adding two points does not
// compile.
struct Celsius {
  double value{};

  constexpr Celsius() = default;
  constexpr explicit Celsius(double v) : value(v) {}
  friend constexpr auto operator<=>(Celsius, Celsius) = default;
  friend constexpr Kelvins operator-(Celsius a, Celsius b) { return Kelvins{a.value - b.value}; }
  friend constexpr Celsius operator+(Celsius a, Kelvins d) { return Celsius{a.value + d.value}; }
  friend constexpr Celsius operator-(Celsius a, Kelvins d) { return Celsius{a.value - d.value}; }
};

}  // namespace measure
