#pragma once

#include <optional>
#include <string>

#include "kinds/panel/study.h"
#include "model/finding.h"

// The sentences of a set of panels.
namespace kinds::panel {

model::Words words_of(const model::Finding& finding, const Study& study);

// "1.9 kWh Sat 29 May, 132 % of a mean day's 1.44 kWh": the latest day that made any.
std::string made_words(const Study& study);
// "full, it carries 2 days of the present use (0.6 kWh a day over 10 days)"
std::string carrying_words(const Carrying& carrying, const Study& study);
// "a day's 1.57 kWh carries pump 18.5 hours"; empty: nothing hangs on it.
std::string uses_words(measure::KilowattHours a_day, const Study& study);
// What its watts would give today, were there no air.
std::string at_most_words(measure::KilowattHours most, const Study& study);
std::string made_basis(const Study& study);
std::string expected_basis(const Study& study);

}  // namespace kinds::panel
