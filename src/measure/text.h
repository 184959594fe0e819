#pragma once

#include <concepts>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// Text as people type it: validity, folding, and the nearest known word.
namespace measure {

// True for well-formed UTF-8 without control characters (a tab or a line break is one too).
bool is_clean_text(std::string_view text);

// The same, but that line breaks and tabs may be in it.
bool is_clean_lines(std::string_view text);

// The same text fit for a terminal: each control character, and each byte that is no UTF-8, is a
// "?".
std::string inert(std::string_view text);
// The same, but that line breaks and tabs stay.
std::string inert_lines(std::string_view text);

// ASCII letters in lower case, white space trimmed and runs of it made one space; "°" dropped, "²"
// and "³" made 2 and 3, "½", "¼", "¾" made " 1/2", ...: one spelling of what can be typed in
// several ways.
std::string folded(std::string_view text);

// Its first letter in upper case, where that is a to z.
std::string capitalised(std::string text);

std::vector<std::string> split(std::string_view text, char separator);
std::string joined(std::span<const std::string> parts, std::string_view separator);

// Takes the first word off a list of words with one space between, without a copy.
std::string_view take_word(std::string_view& list);
bool is_among(std::string_view list, std::string_view word);

// "1 entry", "3 entries"; without `many`, "1 row", "3 rows".
template <std::integral Number>
std::string counted(Number count, std::string_view one, std::string_view many = {}) {
  const std::string words = many.empty() ? std::string(one) + "s" : std::string(many);
  return std::to_string(count) + " " + (count == 1 ? std::string(one) : words);
}

// "a, b or c".
std::string listed(std::span<const std::string_view> words, std::string_view last = "or");
// Of strings; a template so that a list in braces is always one of views.
template <std::same_as<std::string> T>
std::string listed(const std::vector<T>& words, std::string_view last = "or") {
  return listed(std::vector<std::string_view>(words.begin(), words.end()), last);
}

// The candidate with the least edit distance to `word`, where that is close enough to be a slip of
// the hand (a third of the letters, at most three); else none. Case does not count.
std::optional<std::string> nearest(std::string_view word,
                                   std::span<const std::string_view> candidates);

// Whether a name is a known one mistyped: one letter off, or two neighbours swapped; the case does
// not count, and names that differ by a digit are two ("bed 1", "bed 2").
bool is_slip_of(std::string_view typed, std::string_view known);

// `text` shortened to `width` characters for an error message, with "..." where it was cut;
// characters that could move a terminal's cursor become "?".
std::string quoted(std::string_view text, std::size_t width = 40);

}  // namespace measure
