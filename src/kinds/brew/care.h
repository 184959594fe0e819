#pragma once

#include <optional>
#include <vector>

#include "kinds/study.h"
#include "model/finding.h"
#include "model/history.h"
#include "model/rules.h"

// What a drum wants of hands while it brews and after.
namespace kinds::brew {

class Study;

// Whether its lid holds gas: sealed, and not left open since.
bool is_sealed(const model::History& history);
// How long an aerated brew has been without logged air, where that is too long.
std::optional<measure::Days> time_without_air(const model::History& history,
                                              const model::Rules& rules);
// Whether it smelt lately as no ready brew of its sort does.
bool is_foul(const model::History& history, const model::Rules& rules);
// Whether a brew without air has been ready for too long.
bool is_old(const Study& study);

std::optional<model::Finding> judge_ready(const Study& study);
// A sealed drum builds gas.
std::optional<model::Finding> judge_vent(const Study& study);
// While it works.
std::optional<model::Finding> judge_stir(const Study& study);
// An anaerobic drum left open, an aerated brew without air.
std::optional<model::Finding> judge_open(const Study& study);
std::optional<model::Finding> judge_old(const Study& study);
// What its smell says, in its sort of brew and at its age.
std::optional<model::Finding> judge_smell(const Study& study);
// Lye, lime or ash in it, or ammonia: it burns eyes and skin.
std::optional<model::Finding> judge_alkaline(const Study& study);
// A drum that is closed under a sealed lid goes on building gas, and nobody is told any more.
std::optional<Objection> against_ending(const Study& study);
// Made for leaves, or carried out as a brew of plants, though there is raw manure in it.
void judge_manure(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::brew
