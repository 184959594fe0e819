#include "book/file/real_text.h"

#include <algorithm>
#include <charconv>

namespace book {

double exact_real(std::string_view digits, double read) {
  constexpr std::ptrdiff_t kWrittenShort = 17;
  const auto mantissa = digits.substr(0, digits.find_first_of("eE"));
  const auto count =
      std::count_if(mantissa.begin(), mantissa.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (count <= kWrittenShort) return read;
  double exact{};
  const auto parsed = std::from_chars(digits.data(), digits.data() + digits.size(), exact);
  return parsed.ec == std::errc{} ? exact : read;
}

}  // namespace book
