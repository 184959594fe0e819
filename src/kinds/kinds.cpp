#include <algorithm>
#include <array>

#include "kinds/kind.h"
#include "kinds/table.h"
#include "kinds/words.h"
#include "measure/text.h"

namespace kinds {
namespace {

bool is_among(std::string_view words, std::string_view word) {
  const auto all = measure::split(words, ' ');
  return std::find(all.begin(), all.end(), word) != all.end();
}

template <class Spec>
const Spec* find_spec(std::span<const Spec> specs, std::string_view name,
                      std::string_view Spec::*own_name) {
  for (const Spec& spec : specs) {
    if (spec.*own_name == name || is_among(spec.aliases, name)) return &spec;
  }
  return nullptr;
}

// The last moment at which the kind's own rhythm was kept.
std::optional<model::Instant> last_in_rhythm(const Kind& kind, const model::History& history) {
  if (kind.rhythm.empty()) return history.last_entry;
  std::optional<model::Instant> last;
  for (const model::Series* series : history.all(kind.rhythm)) {
    if (!last || series->last->at > *last) last = series->last->at;
  }
  return last;
}

std::optional<model::Finding> unread(const Kind& kind, const model::History& history,
                                     const model::Rules& rules) {
  if (kind.unread_after == nullptr) return std::nullopt;
  const model::Threshold<measure::Days> threshold{kind.unread_after};
  const measure::Days limit = rules(threshold);
  const auto last = last_in_rhythm(kind, history);
  const model::Instant since =
      std::max(last.value_or(history.batch.started), history.batch.started);
  const measure::Days silent{elapsed_days(since, history.now)};
  if (silent <= limit) return std::nullopt;
  model::Finding made =
      finding(std::string(kind.name) + ".unread", model::Urgency::kToday, threshold, rules);
  const std::string what =
      kind.rhythm.empty() ? "nothing logged" : fmt::format("no {}", kind.rhythm);
  const auto days = static_cast<int>(silent.value);
  made.says = last ? fmt::format("{} for {}", what, days_words(days))
                   : fmt::format("{} since it was started {} ago", what, days_words(days));
  made.action = kind.rhythm.empty() ? "look at it and log what you see"
                                    : fmt::format("read its {}", kind.rhythm);
  made.value = model::Measured{"silence", measure::value_of(silent), ""};
  return made;
}

}  // namespace

std::span<const Kind* const> all_kinds() {
  return kTable;
}

const Kind* find_kind(std::string_view name) {
  for (const Kind* kind : kTable) {
    if (kind->name == name) return kind;
  }
  return nullptr;
}

const Quantity* find_quantity(const Kind& kind, std::string_view name) {
  return find_spec(kind.quantities, name, &Quantity::name);
}

const Word* find_word(const Kind& kind, std::string_view word) {
  return find_spec(kind.words, word, &Word::word);
}

const SettingSpec* find_setting(const Kind& kind, std::string_view key) {
  const auto found = std::find_if(kind.settings.begin(), kind.settings.end(),
                                  [&](const SettingSpec& spec) { return spec.key == key; });
  return found == kind.settings.end() ? nullptr : &*found;
}

bool has_position(const Kind& kind, std::string_view position) {
  return is_among(kind.positions, position);
}

model::Assessment assess(const model::History& history, const model::Rules& rules, Extent extent) {
  const Kind* kind = find_kind(history.batch.kind);
  if (kind == nullptr) return {};
  model::Assessment assessment = kind->assess(history, rules);
  if (extent == Extent::kAll && kind->look_further != nullptr) {
    kind->look_further(history, rules, assessment);
  }
  if (history.batch.ended) {
    assessment.findings.clear();
    assessment.forecasts.clear();
    assessment.stage = "ended";
    return assessment;
  }
  if (auto silent = unread(*kind, history, rules)) {
    assessment.findings.push_back(std::move(*silent));
  }
  for (model::Finding& one : assessment.findings) {
    one.batch = history.batch.code;
    one.kind = history.batch.kind;
  }
  std::stable_sort(
      assessment.findings.begin(), assessment.findings.end(),
      [](const model::Finding& a, const model::Finding& b) { return a.urgency < b.urgency; });
  return assessment;
}

}  // namespace kinds
