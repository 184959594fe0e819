#pragma once

#include <span>
#include <string>
#include <string_view>

#include "measure/result.h"
#include "measure/unit.h"

namespace measure {

// A vessel that a site measures with: a bucket, a barrow. Its content is a volume.
struct Container {
  std::string name;
  Litres content;
};

// A number with its unit, as typed and in base units.
struct Amount {
  Value value;
  std::string typed;  // "2 bucket", "40 kg": the spelling that was read
};

// An amount and what stood behind it.
struct AmountThen {
  Amount amount;
  std::string rest;  // white space trimmed; a leading "of " dropped
};

// A plain number: digits with an optional sign and decimal point, or a fraction ("1/2", "1 1/2",
// "½"). Refuses everything else (nan, inf, hex, exponents, digit grouping) and what a double cannot
// hold.
Result<double> parse_number(std::string_view text);

// Reads a number and a unit, one of the table's or one of the site's containers (singular or
// plural), at the start of `text`. A missing unit is a mistake; so is a number below zero where the
// dimension is not a temperature.
Result<AmountThen> parse_amount_then(std::string_view text, std::span<const Container> containers);

// The whole text must be a number with an optional unit of that dimension; a bare number takes
// `bare`.
Result<Amount> parse_value(std::string_view text, Dimension wanted, const Unit& bare,
                           std::span<const Container> containers = {});

}  // namespace measure
