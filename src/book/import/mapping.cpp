#include "book/import/mapping.h"

#include <algorithm>
#include <array>
#include <utility>

#include "measure/text.h"

namespace book {
namespace {

constexpr std::array<std::pair<TimeOrder, std::string_view>, 5> kOrders{{
    {TimeOrder::kYearFirst, "year-first"},
    {TimeOrder::kDayFirst, "day-first"},
    {TimeOrder::kMonthFirst, "month-first"},
    {TimeOrder::kSeconds, "seconds"},
    {TimeOrder::kMilliseconds, "milliseconds"},
}};

constexpr std::array<std::pair<Role, std::string_view>, 8> kRoles{{
    {Role::kLeftOut, "-"},
    {Role::kMoment, "time"},
    {Role::kDate, "date"},
    {Role::kClock, "clock"},
    {Role::kProbe, "probe"},
    {Role::kValue, "value"},
    {Role::kUnit, "unit"},
    {Role::kReading, "reading"},
}};

constexpr std::array<std::string_view, 8> kProbeNames{"probe",  "sensor",   "series", "channel",
                                                      "logger", "location", "name",   "position"};

template <class Table, class Value>
std::string_view word_of(const Table& table, Value value) {
  return std::find_if(table.begin(), table.end(),
                      [&](const auto& one) { return one.first == value; })
      ->second;
}

template <class Table>
auto find_word(const Table& table, std::string_view word)
    -> std::optional<typename Table::value_type::first_type> {
  for (const auto& [value, name] : table) {
    if (name == word) return value;
  }
  return std::nullopt;
}

bool is_probe_name(const LayoutColumn& column) {
  const std::string name = measure::folded(column.name);
  return std::any_of(kProbeNames.begin(), kProbeNames.end(),
                     [&](std::string_view known) { return name.find(known) != std::string::npos; });
}

// Which column names the series of its row: one of text, or one that is called so.
std::optional<std::size_t> probe_column(const Layout& layout) {
  std::optional<std::size_t> found;
  std::size_t numbers = 0;
  for (std::size_t i = 0; i < layout.columns.size(); ++i) {
    const LayoutColumn& column = layout.columns[i];
    const bool named = is_probe_name(column) && !column.few.empty();
    if (!found && ((column.looks == Looks::kText && !column.few.empty()) || named)) {
      found = i;
    } else if (column.looks == Looks::kNumber) {
      ++numbers;
    }
  }
  return numbers == 1 ? found : std::nullopt;
}

}  // namespace

const MappedColumn* Mapping::of(Role role) const {
  const auto found = std::find_if(columns.begin(), columns.end(),
                                  [&](const MappedColumn& one) { return one.role == role; });
  return found == columns.end() ? nullptr : &*found;
}

std::string_view word(TimeOrder order) {
  return word_of(kOrders, order);
}

std::optional<TimeOrder> find_order(std::string_view text) {
  return find_word(kOrders, text);
}

bool is_zone_name(const std::string& zone) {
  if (zone == "site" || zone == "utc") return true;
  if (zone.size() == 6 && (zone[0] == '+' || zone[0] == '-')) {
    return read_moment("2000-01-01T00:00" + zone, TimeOrder::kYearFirst).has_value();
  }
  return measure::Zone::named(zone).has_value();
}

std::string written(const Mapping& mapping) {
  std::string text;
  const auto line = [&](std::initializer_list<std::string_view> parts) {
    for (const std::string_view part : parts) {
      if (!text.empty() && text.back() != '\n') text += '\t';
      for (const char c : part) text += c == '\t' || c == '\n' ? ' ' : c;
    }
    text += '\n';
  };
  line({"form", mapping.json ? "json" : "delimited"});
  line({"delimiter", mapping.delimiter == '\t' ? "tab" : std::string(1, mapping.delimiter)});
  line({"decimal", std::string(1, mapping.decimal)});
  line({"order", word(mapping.order)});
  line({"zone", mapping.zone});
  for (const MappedColumn& column : mapping.columns) {
    line({"column", word_of(kRoles, column.role), column.target.empty() ? "-" : column.target,
          column.unit.empty() ? "-" : column.unit, column.name});
  }
  for (const MappedProbe& probe : mapping.probes) {
    line({"probe", probe.target, probe.unit.empty() ? "-" : probe.unit, probe.name});
  }
  return text;
}

std::optional<Mapping> read_mapping(std::string_view text) {
  Mapping mapping;
  const auto or_empty = [](const std::string& part) { return part == "-" ? std::string() : part; };
  for (const std::string& line : measure::split(text, '\n')) {
    if (line.empty()) continue;
    const std::vector<std::string> part = measure::split(line, '\t');
    if (part.size() == 2 && part[0] == "form") {
      mapping.json = part[1] == "json";
    } else if (part.size() == 2 && part[0] == "delimiter") {
      mapping.delimiter = part[1] == "tab" ? '\t' : part[1][0];
    } else if (part.size() == 2 && part[0] == "decimal") {
      mapping.decimal = part[1][0];
    } else if (part.size() == 2 && part[0] == "order" && find_order(part[1])) {
      mapping.order = *find_order(part[1]);
    } else if (part.size() == 2 && part[0] == "zone" && is_zone_name(part[1])) {
      mapping.zone = part[1];
    } else if (part.size() == 5 && part[0] == "column" && find_word(kRoles, part[1])) {
      mapping.columns.push_back(
          {part[4], *find_word(kRoles, part[1]), or_empty(part[2]), or_empty(part[3])});
    } else if (part.size() == 4 && part[0] == "probe") {
      mapping.probes.push_back({part[3], part[1], or_empty(part[2])});
    } else {
      return std::nullopt;
    }
  }
  return mapping;
}

Mapping first_guess(const Layout& layout) {
  Mapping mapping;
  mapping.json = layout.json;
  if (layout.json) return mapping;
  mapping.delimiter = layout.delimiter;
  mapping.decimal = layout.decimal;
  const auto first = [&](Looks looks) -> std::optional<std::size_t> {
    for (std::size_t i = 0; i < layout.columns.size(); ++i) {
      if (layout.columns[i].looks == looks) return i;
    }
    return std::nullopt;
  };
  const auto moment = first(Looks::kMoment);
  const auto day = moment ? std::nullopt : first(Looks::kDate);
  const auto clock = moment ? std::nullopt : first(Looks::kClock);
  const auto unit = first(Looks::kUnit);
  const auto probe = probe_column(layout);
  for (std::size_t i = 0; i < layout.columns.size(); ++i) {
    const LayoutColumn& column = layout.columns[i];
    MappedColumn mapped{column.name, Role::kLeftOut, "", ""};
    if (i == moment) mapped.role = Role::kMoment;
    if (i == day) mapped.role = Role::kDate;
    if (i == clock) mapped.role = Role::kClock;
    if (i == unit && probe) mapped.role = Role::kUnit;
    if (i == probe) {
      mapped.role = Role::kProbe;
    } else if (column.looks == Looks::kNumber) {
      mapped.role = probe ? Role::kValue : Role::kReading;
      mapped.unit = column.unit;
    }
    if ((i == moment || i == day) && !column.orders.empty()) mapping.order = column.orders[0];
    mapping.columns.push_back(std::move(mapped));
  }
  return mapping;
}

}  // namespace book
