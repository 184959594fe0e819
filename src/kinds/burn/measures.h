#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/burn/account.h"
#include "model/assessment.h"

// What a burn was worth: its yield, its carbon, the part of that which lasts, and where the char
// went.
namespace kinds::burn {

class Study;

// Carbon that is still in the soil after a century, once the char lies there.
struct Lasting {
  std::optional<measure::Kilograms> carbon;
  measure::Fraction doubt{};  // half-width of the 95 % interval as a share of it
  std::string basis;          // what it rests on; why there is none or nothing
};
Lasting lasting_of(const Study& study);
// What it keeps out of the air, and what that lies between: the ends of the lasting carbon's
// interval against those of the methane.
struct Balance : science::CharBalance {
  model::Measure::Range methane_range, stored_range, net_range;  // kg
};
std::optional<Balance> balance_of(const Study& study);

// The bed that the char which is left is enough for; none where its volume is not known.
struct BedFor {
  measure::SquareMetres least, most;
};
std::optional<BedFor> bed_for(const Study& study);

std::vector<model::Measure> measures_of(const Study& study);

}  // namespace kinds::burn
