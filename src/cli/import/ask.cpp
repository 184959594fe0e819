#include "cli/import/ask.h"

#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <ostream>

#include "measure/text.h"
#include "render/text.h"

namespace cli {
namespace {

using book::MappedColumn;
using book::Role;
using measure::Mistake;

// Where a person is spoken to: apart from an answer that a program reads.
std::ostream& aside(Context& context) {
  return context.json ? context.err : context.out;
}

std::optional<std::string> answer(Context& context, const std::string& question) {
  aside(context) << render::wrapped(question, static_cast<std::size_t>(context.width), 2) << ' '
                 << std::flush;
  std::string line;
  if (!std::getline(context.in, line)) {
    aside(context) << '\n';
    return std::nullopt;
  }
  return measure::folded(line);
}

std::string zone_words(const std::string& zone) {
  if (zone == "site") return "the site's clock";
  return zone == "utc" ? "UTC" : zone;
}

std::string order_words(book::TimeOrder order) {
  switch (order) {
    case book::TimeOrder::kYearFirst:
      return "";
    case book::TimeOrder::kDayFirst:
      return ", day first";
    case book::TimeOrder::kMonthFirst:
      return ", month first";
    case book::TimeOrder::kSeconds:
      return ", seconds since 1970 UTC";
    case book::TimeOrder::kMilliseconds:
      return ", milliseconds since 1970 UTC";
  }
  return "";
}

std::string time_words(const book::Mapping& mapping) {
  const bool count =
      mapping.order == book::TimeOrder::kSeconds || mapping.order == book::TimeOrder::kMilliseconds;
  return order_words(mapping.order) + (count ? "" : ", by " + zone_words(mapping.zone));
}

std::string reading_words(const Desk& desk, const std::string& name, const std::string& unit) {
  const auto target = find_target(desk, name, unit);
  if (!target) return name;
  const bool none = target->dimension == measure::Dimension::kNumber ||
                    target->dimension == measure::Dimension::kCount;
  if (none) return target->label;
  return fmt::format("{} in {}{}", target->label, target->unit->symbol,
                     unit.empty() ? " where none is said" : "");
}

std::string column_words(const Desk& desk, const MappedColumn& column,
                         const book::Mapping& mapping) {
  switch (column.role) {
    case Role::kLeftOut:
      return "left out";
    case Role::kMoment:
      return "the time" + time_words(mapping);
    case Role::kDate:
      return "the date" + time_words(mapping);
    case Role::kClock:
      return "the time of day";
    case Role::kProbe:
      return "the probe";
    case Role::kValue:
      return "its value" + (column.unit.empty() ? "" : " in " + column.unit);
    case Role::kUnit:
      return "its unit";
    case Role::kReading:
      return column.target.empty() ? "left out" : reading_words(desk, column.target, column.unit);
  }
  return "";
}

void show_columns(Context& context, const Desk& desk, const ImportDraft& draft) {
  render::Table table({{"column"}, {"first row"}, {"read as"}});
  for (const MappedColumn& column : draft.mapping.columns) {
    std::string first;
    for (std::size_t i = 0; i < draft.layout.columns.size(); ++i) {
      const bool here = draft.layout.columns[i].name == column.name;
      if (here && !draft.layout.sample.empty()) first = draft.layout.sample[0][i];
    }
    std::replace(first.begin(), first.end(), '\n', ' ');
    table.add({measure::quoted(column.name, 24), render::cut(measure::inert(first), 20),
               column_words(desk, column, draft.mapping)});
  }
  const MappedColumn* value = draft.mapping.of(Role::kValue);
  for (const book::MappedProbe& probe : draft.mapping.probes) {
    const std::string& unit = probe.unit.empty() && value != nullptr ? value->unit : probe.unit;
    table.add({"probe " + measure::quoted(probe.name, 18), "",
               probe.target == "-" ? "left out" : reading_words(desk, probe.target, unit)});
  }
  aside(context) << table.text(static_cast<std::size_t>(context.width), 2);
}

void show_rows(Context& context, const Desk& desk, const ImportDraft& draft) {
  const auto plan = plan_import(desk, draft);
  if (!plan || draft.layout.sample.empty()) return;
  book::RowReader reader(*plan, desk.site().zone, draft.layout.backward, desk.now(),
                         [](std::string_view) { return std::nullopt; });
  aside(context) << "first rows\n";
  for (const std::vector<std::string>& row : draft.layout.sample) {
    const std::vector<std::string_view> fields(row.begin(), row.end());
    std::string text;
    if (!reader.read(fields)) {
      text = "refused: " + reader.why();
    } else {
      text = measure::moment_words(measure::Instant{std::chrono::seconds{reader.at()}}, desk.now(),
                                   desk.site().zone);
      for (const book::RowReading& reading : reader.readings()) {
        const book::Target& target = reader.plan().targets[reading.target];
        text += fmt::format(" · {} {}", target.label, shown(desk, target, reading.value));
      }
      if (reader.readings().empty()) text += " · nothing";
    }
    aside(context) << render::wrapped("  " + text, static_cast<std::size_t>(context.width), 4)
                   << '\n';
  }
}

std::optional<Mistake> ask_order(Context& context, bool answers, ImportDraft& draft) {
  if (draft.orders.size() < 2) return std::nullopt;
  const std::string date = measure::quoted(draft.date);
  std::optional<std::string> said;
  if (answers) {
    said = answer(context, fmt::format("in {}, what comes first? [day/month]", date));
  }
  if (said && !said->empty() && std::string_view("day").starts_with(*said)) {
    draft.mapping.order = book::TimeOrder::kDayFirst;
  } else if (said && !said->empty() && std::string_view("month").starts_with(*said)) {
    draft.mapping.order = book::TimeOrder::kMonthFirst;
  } else {
    return Mistake{draft.date,
                   fmt::format("{} can be read with the day or the month first, and no date in the "
                               "file tells which; say --dates day-first or --dates month-first",
                               date)};
  }
  draft.orders = {draft.mapping.order};
  return std::nullopt;
}

// The series that a person answers, or none (an empty answer, or nobody there).
std::optional<TargetWord> ask_series(Context& context, const Desk& desk, const std::string& what) {
  for (;;) {
    const auto said = answer(
        context, fmt::format("which series is {}? (like heap-3.core; Enter leaves it out)", what));
    if (!said || said->empty() || *said == "-") return std::nullopt;
    const auto word = read_target_word(*said);
    const auto target = word ? find_target(desk, word->name, word->unit)
                             : measure::Result<book::Target>(word.mistake());
    if (target) return *word;
    aside(context) << render::wrapped("  " + target.mistake().why +
                                          (target.mistake().why.ends_with('?') ? "" : "."),
                                      static_cast<std::size_t>(context.width), 2)
                   << '\n';
  }
}

void ask_probes(Context& context, const Desk& desk, ImportDraft& draft) {
  const MappedColumn* probe = draft.mapping.of(Role::kProbe);
  if (probe == nullptr || draft.mapping.json) return;
  for (const book::LayoutColumn& column : draft.layout.columns) {
    if (column.name != probe->name) continue;
    for (const std::string& name : column.few) {
      const bool known =
          std::any_of(draft.mapping.probes.begin(), draft.mapping.probes.end(),
                      [&](const book::MappedProbe& one) { return one.name == name; });
      if (known) continue;
      const auto word = ask_series(context, desk, "the probe " + measure::quoted(name));
      draft.mapping.probes.push_back(
          {name, word ? word->name : std::string("-"), word ? word->unit : std::string()});
    }
  }
}

}  // namespace

void show_draft(Context& context, const Desk& desk, const ImportDraft& draft,
                const std::string& file) {
  if (draft.mapping.json) {
    aside(context) << fmt::format("{}: JSON, one object a line\n", file);
    return;
  }
  const std::string between = draft.mapping.delimiter == '\t'  ? "tabs"
                              : draft.mapping.delimiter == ';' ? "semicolons"
                                                               : "commas";
  const std::string before =
      draft.layout.lines_before == 0
          ? "no header"
          : fmt::format("the table begins on line {}", draft.layout.lines_before + 1);
  aside(context) << fmt::format("{}: fields between {}, {}{}\n", file, between,
                                draft.mapping.decimal == ',' ? "decimal comma, " : "", before);
  show_columns(context, desk, draft);
  show_rows(context, desk, draft);
}

std::optional<Mistake> complete_draft(Context& context, const Desk& desk, bool answers,
                                      ImportDraft& draft) {
  if (auto why = ask_order(context, answers, draft)) return why;
  for (MappedColumn& column : draft.mapping.columns) {
    if (column.role != Role::kReading || !column.target.empty()) continue;
    const auto word = answers ? ask_series(context, desk, "column " + measure::quoted(column.name))
                              : std::nullopt;
    if (!word) {
      column.role = Role::kLeftOut;
      continue;
    }
    column.target = word->name;
    if (!word->unit.empty()) column.unit = word->unit;
  }
  if (answers) ask_probes(context, desk, draft);
  return std::nullopt;
}

std::optional<bool> agreed(Context& context) {
  const auto said = answer(context, "record it like this? [y/n]");
  if (!said) return std::nullopt;
  return *said == "y" || *said == "yes";
}

}  // namespace cli
