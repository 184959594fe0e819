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

// Whether a material is poison in a fire, by the catalogue or by the name it was given.
bool is_foul(const model::Material& material);
// What went into the fire or lies there to be burnt that is foul, as it was named; empty: nothing.
std::string foul_in(const model::History& history, const Course& course);

// The parts of the feedstock by the mass that was carried in; where nothing of it is logged, what
// the burn's own `feedstock` names. Empty where a part is not in the table: a mix is known whole or
// not.
std::vector<FeedstockPart> feedstock_mix(const model::History& history, const Course& course);

}  // namespace kinds::burn
