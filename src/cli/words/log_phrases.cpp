#include "cli/words/log_phrases.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/words/log_words.h"
#include "measure/amount.h"
#include "measure/printer.h"
#include "measure/spoken.h"
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
    const std::string folded = measure::folded(plain);
    const bool joint =
        plain.empty() ? !word.empty() : folded == "and" || folded == "at" || folded == "&";
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

// The reading that a number before the word counts: "9 eggs", "1 egg"; or of which it is a part:
// "half full". Null: none.
const kinds::Quantity* counted_by(const std::string& word, const Kind& kind,
                                  measure::Dimension dimension) {
  for (const std::string& name : {word + "s", word}) {
    const kinds::Quantity* quantity = kinds::find_quantity(kind, name);
    if (quantity != nullptr && quantity->dimension == dimension) return quantity;
  }
  return nullptr;
}

// "9", "nine", "a dozen", "no": how many.
std::optional<double> how_many(const std::string& text) {
  if (text == "no") return 0;
  const std::string digits = measure::with_digits(text);
  if (const auto number = measure::parse_number(digits)) return *number;
  const auto amount = measure::parse_amount_then(digits, {});
  const bool counts = amount && amount->rest.empty() &&
                      amount->amount.value.dimension == measure::Dimension::kCount;
  return counts ? std::optional(amount->amount.value.si) : std::nullopt;
}

// "one broody": the number in digits, where it says how many a judgement is of; else empty.
std::string before_judgement(const std::vector<std::string>& words, std::size_t i,
                             const Kind& kind) {
  if (i + 1 >= words.size() || words[i].find(' ') != std::string::npos) return "";
  const kinds::Word* next = kinds::find_word(kind, measure::folded(words[i + 1]));
  const std::string digits = measure::with_digits(words[i]);
  const bool said = digits != measure::folded(words[i]) && measure::parse_number(digits);
  return next != nullptr && !next->sense.empty() && said ? digits : "";
}

// What is counted joins its number: "9 eggs", "a dozen eggs", "one dead"; so does what is a part of
// a whole: "half full".
std::vector<std::string> joined_counts(const std::vector<std::string>& words, const Kind& kind) {
  constexpr std::size_t kLongest = 3;
  std::vector<std::string> out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    std::string joined;
    for (std::size_t taken = std::min(kLongest, words.size() - i - 1); taken > 0; --taken) {
      const std::string said =
          measure::folded(measure::joined(std::span(words).subspan(i, taken), " "));
      const std::string name = measure::folded(words[i + taken]);
      const auto number = how_many(said);
      if (!number || kinds::find_word(kind, name) != nullptr) continue;
      if (const auto* counted = counted_by(name, kind, measure::Dimension::kCount)) {
        // A lone number stays as typed.
        joined =
            fmt::format("{}={}", counted->name,
                        measure::parse_number(said) ? said : measure::print_number(*number, 2));
      } else if (const auto* part = counted_by(name, kind, measure::Dimension::kFraction);
                 part != nullptr && *number > 0 && *number < 1) {
        joined = fmt::format("{}={}%", part->name, measure::print_number(*number * 100, 1));
      }
      if (joined.empty()) continue;
      i += taken;
      break;
    }
    if (joined.empty()) joined = before_judgement(words, i, kind);
    out.push_back(joined.empty() ? words[i] : joined);
  }
  return out;
}

bool is_value(const std::string& word, std::span<const measure::Container> containers) {
  if (measure::parse_number(word)) return true;
  const auto amount = measure::parse_amount_then(word, containers);
  return amount && amount->rest.empty();
}

// Whether the word is a name that a value before it can have: a position, or a reading of that
// dimension ("20 L gas").
bool is_name_of(const std::string& name, const std::string& value, const Kind& kind,
                std::span<const measure::Container> containers) {
  if (kinds::has_position(kind, name)) return true;
  if (!is_name(name, kind)) return false;
  const auto amount = measure::parse_amount_then(value, containers);
  return amount &&
         read_quantity_name(name, kind)->quantity->dimension == amount->amount.value.dimension;
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
    const bool reads = is_value(word, containers) && is_name_of(next, word, kind, containers) &&
                       (!is_value(at(i + 2), containers) || is_name(at(i + 3), kind));
    if (is_name(word, kind) && is_value(next, containers)) {
      out.push_back(fmt::format("{}={}", word, next));
      ++i;
    } else if (reads) {
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
      if (kinds::find_word(kind, phrase) != nullptr || kinds::find_vague(kind, phrase) != nullptr)
        break;
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
  const auto counted = joined_counts(joined_equals(without_joints(words)), kind);
  const auto plain = joined_units(counted, containers);
  return joined_phrases(joined_names(plain, kind, containers), kind);
}

}  // namespace cli
