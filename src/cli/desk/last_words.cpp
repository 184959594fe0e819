#include "cli/desk/last_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "measure/text.h"

namespace cli {
namespace {

constexpr std::size_t kMostLast = 3;  // readings told of the last look

// What is read of it at each look: the series of its rhythm, else all; the latest first, those of
// one moment together.
std::vector<const model::Series*> last_read(const model::History& history,
                                            const kinds::Kind& kind) {
  std::vector<const model::Series*> read;
  for (const model::Series& one : history.series) {
    const bool counts = kind.vocabulary.rhythm.empty() || one.quantity == kind.vocabulary.rhythm;
    if (one.last && counts) read.push_back(&one);
  }
  std::stable_sort(read.begin(), read.end(),
                   [](const auto* a, const auto* b) { return a->last->at > b->last->at; });
  while (!read.empty() && read.back()->last->at != read.front()->last->at) read.pop_back();
  if (read.size() > kMostLast) read.resize(kMostLast);
  return read;
}

}  // namespace

std::string last_words(const model::History& history, const Desk& desk) {
  const kinds::Kind& kind = desk.kind(history.batch);
  std::string text;
  const std::vector<const model::Series*> read = last_read(history, kind);
  for (const model::Series* one : read) {
    const kinds::Quantity* quantity = kinds::find_quantity(kind, one->quantity);
    if (quantity == nullptr) continue;
    const std::string value =
        desk.print()({quantity->dimension, one->last->value}, quantity->shown_in);
    // "pH 5.6" has its name already.
    const bool is_named = quantity->name == kind.vocabulary.temperature ||
                          measure::folded(value).starts_with(quantity->name);
    text += fmt::format("{}{}{}{}{}", text.empty() ? "" : ", ", one->position,
                        one->position.empty() ? "" : " ",
                        is_named ? "" : std::string(quantity->name) + " ", value);
  }
  if (!text.empty()) {
    text += " " + measure::moment_words(read.front()->last->at, desk.now(), desk.site().zone);
  }
  if (!history.deeds.empty()) {
    const model::Deed& deed = history.deeds.back();
    text += fmt::format(
        "{}{} {}", text.empty() ? "" : "; ", deed.word,
        deed.day == desk.today() ? "today" : measure::day_words(deed.day, desk.today()));
  }
  return text;
}

}  // namespace cli
