#include "cli/desk/measure_lines.h"

#include <algorithm>

#include "render/text.h"

namespace cli {

std::string measure_lines(const std::vector<model::Measure>& measures,
                          const measure::Printer& print, std::size_t width, bool with_basis) {
  std::size_t longest = 0;
  for (const model::Measure& one : measures) longest = std::max(longest, render::columns(one.name));
  std::string lines;
  for (const model::Measure& one : measures) {
    lines += "  " + render::padded(one.name, longest) + "  " + model::shown(one, print) + '\n';
    if (with_basis && !one.basis.empty()) {
      lines += render::wrapped("      " + one.basis, width, 6) + '\n';
    }
  }
  return lines;
}

}  // namespace cli
