#include "measure/amount.h"

#include <charconv>
#include <cmath>
#include <optional>

#include "measure/spoken.h"
#include "measure/text.h"

namespace measure {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// How far a run of digits goes from `at`.
std::size_t digits_end(std::string_view text, std::size_t at) {
  while (at < text.size() && is_digit(text[at])) ++at;
  return at;
}

std::optional<double> decimal(std::string_view text) {
  double number{};
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), number, std::chars_format::fixed);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(number)) {
    return std::nullopt;
  }
  return number;
}

struct NumberThen {
  double number;
  std::size_t end;
};

// The number at the start of `text` (folded), and where it ends.
std::optional<NumberThen> leading_number(std::string_view text) {
  std::size_t at = 0;
  double sign = 1;
  if (at < text.size() && (text[at] == '-' || text[at] == '+')) {
    sign = text[at] == '-' ? -1 : 1;
    ++at;
  }
  const std::size_t start = at;
  at = digits_end(text, at);
  if (at < text.size() && text[at] == '.') {
    const std::size_t end = digits_end(text, at + 1);
    if (end - start < 2) return std::nullopt;  // a lone point
    const auto number = decimal(text.substr(start, end - start));
    if (!number) return std::nullopt;
    return NumberThen{sign * *number, end};
  }
  if (at == start) return std::nullopt;
  const auto whole = decimal(text.substr(start, at - start));
  if (!whole) return std::nullopt;

  // "a/b" after the digits, or after one space ("1 1/2").
  const auto fraction = [&](std::size_t from) -> std::optional<NumberThen> {
    const std::size_t slash = digits_end(text, from);
    if (slash == from || slash >= text.size() || text[slash] != '/') return std::nullopt;
    const std::size_t end = digits_end(text, slash + 1);
    const auto over = decimal(text.substr(from, slash - from));
    const auto under = decimal(text.substr(slash + 1, end - slash - 1));
    if (!over || !under || *under == 0) return std::nullopt;
    return NumberThen{*over / *under, end};
  };
  if (at < text.size() && text[at] == '/') {
    const auto parts = fraction(start);
    if (!parts) return std::nullopt;
    return NumberThen{sign * parts->number, parts->end};
  }
  if (at < text.size() && text[at] == ' ') {
    if (const auto parts = fraction(at + 1)) {
      return NumberThen{sign * (*whole + parts->number), parts->end};
    }
  }
  return NumberThen{sign * *whole, at};
}

// "bucketful", "barrowloads", "wheelbarrow".
bool is_full_of(std::string_view word, std::string_view name) {
  if (word.ends_with('s') && !name.ends_with('s')) word.remove_suffix(1);
  constexpr std::string_view kWheel = "wheel";
  if (word.starts_with(kWheel) && !name.starts_with(kWheel)) word.remove_prefix(kWheel.size());
  if (!word.starts_with(name)) return false;
  const std::string_view ending = word.substr(name.size());
  return ending.empty() || ending == "ful" || ending == "load";
}

// "bkt" and "bkts" for bucket: its first letter and more of it in order, without the vowels.
bool is_short_for(std::string_view word, std::string_view name) {
  if (word.ends_with('s') && !name.ends_with('s')) word.remove_suffix(1);
  if (word.size() < 2 || name.empty() || word[0] != name[0] || word.back() != name.back() ||
      word.find_first_of("aeiou", 1) != std::string_view::npos) {
    return false;
  }
  std::size_t at = 0;
  for (const char letter : word) {
    at = name.find(letter, at);
    if (at == std::string_view::npos) return false;
    ++at;
  }
  return true;
}

const Container* find_container(std::string_view word, std::span<const Container> containers) {
  for (const Container& container : containers) {
    const std::string name = folded(container.name);
    if (word == name || word == name + "s" || word == name + "es" || is_full_of(word, name)) {
      return &container;
    }
  }
  const Container* only = nullptr;
  for (const Container& container : containers) {
    if (!is_short_for(word, folded(container.name))) continue;
    if (only != nullptr) return nullptr;
    only = &container;
  }
  return only;
}

// The word as it was typed, or the container's own name for a short form of it.
std::string as_called(std::string_view word, const Container& container) {
  const std::string name = folded(container.name);
  return word.starts_with(name) ? std::string(word) : name;
}

// Where the word at the start of `text` ends.
std::size_t word_end(std::string_view text) {
  const std::size_t space = text.find(' ');
  return space == std::string_view::npos ? text.size() : space;
}

std::string_view without_leading_space(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  return text;
}

Mistake not_a_number(std::string_view word) {
  return {std::string(word),
          quoted(word) +
              " is not a number roundbook reads; write it like 148, 64.4, 1/2 or "
              "1 1/2"};
}

