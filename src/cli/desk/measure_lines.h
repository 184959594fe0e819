#pragma once

#include <string>
#include <vector>

#include "measure/printer.h"
#include "model/assessment.h"

namespace cli {

// A batch's figures, a line each; where `with_basis`, what each rests on stands below it.
std::string measure_lines(const std::vector<model::Measure>& measures,
                          const measure::Printer& print, std::size_t width, bool with_basis);

}  // namespace cli
