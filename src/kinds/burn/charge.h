#pragma once

#include "kinds/burn/account.h"

// Charging: loading char with nutrients before a bed gets it, here or in another batch.
namespace kinds::burn {

// `burn.raw`: the last load of each bed that went there before it was charged.
void judge_raw(const model::History& history, const model::Rules& rules, const Course& course,
               model::Assessment& into);

// `burn.charged` of the char that is here; how far it is and when it will be.
void judge_charged_here(const model::History& history, const model::Rules& rules,
                        const Course& course, const Account& account, model::Assessment& into);

// `burn.charged` of char that was mixed into a pile or soaked in a brew elsewhere: the last load of
// each.
void judge_charged_elsewhere(const model::History& history, const model::Rules& rules,
                             const Account& account, model::Assessment& into);

// `burn.dry`: what charges must stay moist.
void judge_dry(const model::History& history, const model::Rules& rules, const Course& course,
               const Account& account, model::Assessment& into);

}  // namespace kinds::burn
