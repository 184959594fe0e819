#include "model/assessment.h"

namespace model {

std::optional<double> value_of(const std::vector<Measure>& measures, std::string_view key) {
  for (const Measure& one : measures) {
    if (one.key == key) return one.value.value.si;
  }
  return std::nullopt;
}

}  // namespace model
