#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "cli/words/log_phrases.h"
#include "cli/words/log_reader.h"
#include "measure/text.h"

namespace cli {
namespace {

using kinds::Kind;
using kinds::Quantity;
using measure::Mistake;

// Everything that `log` would understand of a kind, for a nearest match.
std::vector<std::string_view> vocabulary(const Kind& kind) {
  std::vector<std::string_view> known;
  for (const kinds::Word& word : kind.vocabulary.words) known.push_back(word.word);
  for (const Quantity& quantity : kind.vocabulary.quantities) known.push_back(quantity.name);
  return known;
}

// What goes in and comes out is no reading: "fed", "harvested".
std::string_view carrying_hint(std::string_view word) {
  static constexpr std::array<std::string_view, 4> kIn{"fed", "feed", "added", "topped"};
  static constexpr std::array<std::string_view, 5> kOut{"harvested", "harvest", "taken", "picked",
                                                        "sold"};
  if (std::ranges::find(kIn, word) != kIn.end()) return "add";
  if (std::ranges::find(kOut, word) != kOut.end()) return "take";
  return "";
}

// A word as it would have to be typed.
std::string shown_word(const std::string& word) {
  const bool plain = word.find_first_of(" '\"$`*?&|;<>()") == std::string::npos;
  return plain && !word.empty() ? word : fmt::format("\"{}\"", word);
}

bool is_bare(const std::string& word) {
  return measure::parse_number(word).ok();
}

std::vector<std::string> replaced(std::vector<std::string> words, std::size_t at,
                                  std::string other) {
  words[at] = std::move(other);
  return words;
}

// The two names that two bare numbers most likely have.
std::pair<std::string, std::string> likely_names(const Reader& reader) {
  const auto positions = measure::split(reader.kind.vocabulary.positions, ' ');
  if (positions.size() > 1) return {positions[0], positions[1]};
  const auto quantities = reader.kind.vocabulary.quantities;
  const Quantity* daily = daily_of(reader);
  std::string first(daily != nullptr ? daily->name : quantities.front().name), second;
  for (const Quantity& quantity : quantities) {
    if (quantity.name != first && second.empty()) second = quantity.name;
  }
  return {first, second};
}

bool says_when(std::string_view word) {
  static constexpr std::array<std::string_view, 17> kDays{
      "today",  "yesterday", "monday", "tuesday", "wednesday", "thursday",
      "friday", "saturday",  "sunday", "mon",     "tue",       "wed",
      "thu",    "fri",       "sat",    "sun",     "now"};
  return std::ranges::find(kDays, word) != kDays.end();
}

}  // namespace

// "1st", "2nd": no number of anything.
bool is_ordinal(std::string_view word) {
  const std::size_t letters = word.find_first_not_of("0123456789");
  if (letters == 0 || letters == std::string_view::npos) return false;
  const std::string_view ending = word.substr(letters);
  return ending == "st" || ending == "nd" || ending == "rd" || ending == "th";
}

std::string retyped(const std::vector<std::string>& words, const Reader& reader) {
  std::string line = reader.around.before;
  for (const std::string& word : words) line += (line.empty() ? "" : " ") + shown_word(word);
  return line + reader.around.after;
}

std::optional<Mistake> asked_back(const std::string& word, const std::vector<std::string>& words,
                                  const Reader& reader) {
  const std::string plain = measure::folded(word);
  if (const auto command = carrying_hint(plain); !command.empty()) {
    return Mistake{word, fmt::format("{} is no reading or deed of {}; what {} is recorded by "
                                     "'roundbook {}', with its amount and material",
                                     measure::quoted(word), kinds::one_of(reader.kind),
                                     command == "add" ? "goes in" : "comes out", command)};
  }
  const std::size_t at =
      static_cast<std::size_t>(std::find(words.begin(), words.end(), word) - words.begin());
  if (const kinds::Vague* vague = kinds::find_vague(reader.kind, plain)) {
    std::string lines;
    for (const std::string& one : measure::split(vague->means, ' ')) {
      lines += fmt::format("{}'{}'", lines.empty() ? "" : " or ",
                           retyped(replaced(words, at, one), reader));
    }
    return Mistake{word, fmt::format("{}: how? Type {}", measure::quoted(word), lines)};
  }
  if (says_when(plain)) {
    std::vector<std::string> without = words;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(at));
    return Mistake{word, fmt::format("a time goes after --when: '{} --when {}'",
                                     retyped(without, reader), plain)};
  }
  return std::nullopt;
}