Mistake unknown_unit(std::string_view word, std::span<const Container> containers) {
  std::vector<std::string> spellings;
  for (const Unit& candidate : all_units()) {
    for (std::string& alias : split(candidate.aliases, ' ')) spellings.push_back(std::move(alias));
  }
  for (const Container& container : containers) spellings.push_back(container.name);
  const std::vector<std::string_view> known(spellings.begin(), spellings.end());
  std::string why = "no unit or container is called " + quoted(word);
  if (const auto near = nearest(word, known)) why += "; did you mean " + *near + "?";
  return {std::string(word), why};
}

bool can_be_negative(Dimension dimension) {
  return dimension == Dimension::kTemperature || dimension == Dimension::kTemperatureDifference;
}

Mistake below_zero(std::string_view typed, Dimension dimension) {
  return {std::string(typed), quoted(typed) + " is below zero, which " +
                                  std::string(described(dimension)) + " cannot be"};
}

// "°F or °C"; a bare number has none.
std::string units_words(Dimension wanted) {
  const auto units = units_of(wanted);
  return units.empty() ? "no unit" : listed(units);
}

// A degree sign belongs behind a number, alone or before its letter: "1°3" is no 13.
bool has_stray_degree(std::string_view text) {
  constexpr std::string_view kDegree = "°";
  const std::size_t at = text.find(kDegree);
  if (at == std::string_view::npos) return false;
  const std::string after = folded(text.substr(at + kDegree.size()));
  return at == 0 || (!after.empty() && after[0] != 'f' && after[0] != 'c');
}

}  // namespace

Result<double> parse_number(std::string_view text) {
  if (has_stray_degree(text)) return not_a_number(text);
  const std::string plain = folded(text);
  const auto number = leading_number(plain);
  if (!number || number->end != plain.size()) return not_a_number(text);
  return number->number;
}

Result<AmountThen> parse_amount_then(std::string_view text, std::span<const Container> containers) {
  if (has_stray_degree(text)) return not_a_number(text);
  const std::string plain = with_digits(text);
  const auto number = leading_number(plain);
  if (!number) {
    return not_a_number(std::string_view(plain).substr(0, word_end(plain)));
  }
  const std::string_view after = without_leading_space(std::string_view(plain).substr(number->end));
  const std::size_t unit_end = word_end(after);
  const std::string_view word = after.substr(0, unit_end);
  if (word.empty()) {
    return Mistake{plain, quoted(plain) + " has no unit; write it like 40kg, 5gal or 2 bucket"};
  }
  Amount amount;
  amount.typed = plain.substr(0, plain.size() - after.size() + unit_end);
  if (const Unit* known = find_unit(word)) {
    amount.value = {known->dimension, known->to_base(number->number)};
  } else if (const Container* container = find_container(word, containers)) {
    amount.value = {Dimension::kVolume, number->number * container->content.value};
    amount.typed = plain.substr(0, plain.size() - after.size()) + as_called(word, *container);
  } else {
    return unknown_unit(word, containers);
  }
  if (!std::isfinite(amount.value.si)) return not_a_number(amount.typed);
  if (number->number < 0 && !can_be_negative(amount.value.dimension)) {
    return below_zero(amount.typed, amount.value.dimension);
  }
  std::string_view rest = without_leading_space(after.substr(unit_end));
  if (rest.starts_with("of ")) rest = without_leading_space(rest.substr(3));
  return AmountThen{amount, std::string(rest)};
}

Result<Amount> parse_value(std::string_view text, Dimension wanted, const Unit& bare,
                           std::span<const Container> containers) {
  if (has_stray_degree(text)) return not_a_number(text);
  const std::string plain = with_digits(text);
  const auto number = leading_number(plain);
  if (!number) return not_a_number(text);
  const std::string_view word = without_leading_space(std::string_view(plain).substr(number->end));
  Amount amount;
  amount.typed = plain;
  if (word.empty()) {
    amount.value = {wanted, bare.to_base(number->number)};
  } else if (const Unit* known = find_unit(word)) {
    if (known->dimension != wanted) {
      return Mistake{std::string(text), quoted(text) + " is " +
                                            std::string(described(known->dimension)) + ", not " +
                                            std::string(described(wanted)) + " (which takes " +
                                            units_words(wanted) + ")"};
    }
    amount.value = {wanted, known->to_base(number->number)};
  } else if (const Container* container = find_container(word, containers);
             container != nullptr && wanted == Dimension::kVolume) {
    amount.value = {wanted, number->number * container->content.value};
  } else {
    return Mistake{std::string(text), "no unit is called " + quoted(word) + "; " +
                                          std::string(described(wanted)) + " takes " +
                                          units_words(wanted)};
  }
  if (!std::isfinite(amount.value.si)) return not_a_number(text);
  if (number->number < 0 && !can_be_negative(wanted)) return below_zero(text, wanted);
  return amount;
}

}  // namespace measure
