// Amounts as typed: nothing that is read is beyond a double, and what is refused says why.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "measure/amount.h"
#include "measure/text.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  static const std::vector<measure::Container> containers{{"bucket", measure::Litres{18.9}}};
  if (const auto number = measure::parse_number(text); number && !std::isfinite(*number)) abort();
  const auto amount = measure::parse_amount_then(text, containers);
  if (amount && !std::isfinite(amount->amount.value.si)) abort();
  if (!amount && amount.mistake().why.empty()) abort();
  const auto value =
      measure::parse_value(text, measure::Dimension::kTemperature, measure::unit("°F"), containers);
  if (value && !std::isfinite(value->value.si)) abort();
  if (!measure::is_clean_text(measure::inert(text))) abort();
  if (!measure::is_clean_text(measure::quoted(text))) abort();
  measure::nearest(measure::folded(text), std::vector<std::string_view>{"turned", "watered"});
  return 0;
}