Mistake not_understood(const std::string& word, const Reader& reader) {
  const Kind& kind = reader.kind;
  if (!word.empty() && word[0] >= '0' && word[0] <= '9' && !is_ordinal(measure::folded(word))) {
    const auto amount = measure::parse_amount_then(word, {});
    if (!amount) return amount.mistake();
  }
  if (is_name(word, kind)) {
    return {word, fmt::format("{} needs its value, like {}=...", measure::quoted(word), word)};
  }
  const auto known = vocabulary(kind);
  std::string why =
      fmt::format("{} is no reading or deed of {}", measure::quoted(word), kinds::one_of(kind));
  if (const auto near = measure::nearest(word, known)) {
    why += fmt::format("; did you mean {}?", *near);
  } else {
    why += fmt::format("; it takes {}{}", measure::listed(known), kRemarkHint);
  }
  return {word, why};
}

std::optional<Mistake> several_bare(const std::vector<std::string>& words, const Reader& reader) {
  std::vector<std::size_t> bare;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (is_bare(words[i])) bare.push_back(i);
  }
  if (bare.size() < 2) return std::nullopt;
  const auto [one, other] = likely_names(reader);
  if (bare.size() > 2 || other.empty()) {
    return Mistake{words[bare[1]],
                   fmt::format("{} numbers without a name cannot be told apart; write each like "
                               "{}={}",
                               bare.size(), one, words[bare[0]])};
  }
  const auto line = [&](const std::string& first, const std::string& second) {
    auto said = replaced(words, bare[0], fmt::format("{}={}", first, words[bare[0]]));
    return retyped(replaced(said, bare[1], fmt::format("{}={}", second, words[bare[1]])), reader);
  };
  return Mistake{words[bare[1]],
                 fmt::format("{} and {}: which is which? Type '{}' or '{}'", words[bare[0]],
                             words[bare[1]], line(one, other), line(other, one))};
}

Mistake number_or_judgement(std::size_t at, const std::vector<std::string>& words,
                            const Quantity& daily, const Reader& reader) {
  const std::string &number = words[at], &word = words[at + 1];
  std::vector<std::string> only = words;
  only.erase(only.begin() + static_cast<std::ptrdiff_t>(at));
  return {number, fmt::format("{0} {1}: {2}={0}, or so many {1}? Type '{3}' or '{4} --note \"{0} "
                              "{1}\"'",
                              number, word, daily.name,
                              retyped(replaced(words, at, fmt::format("{}={}", daily.name, number)),
                                      reader),
                              retyped(only, reader))};
}

// "flame=green": the judgements of a sense; none where the name is no sense.
std::optional<Mistake> no_judgement(std::string_view name, std::string_view typed,
                                    const Kind& kind) {
  std::vector<std::string_view> known;
  for (const kinds::Word& word : kind.vocabulary.words) {
    if (!word.sense.empty() && word.sense == name) known.push_back(word.word);
  }
  if (known.empty()) return std::nullopt;
  return Mistake{std::string(typed), fmt::format("{} is {}, not {}", name, measure::listed(known),
                                                 measure::quoted(typed))};
}

Mistake no_quantity(std::string_view name, const Kind& kind) {
  std::vector<std::string_view> known;
  for (const Quantity& quantity : kind.vocabulary.quantities) known.push_back(quantity.name);
  for (const std::string& position : measure::split(kind.vocabulary.positions, ' ')) {
    known.push_back(kind.vocabulary.positions.substr(kind.vocabulary.positions.find(position),
                                                     position.size()));
  }
  std::string why =
      fmt::format("{} has no reading called {}", kinds::one_of(kind), measure::quoted(name));
  if (const auto near = measure::nearest(name, known)) {
    why += fmt::format("; did you mean {}?", *near);
  } else {
    why += fmt::format("; it has {}", measure::listed(known, "and"));
  }
  return {std::string(name), why};
}

}  // namespace cli
