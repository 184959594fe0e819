#include "science/numbers/conformal.h"

#include <algorithm>

namespace science {

double conformal_half_width(std::vector<PastMiss> past, double chance) {
  if (past.empty()) return 0;
  std::sort(past.begin(), past.end(),
            [](const PastMiss& one, const PastMiss& other) { return one.size < other.size; });
  double all = 1;  // the next one
  for (const PastMiss& one : past) all += one.weight;
  double within = 0;
  for (const PastMiss& one : past) {
    within += one.weight;
    if (within >= chance * all) return one.size;
  }
  return past.back().size;
}

}  // namespace science
