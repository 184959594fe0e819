#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/history.h"
#include "model/rules.h"
#include "science/numbers/units.h"
#include "science/soil/nutrients.h"

// What is in the drum: what it was made of, how much liquid, which nutrients.
namespace kinds::brew {

// What a brew is made of decides how long it takes and how it is thinned.
enum class Base { kPlant, kManure, kFish, kFrass, kEffluent };
std::string_view word(Base base);  // "plant", as the setting has it

enum class Lid { kSealed, kAirlock, kLoose };
Lid lid_of(const model::Batch& batch);
bool is_aerated(const model::Batch& batch);
bool is_for_leaf(const model::Batch& batch);

// Sugar feeds harmful germs as well as the wanted ones: what is said of the brew where that can
// reach what is eaten, on leaves or by a brew that is aerated.
bool feeds_germs(const model::Material& material, const model::Batch& batch);
bool feeds_germs(const model::History& history);
bool is_water(const model::Material& material);
// Soaks in the brew to be charged: it neither ferments nor feeds it.
bool is_char(const model::Material& material);
// Manure as it came from an animal, or a product of it without a treatment on record.
bool is_raw_manure(const model::Material& material);
// Fish, meat, blood, bone and their like as they are; what a maker rendered or digested is no more
// so.
bool is_raw_animal(const model::Material& material);

// Why what is taken out counts as raw manure: untreated animal matter is treated alike (21 CFR
// 112.3), and what nothing tells of may be either.
struct Raw {
  enum class Sort { kManure, kAnimal, kUnknown };
  Sort sort = Sort::kManure;
  bool recorded =
      true;  // by a load that went in; else the drum is said to be made of it, or unknown
  std::string material{};   // as it went into the drum
  std::string came_from{};  // the manure it came from, where it has another name
  bool unproven = false;    // its treatment is not shown
};

// The mass of a movement, or its volume taken as water where no mass is known: to compare shares
// only.
double weight_for_share(const model::Movement& movement);

struct Contents {
  Base base = Base::kPlant;
  bool base_is_assumed = false;  // neither said nor to be seen from what went in
  bool sweetened = false;        // with sugar or molasses
  std::optional<Raw> raw;
  measure::Litres liquid;  // water and liquids that went in
  measure::Litres taken;
  bool liquid_is_assumed = false;  // no water is recorded: a full drum

  bool used_up() const;
};
Contents contents_of(const model::History& history);

struct Nutrients {
  science::NutrientMass dissolved;   // estimated, in all the liquid that was made
  science::NutrientMass went_in;     // of the materials whose figures are known
  std::vector<std::string> unknown;  // "nettles (phosphorus, potassium)": not in the estimate
  bool all_nitrogen_known = true;    // whether the estimate has the nitrogen of all that went in
};
Nutrients nutrients_of(const model::History& history, const model::Rules& rules);

// The latest value of a quantity, or none.
std::optional<double> latest(const model::History& history, std::string_view quantity);

// Nitrogen in the brew as it stands: the laboratory's, else estimated.
struct Nitrogen {
  science::MilligramsPerLitre content;
  bool measured;
};

}  // namespace kinds::brew
