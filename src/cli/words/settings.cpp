#include "cli/words/settings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "measure/text.h"

namespace cli {
namespace {

measure::Mistake implausible_setting(const kinds::SettingSpec& spec, const std::string& typed,
                                     const Desk& desk) {
  const auto shown = [&](double si) { return desk.print()(measure::Value{spec.dimension, si}); };
  return {typed, fmt::format("{}={} is beyond what it can be ({} to {}); --sure records it anyway",
                             spec.key, typed, shown(spec.plausible.least),
                             shown(spec.plausible.greatest))};
}

}  // namespace

measure::Result<model::Setting> read_setting(std::string_view word, const kinds::Kind& kind,
                                             bool sure, const Desk& desk) {
  const std::size_t equals = word.find('=');
  const std::string key = measure::folded(word.substr(0, equals));
  if (equals == std::string_view::npos) {
    return measure::Mistake{
        std::string(word),
        fmt::format("{} is no setting; write it as key=value", measure::quoted(word))};
  }
  const kinds::SettingSpec* spec = kinds::find_setting(kind, key);
  if (spec == nullptr) {
    std::vector<std::string> keys;
    for (const auto& one : kind.vocabulary.settings) keys.emplace_back(one.key);
    return no_such(fmt::format("setting of {} called", kinds::one_of(kind)), key, keys);
  }
  const std::string typed(word.substr(equals + 1));
  if (typed.empty()) {
    return measure::Mistake{std::string(word), fmt::format("{} needs a value after '='", key)};
  }
  if (kind.vocabulary.objects_to_setting != nullptr) {
    if (const auto why = kind.vocabulary.objects_to_setting(key, typed)) {
      return measure::Mistake{typed, key + ": " + why->why};
    }
  }
  if (spec->choices == "text") return model::Setting{key, typed, std::nullopt};
  if (spec->choices == "date") {
    const auto day = measure::parse_day(typed, desk.today());
    if (!day) return measure::Mistake{typed, key + ": " + day.mistake().why};
    return model::Setting{key, measure::iso_date(*day), std::nullopt};
  }
  if (!spec->choices.empty()) {
    const std::vector<std::string> choices = measure::split(spec->choices, ' ');
    const std::string choice = measure::folded(typed);
    if (std::find(choices.begin(), choices.end(), choice) == choices.end()) {
      return no_such(key, typed, choices);
    }
    return model::Setting{key, choice, std::nullopt};
  }
  const auto amount = measure::parse_value(
      typed, spec->dimension, measure::usual_unit(spec->dimension, desk.print().system()),
      desk.containers());
  if (!amount) return measure::Mistake{typed, key + ": " + amount.mistake().why};
  if (spec->dimension == measure::Dimension::kCount &&
      std::floor(amount->value.si) != amount->value.si) {
    return measure::Mistake{typed, fmt::format("{}: {} is no whole number, which a count is", key,
                                               measure::quoted(typed))};
  }
  if (!spec->plausible.holds(amount->value.si) && !sure)
    return implausible_setting(*spec, typed, desk);
  return model::Setting{key, typed, amount->value};
}

}  // namespace cli
