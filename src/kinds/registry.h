#pragma once

#include "kinds/kind.h"

// The kinds there are; registry.cpp has the one list, in the order in which help and reports name
// them.
namespace kinds {

extern const Kind kPile;
extern const Kind kLarvae;
extern const Kind kBrew;
extern const Kind kDigester;
extern const Kind kBurn;
extern const Kind kFlock;
extern const Kind kBed;
extern const Kind kTank;
extern const Kind kPanel;
extern const Kind kNestbox;

}  // namespace kinds
