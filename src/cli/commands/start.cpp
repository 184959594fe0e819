#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/answer.h"
#include "cli/desk/desk.h"
#include "cli/desk/left.h"
#include "cli/desk/photo.h"
#include "cli/shell/commands.h"
#include "cli/words/log_words.h"
#include "cli/words/settings.h"
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

// "start bin-2": the last run of that code, where the first word names no kind.
std::optional<model::Batch> run_before(const Arguments& arguments, const Desk& desk) {
  if (arguments.words.empty()) return std::nullopt;
  const std::string word = measure::folded(arguments.words[0]);
  const bool settings_follow =
      arguments.words.size() < 2 || arguments.words[1].find('=') != std::string::npos;
  if (kinds::find_kind(word) != nullptr || !settings_follow) return std::nullopt;
  return book::find_batch(desk.logbook(), word);
}

// Takes over what the last run was told and still holds; says which, and what is to be told anew.
std::string take_over(const model::Batch& last, const kinds::Kind& kind, book::NewBatch& batch) {
  std::vector<std::string> same, anew;
  for (const model::Setting& one : last.settings) {
    const kinds::SettingSpec* spec = kinds::find_setting(kind, one.key);
    const bool told = std::any_of(batch.settings.begin(), batch.settings.end(),
                                  [&](const model::Setting& now) { return now.key == one.key; });
    if (spec == nullptr || told) continue;
    if (spec->told_anew) {
      anew.push_back(one.key + "=");
      continue;
    }
    batch.settings.push_back(one);
    same.push_back(fmt::format("{}={}", one.key, one.typed));
  }
  if (!last.place.empty()) same.push_back("at " + last.place);
  std::string text;
  if (!same.empty()) text = "as before: " + measure::joined(same, ", ");
  if (!anew.empty()) {
    text += fmt::format("{}given each time: {} ('roundbook amend {} ...')",
                        text.empty() ? "" : "; ", measure::joined(anew, ", "), batch.code);
  }
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
    if (!spec.otherwise.empty()) text += fmt::format("; default: {}", spec.otherwise);
    out << render::wrapped(fmt::format("  {:<16} {}", std::string(spec.key) + "=", text), 80, 19)
        << '\n';
  }
  return fmt::format("roundbook start {} {}", (*kind)->name, (*kind)->begun);
}

Outcome run_start(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const std::optional<model::Batch> last = run_before(arguments, *desk);
  if (arguments.words.size() < 2 && !last) {
    return measure::Mistake{"", "start needs a kind and a code, like 'start pile heap-3'"};
  }
  const auto kind = kind_named(last ? last->kind : arguments.words[0]);
  if (!kind) return kind.mistake();
  const std::string& code = arguments.words[last ? 0 : 1];
  book::NewBatch batch;
  batch.kind = (*kind)->name;
  batch.code = measure::folded(code);
  if (!is_code(batch.code)) {
    return measure::Mistake{code,
                            fmt::format("{} cannot be a code: a letter, then letters, digits and "
                                        "dashes, 24 at the most, like heap-3",
                                        measure::quoted(code))};
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
  if (last && !batch.place) {
    if (!last->place.empty()) batch.place = last->place;
  } else if (batch.place) {
    const std::vector<std::string> known = book::places(desk->logbook());
    batch.place = as_known(*batch.place, known);
    if (std::find(known.begin(), known.end(), *batch.place) == known.end()) {
      auto why = no_such("place", *batch.place, known);
      why.why += fmt::format(" ('roundbook place \"{}\" --new' makes it)", *batch.place);
      return why;
    }
  }
  std::vector<std::string> remarks;
  const bool sure = arguments.flag("sure");
  for (std::size_t i = last ? 1 : 2; i < arguments.words.size(); ++i) {
    auto setting = read_setting(arguments.words[i], **kind, sure, *desk);
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
  if (last) {
    const std::string as_before = take_over(*last, **kind, batch);
    if (!as_before.empty()) remarks.push_back(as_before);
  }
  if (const auto why = (*kind)->vocabulary.doubts_settings(batch.settings); why && !sure) {
    return measure::Mistake{why->word, why->why + "; --sure records it anyway"};
  }
  const auto from = arguments.option("from");
  std::optional<model::Batch> giver;
  if (from) {
    const auto found = desk->open_batch(*from, at->at);
    if (!found) return found.mistake();
    giver = *found;
  }
  book::Pen pen(*context.book, {context.who, "start", context.line, context.clock});
  pen.start_batch(batch);
  std::string pictured;
  add_photo(pen, *photo, pictured);
  Answer answer{*desk->batch(batch.code), fmt::format("{} started", batch.kind), remarks};
  if (giver) {
    if (auto why = move_left(pen, *giver, answer.batch, at->at, sure, *desk, answer)) return *why;
    answer.before.reset();  // it was just begun
  }
  pen.commit();
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
