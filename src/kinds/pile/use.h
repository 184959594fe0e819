#pragma once

#include <optional>
#include <vector>

#include "kinds/pile/study.h"

// Compost that is carried to a bed before its pile is done.
namespace kinds::pile {

// What a pile lacks before its compost may go on a bed: it is not ripe, or a treatment is not
// shown.
struct Lack {
  bool unripe = false;
  std::optional<Treatment> treatment{};

  bool any() const { return unripe || treatment; }
};
Lack lack_of(const Study& study);

bool is_compost(const model::Movement& out);

// `pile.unready`: such a load, for pile.unready.told days after it, once a bed.
void judge_unready(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::pile
