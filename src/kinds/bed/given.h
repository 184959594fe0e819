#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/assessment.h"
#include "model/finding.h"
#include "model/history.h"
#include "model/rules.h"
#include "science/soil/char.h"
#include "science/soil/nutrients.h"

// What was put on a bed, what its crop can have of it, and what the crop takes.
namespace kinds::bed {

class Study;

// What is not known of a load.
struct Missing {
  bool weight = false;
  bool nitrogen = false, phosphorus = false, potassium = false;

  bool any() const { return weight || nitrogen || phosphorus || potassium; }
};

// One material over all its loads.
struct Given {
  std::string material;
  std::string group;
  measure::Kilograms mass;    // of what can be weighed
  measure::Litres volume;     // of what can be measured
  science::NutrientMass all;  // by what is known
  science::NutrientMass first_year;
  measure::Kilograms nitrogen_least, nitrogen_most;  // what first_year's nitrogen lies between
  Missing missing;
};
// In this batch's time, water and crops left out; by name.
std::vector<Given> given_to(const model::History& history, const model::Rules& rules);
science::NutrientMass first_year_of(const std::vector<Given>& given);
// What its nitrogen lies between; none where its share is known as well as it is printed.
std::optional<model::Measure::Range> nitrogen_range(const std::vector<Given>& given);

// Bought fertilizer that the site's own loads took the place of: what this year's crop can have of
// them, and no more than it needed (by its soil test or the harvest that is expected, else what its
// harvest took).
struct TookThePlace {
  science::NutrientMass mass;
  measure::Kilograms nitrogen_least, nitrogen_most;
};
// None where nothing of the site's own came, or what the crop needed is not known.
std::optional<TookThePlace> took_the_place(const Study& study);

// What a harvest takes: by the printed figures of its crop.
struct Taken {
  science::NutrientMass nutrients;
  measure::Kilograms mass;            // of the crops that have figures
  std::vector<std::string> left_out;  // crops without figures, or harvested by count
  std::vector<std::string> sources;
};
Taken taken_from(const model::History& history);

// What the crop should be given: what a soil test asks for, where that was told, else what the
// expected harvest takes. None where neither is known, or the bed's area is not for the first.
struct Need {
  science::NutrientMass nutrients;
  bool by_soil_test = false;
  measure::Kilograms harvest;  // where it is by the harvest
};
std::optional<Need> need_of(const model::History& history);

// Char that was ever put on this bed, as a share of its top soil; none where the area is not told
// or no char came.
struct CharInBed {
  measure::Litres volume;
  science::CharVolumeShare share;
};
std::optional<CharInBed> char_in(const model::History& history, const model::Rules& rules);

std::optional<measure::SquareMetres> area_of(const model::Batch& batch);

// `bed.short` and `bed.over`.
void judge_nutrients(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::bed
