#include "cli/words/log_phrases.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/words/log_words.h"
#include "measure/amount.h"
#include "measure/text.h"

namespace cli {
namespace {

using kinds::Kind;

// Whether a word ends in a bare number: "148", "core=148".
bool ends_in_number(const std::string& word) {
  const std::size_t equals = word.find('=');
  return measure::parse_number(equals == std::string::npos ? word : word.substr(equals + 1)).ok();
}

// What only holds words together is left out: "cold and wet", "turned, watered".
std::vector<std::string> without_joints(const std::vector<std::string>& words) {
  std::vector<std::string> out;
  for (const std::string& word : words) {
    const bool quoted = word.find(' ') != std::string::npos;
    std::string plain = word;
    while (!quoted && (plain.ends_with(',') || plain.ends_with(';'))) plain.pop_back();
    const bool joint = plain.empty() ? !word.empty() : measure::folded(plain) == "and";
    if (!joint) out.push_back(plain);
  }
  return out;
}

// What stands around an equals sign joins it: "core = 148F".
std::vector<std::string> joined_equals(const std::vector<std::string>& words) {
  std::vector<std::string> out;
  for (const std::string& word : words) {
    const bool joins =
        !out.empty() && !word.empty() && (word[0] == '=' || out.back().ends_with('='));
    if (joins) {
      out.back() += word;
    } else {
      out.push_back(word);
    }
  }
  return out;
}

// A unit that stands apart from its number joins it: "148 F", "core=148 F".
std::vector<std::string> joined_units(const std::vector<std::string>& words,
                                      std::span<const measure::Container> containers) {
  std::vector<std::string> out;
  for (const std::string& word : words) {
    const bool after_number = !out.empty() && ends_in_number(out.back());
    // A container's name is no unit that can stand right behind its number.
    if (after_number && measure::find_unit(word) != nullptr) {
      out.back() += word;
    } else if (after_number && measure::parse_amount_then("1 " + word, containers).ok()) {
      out.back() += " " + word;
    } else {
      out.push_back(word);
    }
  }
  return out;
}

// Whether the word is a name, and a bare number before it is its value: "9 eggs".
bool is_counted(const std::string& name, const Kind& kind) {
  if (!is_name(name, kind)) return false;
  return read_quantity_name(name, kind)->quantity->dimension == measure::Dimension::kCount;
}

bool is_value(const std::string& word, std::span<const measure::Container> containers) {
  if (measure::parse_number(word)) return true;
  const auto amount = measure::parse_amount_then(word, containers);
  return amount && amount->rest.empty();
}

// A name that stands apart from its value joins it: "core 148F", "148F core", "9 eggs".
std::vector<std::string> joined_names(const std::vector<std::string>& words, const Kind& kind,
                                      std::span<const measure::Container> containers) {
  const auto at = [&](std::size_t i) {
    return i < words.size() ? measure::folded(words[i]) : std::string();
  };
  std::vector<std::string> out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string word = at(i), next = at(i + 1);
    const bool counts = measure::parse_number(word) && is_counted(next, kind);
    const bool reads = is_value(word, containers) && kinds::has_position(kind, next) &&
                       (!is_value(at(i + 2), containers) || kinds::has_position(kind, at(i + 3)));
    if (is_name(word, kind) && is_value(next, containers)) {
      out.push_back(fmt::format("{}={}", word, next));
      ++i;
    } else if (counts || reads) {
      out.push_back(fmt::format("{}={}", next, word));
      ++i;
    } else {
      out.push_back(words[i]);
    }
  }
  return out;
}

// A deed or judgement said in several words ("smells of gas", "leak mended") becomes its one word,
// the longest that the kind knows.
std::vector<std::string> joined_phrases(const std::vector<std::string>& words, const Kind& kind) {
  constexpr std::size_t kLongest = 4;
  std::vector<std::string> out;
  for (std::size_t i = 0; i < words.size();) {
    std::size_t taken = std::min(kLongest, words.size() - i);
    std::string phrase;
    for (; taken > 1; --taken) {
      phrase = measure::folded(words[i]);
      for (std::size_t j = 1; j < taken; ++j) phrase += "-" + measure::folded(words[i + j]);
      if (kinds::find_word(kind, phrase) != nullptr) break;
    }
    out.push_back(taken > 1 ? phrase : words[i]);
    i += std::max(taken, std::size_t{1});
  }
  return out;
}

}  // namespace

bool is_name(const std::string& word, const Kind& kind) {
  return kinds::find_word(kind, word) == nullptr && read_quantity_name(word, kind).ok();
}

std::vector<std::string> log_phrases(const std::vector<std::string>& words, const Kind& kind,
                                     std::span<const measure::Container> containers) {
  const auto plain = joined_units(joined_equals(without_joints(words)), containers);
  return joined_phrases(joined_names(plain, kind, containers), kind);
}

}  // namespace cli
