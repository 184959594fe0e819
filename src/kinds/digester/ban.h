#pragma once

#include <vector>

#include "kinds/digester/study.h"
#include "kinds/kind.h"

// What a digester should not be fed, or not much of.
namespace kinds::digester {

// What stands against a material.
enum class Ban {
  kNone,
  kPoison,
  kSulfur,
  kPoultry,
  kPoultryTaken,
  kLimited,
  kWoody,
  kSettling,
  kAnimal
};

// Poultry manure is refused unless the batch was started with poultry=yes.
Ban ban_on(const model::Material& material, const model::Batch& batch);
// Else it only warns.
inline bool refuses(Ban ban) {
  return ban == Ban::kPoison || ban == Ban::kSulfur || ban == Ban::kPoultry;
}
std::string source_of(Ban ban, const model::Rules& rules);

// `digester.banned`: what went in against the rules, and too much of what is limited.
Found judge_banned(const Study& study);
Found judge_limited(const Study& study);

}  // namespace kinds::digester
