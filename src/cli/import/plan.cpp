#include "cli/import/plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "measure/text.h"

namespace cli {
namespace {

using book::MappedColumn;
using book::Mapping;
using book::Role;
using measure::Mistake;

constexpr std::array<std::pair<std::string_view, Role>, 7> kRoleWords{{
    {"time", Role::kMoment},
    {"date", Role::kDate},
    {"clock", Role::kClock},
    {"probe", Role::kProbe},
    {"value", Role::kValue},
    {"unit", Role::kUnit},
    {"-", Role::kLeftOut},
}};

MappedColumn* find_column(Mapping& mapping, const std::string& name) {
  const std::string wanted = measure::folded(name);
  const auto by = [&](auto same) {
    const auto found = std::find_if(mapping.columns.begin(), mapping.columns.end(), same);
    return found == mapping.columns.end() ? nullptr : &*found;
  };
  if (auto* exact = by([&](const MappedColumn& one) { return one.name == name; })) return exact;
  if (auto* near = by([&](const MappedColumn& one) { return measure::folded(one.name) == wanted; }))
    return near;
  if (wanted.starts_with("col")) {  // by its place, where names are long or missing
    for (std::size_t i = 0; i < mapping.columns.size(); ++i) {
      if (wanted == "col" + std::to_string(i + 1)) return &mapping.columns[i];
    }
  }
  return nullptr;
}

// There is one column of each of these.
bool is_single(Role role) {
  return role != Role::kReading && role != Role::kLeftOut;
}

void give_role(Mapping& mapping, MappedColumn& column, Role role) {
  const auto drop = [&](Role other) {
    for (MappedColumn& one : mapping.columns) {
      if (one.role == other) one.role = Role::kLeftOut;
    }
  };
  if (is_single(role)) drop(role);
  if (role == Role::kMoment) drop(Role::kDate), drop(Role::kClock);
  if (role == Role::kDate || role == Role::kClock) drop(Role::kMoment);
  if (role == Role::kReading) drop(Role::kProbe), drop(Role::kValue), drop(Role::kUnit);
  if (role == Role::kProbe || role == Role::kValue) {
    // One value a row: the other numbers are no readings, unless the row has one number alone.
    std::vector<MappedColumn*> numbers;
    for (MappedColumn& one : mapping.columns) {
      if (one.role == Role::kReading && &one != &column) numbers.push_back(&one);
    }
    const bool has_value = role == Role::kValue || mapping.of(Role::kValue) != nullptr;
    for (MappedColumn* one : numbers) {
      const bool is_it = !has_value && numbers.size() == 1;
      one->role = is_it ? Role::kValue : Role::kLeftOut;
    }
  }
  column.role = role;
  column.target.clear();
}

std::optional<Mistake> give_column(const Desk& desk, Mapping& mapping, MappedColumn& column,
                                   const std::string& what) {
  for (const auto& [name, role] : kRoleWords) {
    if (measure::folded(what) != name) continue;
    give_role(mapping, column, role);
    return std::nullopt;
  }
  const auto word = read_target_word(what);
  if (!word) return word.mistake();
  const auto target = find_target(desk, word->name, word->unit);
  if (!target) return target.mistake();
  give_role(mapping, column, Role::kReading);
  column.target = word->name;
  if (!word->unit.empty()) column.unit = word->unit;
  return std::nullopt;
}

std::optional<Mistake> give_probe(const Desk& desk, Mapping& mapping, const std::string& name,
                                  const std::string& what) {
  book::MappedProbe probe{name, "-", ""};
  if (what != "-") {
    const auto word = read_target_word(what);
    if (!word) return word.mistake();
    const auto target = find_target(desk, word->name, word->unit);
    if (!target) return target.mistake();
    probe.target = word->name;
    probe.unit = word->unit;
  }
  const auto known = std::find_if(mapping.probes.begin(), mapping.probes.end(),
                                  [&](const auto& one) { return one.name == name; });
  if (known != mapping.probes.end()) {
    *known = probe;
  } else {
    mapping.probes.push_back(probe);
  }
  return std::nullopt;
}

std::optional<Mistake> apply_words(const Desk& desk, const ImportWords& words, Mapping& mapping) {
  // Columns first: they say whether there are probes.
  for (const auto& [name, what] : words.said) {
    MappedColumn* column = find_column(mapping, name);
    if (column == nullptr) continue;
    if (auto why = give_column(desk, mapping, *column, what)) return why;
  }
  for (const auto& [name, what] : words.said) {
    if (find_column(mapping, name) != nullptr) continue;
    if (!mapping.json && mapping.of(Role::kProbe) == nullptr) {
      std::vector<std::string> columns;
      for (const MappedColumn& one : mapping.columns) columns.push_back(one.name);
      return no_such("column", name, columns);
    }
    if (auto why = give_probe(desk, mapping, name, what)) return why;
  }
  return std::nullopt;
}

// Names that are series of the site already need no word.
void apply_names(const Desk& desk, const book::Layout& layout, Mapping& mapping) {
  for (MappedColumn& column : mapping.columns) {
    if (column.role != Role::kReading || !column.target.empty()) continue;
    if (const auto target = target_in_name(desk, column.name)) column.target = *target;
  }
  const MappedColumn* probe = mapping.of(Role::kProbe);
  if (probe == nullptr) return;
  for (const book::LayoutColumn& column : layout.columns) {
    if (column.name != probe->name) continue;
    for (const std::string& name : column.few) {
      const bool known = std::any_of(mapping.probes.begin(), mapping.probes.end(),
                                     [&](const auto& one) { return one.name == name; });
      const auto target = known ? std::nullopt : target_in_name(desk, name);
      if (target) mapping.probes.push_back({name, *target, ""});
    }
  }
}

void settle_time(const ImportWords& words, bool was_kept, ImportDraft& draft) {
  const MappedColumn* time = draft.mapping.of(Role::kMoment);
  if (time == nullptr) time = draft.mapping.of(Role::kDate);
  if (words.zone) draft.mapping.zone = *words.zone;
  for (const book::LayoutColumn& column : draft.layout.columns) {
    if (time == nullptr || column.name != time->name) continue;
    draft.orders = column.orders;
    for (std::size_t i = 0; i < draft.layout.columns.size(); ++i) {
      if (&draft.layout.columns[i] == &column && !draft.layout.sample.empty()) {
        draft.date = draft.layout.sample[0][i];
      }
    }
    const std::string name = measure::folded(column.name);
    const bool says_utc =
        name.find("utc") != std::string::npos || name.find("gmt") != std::string::npos;
    if (!was_kept && !words.zone && says_utc) draft.mapping.zone = "utc";
    if (!was_kept && !column.orders.empty()) draft.mapping.order = column.orders[0];
  }
  if (words.order) draft.mapping.order = *words.order;
  if (words.order || was_kept) draft.orders = {draft.mapping.order};
}

Mapping json_mapping(const std::optional<Mapping>& kept) {
  Mapping mapping = kept.value_or(Mapping{});
  mapping.json = true;
  mapping.columns = {{"at", Role::kMoment, "", ""},
                     {"series", Role::kProbe, "", ""},
                     {"value", Role::kValue, "", ""},
                     {"unit", Role::kUnit, "", ""}};
  return mapping;
}

}  // namespace

measure::Result<ImportWords> read_import_words(const Arguments& arguments) {
  ImportWords words;
  for (std::size_t i = 1; i < arguments.words.size(); ++i) {
    const std::string& word = arguments.words[i];
    const std::size_t equals = word.rfind('=');
    if (equals == std::string::npos || equals == 0 || equals + 1 == word.size()) {
      return Mistake{word, fmt::format("{} does not say what a column is; write it like "
                                       "'Core=heap-3.core', or 'Battery=-' to leave it out",
                                       measure::quoted(word))};
    }
    words.said.emplace_back(word.substr(0, equals), word.substr(equals + 1));
  }
  if (const auto order = arguments.option("dates")) {
    words.order = book::find_order(*order);
    if (!words.order) {
      return Mistake{*order,
                     fmt::format("--dates takes day-first, month-first, year-first, seconds "
                                 "or milliseconds, not {}",
                                 measure::quoted(*order))};
    }
  }
  if (const auto zone = arguments.option("zone")) {
    words.zone = zone == "UTC" ? "utc" : *zone;
    if (!book::is_zone_name(*words.zone)) {
      return Mistake{*zone, fmt::format("--zone takes site, utc, an offset like -08:00, or a zone "
                                        "like America/Los_Angeles, not {}",
                                        measure::quoted(*zone))};
    }
  }
  return words;
}

measure::Result<ImportDraft> draft_import(const Desk& desk, const book::Layout& layout,
                                          const std::optional<Mapping>& kept,
                                          const ImportWords& words) {
  ImportDraft draft{{}, layout, {}, {}};
  if (layout.json) {
    draft.mapping = json_mapping(kept);
  } else if (layout.columns.empty()) {
    return Mistake{"",
                   "no table was found in the file: roundbook looks for rows of fields between "
                   "commas, semicolons or tabs, with a date or a time in each"};
  } else if (kept && !kept->json) {
    draft.mapping = *kept;
    draft.mapping.delimiter = layout.delimiter;
    if (layout.decimal == ',') draft.mapping.decimal = ',';
  } else {
    draft.mapping = book::first_guess(layout);
  }
  if (auto why = apply_words(desk, words, draft.mapping)) return *why;
  apply_names(desk, layout, draft.mapping);
  settle_time(words, kept.has_value(), draft);
  return draft;
}

measure::Result<book::RowReader::Plan> plan_import(const Desk& desk, const ImportDraft& draft) {
  book::RowReader::Plan plan;
  plan.mapping = draft.mapping;
  const Mapping& mapping = plan.mapping;
  plan.fields = mapping.json ? mapping.columns.size() : draft.layout.columns.size();
  const bool has_time = mapping.of(Role::kMoment) != nullptr ||
                        (mapping.of(Role::kDate) != nullptr && mapping.of(Role::kClock) != nullptr);
  if (!has_time) {
    return Mistake{"",
                   "no column holds the time: say which, like 'When=time', or 'Day=date' with "
                   "'Hour=clock'"};
  }
  const auto add_target = [&](const std::string& name, const std::string& unit,
                              const std::string& whose) -> measure::Result<int> {
    auto target = find_target(desk, name, unit);
    if (!target) return Mistake{name, fmt::format("{}: {}", whose, target.mistake().why)};
    for (const book::Target& other : plan.targets) {
      if (other.label != target->label) continue;
      return Mistake{whose, fmt::format("{} and another both go to {}", measure::quoted(whose),
                                        target->label)};
    }
    plan.targets.push_back(*target);
    return static_cast<int>(plan.targets.size()) - 1;
  };
  for (std::size_t i = 0; i < mapping.columns.size(); ++i) {
    const MappedColumn& column = mapping.columns[i];
    int at = mapping.json ? static_cast<int>(i) : -1;
    for (std::size_t place = 0; place < draft.layout.columns.size(); ++place) {
      if (draft.layout.columns[place].name == column.name) at = static_cast<int>(place);
    }
    if (at < 0 && column.role != Role::kLeftOut) {
      std::vector<std::string> names;
      for (const auto& one : draft.layout.columns) names.push_back(one.name);
      return Mistake{column.name, "the file has another header than the mapping: " +
                                      no_such("column", column.name, names).why};
    }
    plan.columns.push_back(at);
    int target = -1;
    if (column.role == Role::kReading && !column.target.empty()) {
      const auto found = add_target(column.target, column.unit, column.name);
      if (!found) return found.mistake();
      target = *found;
    }
    plan.of_column.push_back(target);
  }
  const MappedColumn* value = mapping.of(Role::kValue);
  if (mapping.of(Role::kProbe) != nullptr && value == nullptr) {
    return Mistake{"",
                   "each row names its probe, and no column holds its value: say which, like "
                   "'Reading=value'"};
  }
  for (const book::MappedProbe& probe : mapping.probes) {
    int target = -1;
    if (probe.target != "-") {
      // A unit in the value's header holds for every probe whose own is not said.
      const std::string& unit = probe.unit.empty() && value != nullptr ? value->unit : probe.unit;
      const auto found = add_target(probe.target, unit, probe.name);
      if (!found) return found.mistake();
      target = *found;
    }
    plan.of_probe.push_back(target);
  }
  if (plan.targets.empty() && mapping.of(Role::kProbe) == nullptr) {
    return Mistake{"", "no column goes to a series: say which, like 'Core=heap-3.core'"};
  }
  return plan;
}

}  // namespace cli
