#pragma once

#include <optional>
#include <vector>

#include "kinds/brew/contents.h"
#include "model/assessment.h"
#include "science/soil/brew.h"
#include "science/soil/salinity.h"

// How a brew is used: how far it is thinned, how much for a bed, how salty that is, and what it was
// worth.
namespace kinds::brew {

class Study;

// What asked for so much water.
enum class ThinnedFor { kCustom, kSugar, kWeak, kLeaves, kSalt, kMuchNitrogen };

struct Dilution {
  science::BrewParts parts;
  ThinnedFor by = ThinnedFor::kCustom;
  bool nitrogen_asks_less = false;  // of a brew thinned as is the custom: its EC would tell
};
// The most water that any of these asks for: the salt of the mix, its nitrogen, leaves, and what
// the base is usually thinned to. Where EC and nitrogen are both known as of now, custom does not
// ask: a weak brew need not be thinned ten times.
Dilution dilution_of(const Study& study);

struct Salt {
  measure::DecisiemensPerMetre neat, mixed;
  science::SaltRisk neat_risk, mixed_risk;
};
// None where its EC was not read.
std::optional<Salt> salt_of(const Study& study);

// One watering of a plot, what it brings, and how many bring what a feeding should.
struct Watering {
  measure::SquareMetres area;
  measure::Litres poured, brew;
  measure::Kilograms brings, wanted;
  double waterings;
  bool waters_more_than_it_feeds;
};
// None where its nitrogen is not known.
std::optional<Watering> watering_of(const Study& study);

// What a load of it holds: the laboratory's figures, else the estimate; nothing where neither is
// known.
std::optional<model::Load> load_of(const model::Movement& out, const Study& study);

// mg/L; none: not known.
std::optional<double> concentration(measure::Kilograms mass, measure::Litres liquid);

std::vector<model::Measure> measures_of(const Study& study);

}  // namespace kinds::brew
