#include "measure/spoken.h"

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "measure/text.h"

namespace measure {
namespace {

constexpr std::array<std::string_view, 21> kOnes{
    "zero",     "one",     "two",     "three",     "four",     "five",     "six",
    "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",   "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"};

struct Part {
  std::string_view word, digits;
};
constexpr std::array kParts{Part{"half", "1/2"}, Part{"quarter", "1/4"}, Part{"third", "1/3"}};

std::optional<std::string> part_of(std::string_view word) {
  for (const Part& part : kParts) {
    if (word == part.word) return std::string(part.digits);
  }
  return std::nullopt;
}

std::optional<std::string> ones(std::string_view word) {
  const auto found = std::find(kOnes.begin(), kOnes.end(), word);
  if (found == kOnes.end()) return std::nullopt;
  return std::to_string(found - kOnes.begin());
}

bool is_article(std::string_view word) {
  return word == "a" || word == "an";
}

struct Read {
  std::string digits;
  std::size_t words;  // how many it took
};

// The number that the words begin with.
std::optional<Read> leading(const std::vector<std::string>& words) {
  const auto at = [&](std::size_t i) {
    return i < words.size() ? std::string_view(words[i]) : std::string_view();
  };
  // "half a", "a quarter of a", "half"
  const std::size_t first = is_article(at(0)) ? 1 : 0;
  if (const auto part = part_of(at(first))) {
    std::size_t next = first + 1;
    if (at(next) == "of") ++next;
    if (is_article(at(next))) ++next;
    return Read{*part, next};
  }
  if (first == 1 && (at(1) == "couple" || at(1) == "pair")) {
    return Read{"2", at(2) == "of" ? std::size_t{3} : std::size_t{2}};
  }
  if (at(0) == "dozen") return Read{"1", 0};
  auto whole = first == 1 ? std::optional<std::string>("1") : ones(at(0));
  if (!whole) return std::nullopt;
  // "one and a half"
  const bool more = at(1) == "and" && is_article(at(2));
  if (const auto part = more ? part_of(at(3)) : std::nullopt) return Read{*whole + " " + *part, 4};
  return Read{*whole, 1};
}

}  // namespace

std::string with_digits(std::string_view text) {
  const std::string plain = folded(text);
  const std::vector<std::string> words = split(plain, ' ');
  const auto number = leading(words);
  if (!number) return plain;
  std::string out = number->digits;
  for (std::size_t i = number->words; i < words.size(); ++i) out += " " + words[i];
  return out;
}

}  // namespace measure
