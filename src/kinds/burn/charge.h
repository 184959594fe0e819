#pragma once

#include <string>
#include <vector>

#include "kinds/burn/study.h"

// Charging: loading char with nutrients before a bed gets it, here or in another batch.
namespace kinds::burn {

// Char that was put into a pile or a brew to charge there: the last load of each.
struct Elsewhere {
  const model::Movement* load;
  model::Threshold<measure::Days> needs;
  const model::Movement* back;  // null: it has not come back
  int days{};                   // that it has been there, or was
};
std::vector<Elsewhere> charging_elsewhere(const Study& study);

// `burn.raw`: the last load of each bed that went there before it was charged.
void judge_raw(const Study& study, std::vector<model::Finding>& into);
// `burn.charged` of the char that is here.
std::optional<model::Finding> judge_charged_here(const Study& study);
// `burn.charged` of char that was mixed into a pile or soaked in a brew elsewhere.
void judge_charged_elsewhere(const Study& study, std::vector<model::Finding>& into);
// `burn.dry`: what charges must stay moist.
std::optional<model::Finding> judge_dry(const Study& study);

}  // namespace kinds::burn
