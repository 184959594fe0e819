#include "cli/shell/kind_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "measure/text.h"

namespace cli {
namespace {

std::string with_aliases(std::string_view name, std::string_view aliases) {
  std::string text(name);
  for (const std::string& one : measure::split(aliases, ' ')) {
    if (!one.empty()) text += ", " + one;
  }
  return text;
}

std::string reading_meaning(const kinds::Quantity& quantity, const kinds::Kind& kind) {
  std::string text(measure::described(quantity.dimension));
  if (!quantity.meaning.empty()) text += " " + std::string(quantity.meaning);
  if (quantity.name == kind.vocabulary.temperature) text += "; a bare 148F or 64C is this";
  if (quantity.name == kind.vocabulary.percentage) text += "; a bare 55% is this";
  return text;
}

}  // namespace

std::vector<WordSection> words_of(const kinds::Kind& kind) {
  const kinds::Vocabulary& words = kind.vocabulary;
  std::vector<WordSection> sections;
  WordSection readings{"readings, as name=value", {}};
  for (const kinds::Quantity& one : words.quantities) {
    readings.rows.push_back({with_aliases(one.name, one.aliases), reading_meaning(one, kind)});
  }
  if (!words.positions.empty()) {
    const std::vector<std::string> places = measure::split(words.positions, ' ');
    readings.rows.push_back(
        {measure::joined(places, ", "),
         fmt::format("where a probe is: {0}=value, or {0}.name=value", places.front())});
  }
  if (!readings.rows.empty()) sections.push_back(std::move(readings));
  for (const kinds::Word& one : words.words) {
    const std::string title =
        one.sense.empty() ? "deeds" : fmt::format("{}, by hand or eye", one.sense);
    auto section = std::find_if(sections.begin(), sections.end(),
                                [&](const WordSection& other) { return other.title == title; });
    if (section == sections.end()) {
      sections.push_back({title, {}});
      section = sections.end() - 1;
    }
    section->rows.push_back({with_aliases(one.word, one.aliases), std::string(one.meaning)});
  }
  return sections;
}

}  // namespace cli
