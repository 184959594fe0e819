#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "book/write/pen.h"
#include "cli/desk/desk.h"
#include "cli/shell/commands.h"
#include "kinds/thresholds.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

using model::ThresholdInfo;

const ThresholdInfo* find_threshold(std::string_view key) {
  for (const ThresholdInfo* info : kinds::thresholds::kAll) {
    if (info->key == key) return info;
  }
  return nullptr;
}

std::string shown(const ThresholdInfo& info, double si, const measure::Printer& print) {
  if (info.dimension == measure::Dimension::kNumber)
    return measure::Printer::labelled(si, info.label);
  return print(measure::Value{info.dimension, si});
}

// Whether the number is one of the United States' Code of Federal Regulations.
bool is_law(const ThresholdInfo& info) {
  return info.source.find(" CFR ") != std::string_view::npos;
}

// Whether a temperature is so far from the default that a slip is likelier than a wish (common
// practice). Any other number may be far: nought takes a part out of the reckoning.
bool is_far(const ThresholdInfo& info, double value) {
  constexpr double kKelvins = 40;
  return info.dimension == measure::Dimension::kTemperature && std::abs(value - info.si) > kKelvins;
}

struct Change {
  std::string batch;
  double value;
};

std::vector<Change> changes_of(const std::vector<book::SiteRule>& rules, std::string_view key) {
  std::vector<Change> changes;
  for (const book::SiteRule& rule : rules) {
    if (rule.key == key) changes.push_back({rule.batch, rule.value});
  }
  return changes;
}

void print_rule(std::ostream& out, const ThresholdInfo& info, const std::vector<Change>& changes,
                const measure::Printer& print, std::size_t width) {
  const auto site = std::find_if(changes.begin(), changes.end(),
                                 [](const Change& change) { return change.batch.empty(); });
  const std::string standard = shown(info, info.si, print);
  out << fmt::format(
      "{}  {}{}\n", info.key, site == changes.end() ? standard : shown(info, site->value, print),
      site == changes.end() ? "" : "  (this site's; the default is " + standard + ")");
  for (const Change& change : changes) {
    if (!change.batch.empty()) {
      out << fmt::format("    {} for {}\n", shown(info, change.value, print), change.batch);
    }
  }
  out << "    " << render::wrapped(std::string(info.meaning), width - 4, 4) << '\n';
  out << "    " << render::wrapped("[" + std::string(info.source) + "]", width - 4, 4) << '\n';
}

measure::Mistake no_rule(const std::string& word) {
  std::vector<std::string_view> keys;
  for (const ThresholdInfo* info : kinds::thresholds::kAll) keys.push_back(info->key);
  std::string why = fmt::format("no rule is called {}", measure::quoted(word));
  if (const auto near = measure::nearest(word, keys))
    why += fmt::format("; did you mean {}?", *near);
  return {word, why};
}

// The rules whose key contains the word; all of them where it is empty.
Outcome list_rules(Context& context, const Desk& desk, const std::string& word) {
  const auto site = book::site_rules(desk.logbook());
  render::Json rows = render::Json::array();
  bool any = false;
  for (const ThresholdInfo* info : kinds::thresholds::kAll) {
    if (info->key.find(word) == std::string_view::npos) continue;
    any = true;
    const auto changes = changes_of(site, info->key);
    if (!context.json) {
      print_rule(context.out, *info, changes, desk.print(),
                 static_cast<std::size_t>(context.width));
      continue;
    }
    render::Json row{{"rule", std::string(info->key)},
                     {"default_si", info->si},
                     {"unit", info->label.empty() ? std::string(measure::base_unit(info->dimension))
                                                  : std::string(info->label)},
                     {"shown", shown(*info, info->si, desk.print())},
                     {"meaning", std::string(info->meaning)},
                     {"source", std::string(info->source)},
                     {"changed", render::Json::array()}};
    for (const Change& change : changes) {
      row["changed"].push_back(
          {{"batch", change.batch.empty() ? render::Json(nullptr) : render::Json(change.batch)},
           {"si", change.value},
           {"shown", shown(*info, change.value, desk.print())}});
    }
    rows.push_back(row);
  }
  if (!any) return no_rule(word);
  if (context.json) context.out << render::dumped({{"rules", rows}});
  return kDone;
}

measure::Result<double> value_of(const ThresholdInfo& info, const std::string& typed,
                                 const Desk& desk) {
  if (info.dimension == measure::Dimension::kNumber) {
    const auto number = measure::parse_number(typed);
    if (!number) return number.mistake();
    return *number;
  }
  const auto amount = measure::parse_value(
      typed, info.dimension, measure::usual_unit(info.dimension, desk.print().system()));
  if (!amount) return amount.mistake();
  return amount->value.si;
}

}  // namespace

Outcome run_rule(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const std::string key = arguments.words.empty() ? "" : measure::folded(arguments.words[0]);
  if (arguments.words.size() < 2) return list_rules(context, *desk, key);
  const ThresholdInfo* info = find_threshold(key);
  if (info == nullptr) return no_rule(key);
  std::int64_t batch_id = 0;
  std::string scope = fmt::format("every {}", info->kind);
  if (const auto code = arguments.option("batch")) {
    const auto batch = desk->batch(*code);
    if (!batch) return batch.mistake();
    if (batch->kind != info->kind) {
      return measure::Mistake{*code, fmt::format("{} is a {}; {} is a rule for a {}", batch->code,
                                                 batch->kind, info->key, info->kind)};
    }
    batch_id = batch->id;
    scope = batch->code;
  }
  const std::string typed = measure::joined(
      std::vector<std::string>(arguments.words.begin() + 1, arguments.words.end()), " ");
  book::Pen pen(*context.book, {context.who, "rule", context.line, context.clock});
  if (measure::folded(typed) == "default") {
    if (!pen.clear_rule(key, batch_id)) {
      return measure::Mistake{key,
                              fmt::format("{} stands at its default for {} already", key, scope)};
    }
    pen.commit();
    context.out << fmt::format("{} is back at its default for {}: {}\n", key, scope,
                               shown(*info, info->si, desk->print()));
    return kDone;
  }
  const auto value = value_of(*info, typed, *desk);
  if (!value) return measure::Mistake{typed, fmt::format("{}: {}", key, value.mistake().why)};
  if (is_law(*info) && *value != info->si && !arguments.flag("sure")) {
    return measure::Mistake{
        typed, fmt::format("{} is {} by {}, and a number of this site's own does not change the "
                           "law; --sure sets it anyway",
                           key, shown(*info, info->si, desk->print()), info->source)};
  }
  if (is_far(*info, *value) && !arguments.flag("sure")) {
    return measure::Mistake{
        typed,
        fmt::format("{} is {} by default, and {} is far from that; --sure sets it anyway", key,
                    shown(*info, info->si, desk->print()), shown(*info, *value, desk->print()))};
  }
  pen.set_rule(key, batch_id, *value, typed);
  pen.commit();
  context.out << fmt::format("{} is {} for {} from now on (the default is {})\n", key,
                             shown(*info, *value, desk->print()), scope,
                             shown(*info, info->si, desk->print()));
  return kDone;
}

}  // namespace cli
