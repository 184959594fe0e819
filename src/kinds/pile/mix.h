#pragma once

#include <optional>
#include <string>
#include <vector>

#include "kinds/blend.h"
#include "kinds/kind.h"
#include "kinds/pile/study.h"
#include "science/compost/mix_program.h"

// Judging a mix against its ranges, and what to add to it. The recipe command and `pile.mix` share
// this.
namespace kinds::pile {

// An addition that brings a mix within C:N and moisture; the least mass that does it.
struct Addition {
  std::vector<std::pair<std::string, measure::Kilograms>> materials;  // one, or as many as it takes
  science::Blend then;
};
// First each of `at_hand` alone, the least mass winning; then all of them together. None where
// nothing does it. Aims a quarter of the way inside a range, so that a scale's error does not undo
// it.
std::optional<Addition> addition_for(const std::vector<science::Ingredient>& mix,
                                     const std::vector<model::Material>& at_hand,
                                     const model::Rules& rules);

// `pile.mix`: what went in, outside C:N or moisture. Moisture is judged by the mix only until it is
// read, felt or watered.
std::optional<model::Finding> judge_mix(const Study& study);

// `pile.banned`: what never belongs in a pile, and what asks for care.
std::optional<Objection> objection_to(const model::Material& material, const model::Batch& batch,
                                      const model::Rules& rules);

}  // namespace kinds::pile
