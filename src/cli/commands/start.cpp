#include <fmt/format.h>

#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/answer.h"
#include "cli/desk/desk.h"
#include "cli/desk/photo.h"
#include "cli/shell/commands.h"
#include "cli/words/log_words.h"
#include "measure/text.h"
#include "render/text.h"

namespace cli {
namespace {

bool is_code(std::string_view code) {
  if (code.empty() || code.size() > 24 || code[0] < 'a' || code[0] > 'z') return false;
  for (const char c : code) {
    const bool fits = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    if (!fits) return false;
  }
  return true;
}

measure::Result<const kinds::Kind*> kind_named(std::string_view word) {
  if (const kinds::Kind* kind = kinds::find_kind(measure::folded(word))) return kind;
  std::vector<std::string> names;
  for (const kinds::Kind* kind : kinds::all_kinds()) names.emplace_back(kind->name);
  return no_such("kind", word, names);
}

measure::Result<model::Setting> setting_of(std::string_view word, const kinds::Kind& kind,
                                           const Desk& desk) {
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
  return model::Setting{key, typed, amount->value};
}

// What a setting takes: "turned, static, vessel or cold", "a volume, like 1yd3 or 1L".
std::string takes_words(const kinds::SettingSpec& spec) {
  if (spec.choices == "text") return "";
  if (spec.choices == "date") return "a day, like 2027-05-03";
  if (!spec.choices.empty()) {
    return measure::listed(measure::split(spec.choices, ' '), "or");
  }
  if (spec.dimension == measure::Dimension::kNumber) return "a number";
  if (spec.dimension == measure::Dimension::kCount) return "a count";
  if (spec.dimension == measure::Dimension::kDuration) return "a length of time, like 60d";
  if (spec.dimension == measure::Dimension::kFraction) return "a share in %";
  if (spec.dimension == measure::Dimension::kLength) return "a length in in, ft, cm or m";
  const auto us = measure::usual_unit(spec.dimension, measure::UnitSystem::kUs).symbol;
  const auto metric = measure::usual_unit(spec.dimension, measure::UnitSystem::kMetric).symbol;
  std::string text = fmt::format("{} in {}", measure::described(spec.dimension), us);
  if (us != metric) text += fmt::format(" or {}", metric);
  return text;
}

}  // namespace

std::string help_start(std::ostream& out, const Arguments& arguments) {
  if (arguments.words.empty()) return "";
  const auto kind = kind_named(arguments.words[0]);
  if (!kind) {
    out << '\n' << kind.mistake().why << '\n';
    return "";
  }
  out << fmt::format("\nsettings of {}:\n", (*kind)->meaning);
  for (const kinds::SettingSpec& spec : (*kind)->vocabulary.settings) {
    std::string text(spec.meaning);
    if (const std::string takes = takes_words(spec); !takes.empty()) text += "; " + takes;
    if (!spec.otherwise.empty()) text += fmt::format("; not told: {}", spec.otherwise);
    out << render::wrapped(fmt::format("  {:<16} {}", std::string(spec.key) + "=", text), 80, 19)
        << '\n';
  }
  return fmt::format("roundbook start {} {}", (*kind)->name, (*kind)->begun);
}

Outcome run_start(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  if (arguments.words.size() < 2) {
    return measure::Mistake{"", "start needs a kind and a code, like 'start pile heap-3'"};
  }
  const auto kind = kind_named(arguments.words[0]);
  if (!kind) return kind.mistake();
  book::NewBatch batch;
  batch.kind = (*kind)->name;
  batch.code = measure::folded(arguments.words[1]);
  if (!is_code(batch.code)) {
    return measure::Mistake{arguments.words[1],
                            fmt::format("{} cannot be a code: a letter, then letters, digits and "
                                        "dashes, 24 at the most, like heap-3",
                                        measure::quoted(arguments.words[1]))};
  }
  const auto at = recorded_at(context, arguments, desk->site());
  if (!at) return at.mistake();
  batch.at = at->at;
  if (const auto standing = book::find_batch(desk->logbook(), batch.code)) {
    if (!standing->ended) {
      return measure::Mistake{
          batch.code,
          fmt::format("{} is open already, a {} since {}; end it first or take another code",
                      batch.code, standing->kind,
                      measure::day_words(standing->started_day, desk->today()))};
    }
    if (*standing->ended > batch.at) {
      return measure::Mistake{
          batch.code,
          fmt::format("the {} before it ended {}, later than that", batch.code,
                      measure::moment_words(*standing->ended, desk->now(), desk->site().zone))};
    }
  }
  batch.place = arguments.option("place");
  if (batch.place) {
    const std::vector<std::string> known = book::places(desk->logbook());
    batch.place = as_known(*batch.place, known);
    if (std::find(known.begin(), known.end(), *batch.place) == known.end()) {
      auto why = no_such("place", *batch.place, known);
      why.why += fmt::format(" ('roundbook place \"{}\" --new' makes it)", *batch.place);
      return why;
    }
  }
  std::vector<std::string> remarks;
  for (std::size_t i = 2; i < arguments.words.size(); ++i) {
    auto setting = setting_of(arguments.words[i], **kind, *desk);
    if (!setting) return setting.mistake();
    for (const model::Setting& other : batch.settings) {
      if (other.key == setting->key) {
        return measure::Mistake{setting->key, fmt::format("{} is given twice", setting->key)};
      }
    }
    if (setting->value) {
      const std::string unit =
          unit_remark(has_unit(setting->typed), *setting->value, {}, desk->print());
      if (!unit.empty()) remarks.push_back(fmt::format("{}: {}", setting->key, unit));
    }
    batch.settings.push_back(*setting);
  }
  const auto photo = photo_of(context, arguments);
  if (!photo) return photo.mistake();
  book::Pen pen(*context.book, {context.who, "start", context.line, context.clock});
  pen.start_batch(batch);
  std::string pictured;
  add_photo(pen, *photo, pictured);
  pen.commit();
  Answer answer{*desk->batch(batch.code), fmt::format("{} started", batch.kind), remarks};
  add_cautions({.starts = true}, answer.batch, at->at, *desk, answer);
  if (arguments.option("when")) {
    answer.recorded += " " + measure::moment_words(at->at, desk->now(), desk->site().zone);
  }
  if (!pictured.empty()) answer.recorded += "; " + pictured;
  if (!at->remark.empty()) answer.remarks.push_back(at->remark);
  print_answer(context, *desk, answer);
  return kDone;
}

}  // namespace cli
