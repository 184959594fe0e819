#pragma once

#include <string>
#include <vector>

#include "kinds/brew/clock.h"
#include "kinds/brew/contents.h"
#include "model/assessment.h"
#include "model/rules.h"
#include "science/soil/brew.h"

// How a brew is used: how far it is thinned, how much for a bed, how salty that is, and what it was
// worth.
namespace kinds::brew {

struct Dilution {
  science::BrewParts parts;
  std::string by;  // what asked for so much water: custom, its EC, its nitrogen, leaves
};

// The most water that any of these asks for: the salt of the mix, its nitrogen, leaves, and what
// the base is usually thinned to. Where EC and nitrogen are both known as of now, custom does not
// ask: a weak brew need not be thinned ten times.
Dilution dilution_of(const model::History& history, const model::Rules& rules,
                     const Contents& contents);

// "1 part of brew to 10 parts of water".
std::string parts_words(const science::BrewParts& parts);
// The same with what asked for it.
std::string dilution_words(const model::History& history, const model::Rules& rules,
                           const Contents& contents);

std::string manure_caution(const model::Rules& rules, const Contents& contents);

// How to pour it, how much for a bed, and how salty it is: what a ready brew's user wants to know.
std::vector<model::Progress> use_lines(const model::History& history, const model::Rules& rules,
                                       const Contents& contents);

// The same for a load that is poured now, in short: how far to thin it, and how salty that is.
std::vector<std::string> pouring_lines(const model::Movement& out, const model::History& history,
                                       const model::Rules& rules, const Contents& contents);

// What a load of it holds: the laboratory's figures, else the estimate; nothing where neither is
// known.
std::optional<model::Load> load_of(const model::Movement& out, const model::History& history,
                                   const Contents& contents);

// N-P-K estimated from what went in, beside the laboratory's.
model::Progress nutrient_line(const model::History& history, const Contents& contents);

std::vector<model::Measure> measures_of(const model::History& history, const Contents& contents,
                                        const Clock& clock);

}  // namespace kinds::brew
