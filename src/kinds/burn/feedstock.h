#pragma once

#include <optional>
#include <vector>

#include "kinds/burn/course.h"
#include "science/soil/char.h"

// What was burnt, as the IPCC's table sorts it.
namespace kinds::burn {

struct FeedstockPart {
  science::CharFeedstock feedstock;
  double weight;  // kg as carried, or 1 where no mass is known
};

// The sort that a material of the catalogue belongs to; none for what the table does not hold.
std::optional<science::CharFeedstock> sort_of(const model::Material& material);

// The parts of the feedstock by the mass that was carried in; where nothing of it is logged, what
// the burn's own `feedstock` names. Empty where a part is not in the table: a mix is known whole or
// not.
std::vector<FeedstockPart> feedstock_mix(const model::History& history, const Course& course);

}  // namespace kinds::burn
