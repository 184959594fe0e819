#pragma once

#include <vector>

namespace science {

// How far off one past forecast was, in units of what was expected of it, and how much it counts.
struct PastMiss {
  double size{};      // at least 0
  double weight = 1;  // above 0
};

// The half width, in the misses' own unit, that the next miss stays within with that chance (0 to
// 1): the weighted quantile of the past ones, where the next itself counts 1 and lies beyond all of
// them, so that few past misses make it wider. The greatest where they are too few for that chance;
// 0 of none.
// Source: split conformal prediction with weights: R. F. Barber, E. J. Candes, A. Ramdas, R. J.
// Tibshirani (2023), Conformal prediction beyond exchangeability, Annals of Statistics 51:816-845,
// section 3.1.
double conformal_half_width(std::vector<PastMiss> past, double chance);

}  // namespace science
