#pragma once

#include <array>

#include "kinds/kind.h"

// The kinds there are: one explicit list, in the order in which help and reports name them.
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

inline constexpr std::array kTable{&kPile,  &kLarvae, &kBrew, &kDigester, &kBurn,
                                   &kFlock, &kBed,    &kTank, &kPanel,    &kNestbox};

}  // namespace kinds
