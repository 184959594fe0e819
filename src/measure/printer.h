#pragma once

#include <string>
#include <string_view>

#include "measure/unit.h"

namespace measure {

// How a quantity likes to be shown where the usual unit does not suit it (rain in inches or
// millimetres, a feed in ounces or grams). Empty: the usual unit for its size.
struct ShownIn {
  std::string_view us;
  std::string_view metric;
};

// A number with at most `decimals` decimals, trailing zeros dropped, and a comma between thousands.
std::string print_number(double number, int decimals);

// Prints values in one system of units. Units are always written out.
class Printer {
 public:
  explicit Printer(UnitSystem system) : system_(system) {}

  UnitSystem system() const { return system_; }

  // "148 °F", "1,250 lb", "2.6 gal", "55 %". Decimals follow the size.
  std::string operator()(Value value, ShownIn shown_in = {}) const;

  template <class T>
  std::string operator()(T scalar) const {
    return (*this)(value_of(scalar));
  }

  // What is known only as a range, two figures an end, in the unit that suits its greater end: "2.9
  // to 15 oz", "-2,400 to 300 lb"; one number where the two print alike: "about 15 oz".
  std::string between(Value low, Value high, ShownIn shown_in = {}) const;
  // An estimate, to two figures: "1,300 lb".
  std::string roughly(Value value, ShownIn shown_in = {}) const;
  // A value with the digits that tell it from its limit: "160.04 °F" beside "160 °F", where both
  // would print alike; as usual where they are one.
  std::string beside(Value value, Value limit, ShownIn shown_in = {}) const;
  template <class T>
  std::string beside(T value, T limit) const {
    return beside(value_of(value), value_of(limit));
  }

  // A temperature difference in the system's own degrees: "9 °F".
  std::string difference(Kelvins difference) const;

  // A Number with its unit label: "120 mg/larva/d".
  static std::string labelled(double number, std::string_view label);

 private:
  UnitSystem system_;
};

}  // namespace measure
