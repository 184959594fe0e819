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

// What went in that may carry a lasting herbicide, since peas or beans last grew well in it.
struct Carryover {
  std::vector<std::string> of;
  bool failed = false;  // they did not
};
Carryover carryover_of(const model::History& history);

// Manure or animal matter in it that the organic rule's treatment is not shown of; null: none.
const model::Material* raw_in(const Study& study);

bool is_compost(const model::Movement& out);

// `pile.unready`: such a load, for pile.unready.told days after it, once a bed.
void judge_unready(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::pile
