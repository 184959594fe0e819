#include "kinds/uses.h"

#include <fmt/format.h>

#include "measure/amount.h"
#include "measure/text.h"

namespace kinds {

using measure::Mistake;

measure::Result<std::vector<Use>> read_uses(std::string_view text, measure::Dimension dimension,
                                            std::string_view example) {
  std::vector<Use> uses;
  for (const std::string& part : measure::split(text, ',')) {
    const std::string plain = measure::folded(part);
    const std::size_t digit = plain.find_first_of("0123456789");
    if (plain.empty() || digit == std::string::npos) {
      return Mistake{part, fmt::format("{} has no amount; write it like '{}'",
                                       measure::quoted(part), example)};
    }
    const auto amount = measure::parse_amount_then(std::string_view(plain).substr(digit), {});
    if (!amount) return amount.mistake();
    if (amount->amount.value.dimension != dimension) {
      return Mistake{part, fmt::format("{} is {}, not {}; write it like '{}'", amount->amount.typed,
                                       measure::described(amount->amount.value.dimension),
                                       measure::described(dimension), example)};
    }
    const std::string before = measure::folded(plain.substr(0, digit));
    const std::string name = before.empty() ? amount->rest : before;
    if (name.empty() || (!before.empty() && !amount->rest.empty())) {
      return Mistake{part, fmt::format("{} is not one name and one amount; write it like '{}'",
                                       measure::quoted(part), example)};
    }
    uses.push_back({name, amount->amount.value.si});
  }
  return uses;
}

std::vector<Use> uses_or_none(std::string_view text, measure::Dimension dimension) {
  if (text.empty()) return {};
  const auto read = read_uses(text, dimension, "");
  return read ? *read : std::vector<Use>{};
}

}  // namespace kinds
