#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/larvae/course.h"
#include "model/finding.h"
#include "science/animals/larvae.h"

// What became of the feed.
namespace kinds::larvae {

class Study;

// What went in and out of a run as far as it was weighed.
struct Yield {
  science::LarvaeRun run;  // without a mass that is not known in full
  science::LarvaeMoistures moistures;
  std::vector<std::string> moistures_read;  // of what; the rest is the catalogue's
  measure::Kilograms feed{};                // what was weighed of it
  int feeds = 0, unweighed_feeds = 0;
  std::vector<std::string> unweighed_materials;  // given by a volume of unknown weight
  measure::Kilograms light{}, dark{}, dried{};   // larvae out, what was weighed or counted of them
  int counted_harvests = 0;                      // brought to a mass by a sample of those days
  int unweighed_harvests = 0;
  // Of a larva at the last harvest: what one weighed at its seeding says nothing of it.
  std::optional<measure::Kilograms> larva_at_harvest;
  bool young_weighed = false;  // else their mass is taken as nothing
  // Larvae and frass both came out, or the batch has ended: the figures of conversion mean
  // something.
  bool complete = false;
};

Yield yield_of(const model::History& history, const model::Rules& rules, const Course& course,
               const std::vector<Weighing>& weighings);

// The mean of the days on which it was read.
std::optional<measure::Fraction> read_moisture(const model::History& history,
                                               std::string_view quantity);
// Weighed, by bulk density, or counted and brought to a mass by a sample of those days; none:
// neither.
std::optional<measure::Kilograms> mass_of(const model::Movement& movement,
                                          const std::vector<Weighing>& weighings,
                                          const model::Rules& rules);
// Larvae taken out of this run: nothing from before its seeding.
bool is_harvest(const model::Movement& movement, const Course& course);

// `larvae.record`: what cannot be, such as larvae taken out before any were seeded.
void judge_records(const Study& study, std::vector<model::Finding>& into);

}  // namespace kinds::larvae
