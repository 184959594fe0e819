#pragma once

#include <optional>
#include <string>

#include "kinds/digester/feed.h"
#include "model/assessment.h"
#include "model/history.h"
#include "model/rules.h"

// What a digester should not be fed, or not much of.
namespace kinds::digester {

struct Ban {
  bool refuses;  // else it only warns
  std::string says;
  std::string source;
};

// What stands against a material; none: it may go in. Poultry manure is refused unless the batch
// was started with poultry=yes.
std::optional<Ban> ban_on(const model::Material& material, const model::Batch& batch,
                          const model::Rules& rules);

// Oil, grease and citrus: in small amounts only.
bool is_limited(const model::Material& material);

// `digester.banned`: what went in against the rules, and too much of what is limited.
void judge_banned(const model::History& history, const model::Rules& rules, const Feed& feed,
                  model::Assessment& into);

}  // namespace kinds::digester
