#include "science/numbers/conformal.h"

#include <doctest/doctest.h>

// Split conformal prediction: of n past misses, the half width is the ceil((n + 1) chance)-th
// smallest (Angelopoulos & Bates 2023, Foundations and Trends in Machine Learning 16:494-591,
// section 1.1; from memory). Weights: Barber et al. 2023, Annals of Statistics 51:816-845.

namespace conformal_test {

using science::conformal_half_width;
using science::PastMiss;

TEST_CASE("conformal: the ceil((n + 1) 0.8)-th smallest of n alike") {
  std::vector<PastMiss> past;
  for (int i = 9; i >= 1; --i) past.push_back({static_cast<double>(i)});
  CHECK(conformal_half_width(past, 0.8) == 8);  // 0.8 x 10
  past.push_back({10});
  CHECK(conformal_half_width(past, 0.8) == 9);             // 0.8 x 11 = 8.8
  CHECK(conformal_half_width({{1}, {2}, {3}}, 0.8) == 3);  // 0.8 x 4 = 3.2: too few; the greatest
  CHECK(conformal_half_width({}, 0.8) == 0);
}

TEST_CASE("conformal: a miss that counts twice is two misses") {
  const std::vector<PastMiss> twice{{1, 2}, {2, 2}, {3, 2}, {4, 2}, {5, 1}};
  std::vector<PastMiss> each{{1}, {1}, {2}, {2}, {3}, {3}, {4}, {4}, {5}};
  for (const double chance : {0.1, 0.5, 0.65, 0.8, 0.9})
    CHECK(conformal_half_width(twice, chance) == conformal_half_width(each, chance));
}

}  // namespace conformal_test
