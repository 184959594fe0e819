#pragma once

#include "kinds/burn/account.h"

// What a burn was worth: its yield, its carbon, the part of that which lasts, and where the char
// went.
namespace kinds::burn {

// Carbon that is still in the soil after a century, once the char lies there.
struct Lasting {
  std::optional<measure::Kilograms> carbon;
  measure::Fraction doubt{};  // half-width of the 95 % interval as a share of it
  std::string basis;          // what it rests on; why there is none or nothing
};
Lasting lasting_of(const model::History& history, const model::Rules& rules, const Course& course,
                   const Account& account);

void measure_burn(const model::History& history, const model::Rules& rules, const Course& course,
                  const Account& account, model::Assessment& into);

// "26 lb of dry char, 22 % of the dry feedstock", and what it keeps net of methane, for the answer
// to a reading of the char.
void tell_yield(const model::History& history, const model::Rules& rules, const Course& course,
                const Account& account, model::Assessment& into);

// "32 to 64 ft2 of bed": what a volume of char is enough for; empty where the volume is not known.
std::string bed_words(const model::History& history, const model::Rules& rules,
                      const Account& account);

}  // namespace kinds::burn
