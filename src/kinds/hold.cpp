#include "kinds/hold.h"

#include <fmt/format.h>

namespace kinds {

std::optional<model::Told> forbidding(const Study& study, model::Forbids what) {
  for (model::Told& one : study.told()) {
    if (one.forbids == what) return std::move(one);
  }
  return std::nullopt;
}

std::optional<Objection> against_hold(const Study& study, const model::Movement& load) {
  for (const model::Forbids what : {model::Forbids::kFlame, model::Forbids::kProduct}) {
    if (!study.is_meant(what, load)) continue;
    if (const auto hold = forbidding(study, what))
      return Objection{true, hold->rule,
                       fmt::format("{}; {}", hold->words.says, hold->words.action), hold->source};
  }
  return std::nullopt;
}

}  // namespace kinds
