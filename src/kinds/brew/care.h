#pragma once

#include <optional>

#include "kinds/brew/clock.h"
#include "kinds/brew/contents.h"
#include "model/assessment.h"
#include "model/rules.h"

// What a drum wants of hands while it brews and after.
namespace kinds::brew {

// `brew.vent`: a sealed drum builds gas.
void judge_vent(const model::History& history, const model::Rules& rules, const Contents& contents,
                const Clock& clock, model::Assessment& into);
// `brew.stir`: while it works.
void judge_stir(const model::History& history, const model::Rules& rules, const Clock& clock,
                model::Assessment& into);
// How long an aerated brew has been without logged air, where that is too long.
std::optional<double> hours_without_air(const model::History& history, const model::Rules& rules);
// Whether it smelt lately as no ready brew of its sort does.
bool is_foul(const model::History& history, const model::Rules& rules);
// `brew.open`: an anaerobic drum left open, an aerated brew without air.
void judge_open(const model::History& history, const model::Rules& rules, const Contents& contents,
                model::Assessment& into);
// `brew.old`: ready for too long. Gives whether it is.
bool judge_old(const model::History& history, const model::Rules& rules, const Contents& contents,
               const Clock& clock, model::Assessment& into);
// `brew.smell`: what its smell says, in its sort of brew and at its age.
void judge_smell(const model::History& history, const model::Rules& rules, const Contents& contents,
                 const Clock& clock, model::Assessment& into);
// `brew.manure`: made for leaves, or carried out as a brew of plants, though there is raw manure in
// it.
void judge_manure(const model::History& history, const model::Rules& rules,
                  const Contents& contents, model::Assessment& into);

}  // namespace kinds::brew
