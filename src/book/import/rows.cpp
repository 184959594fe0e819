#include "book/import/rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "book/import/number.h"
#include "measure/text.h"

namespace book {
namespace {

constexpr std::int64_t kMostAhead = 600;  // s: a logger's clock may run ahead a little
constexpr std::int64_t kDaySeconds = 86400;

measure::Zone zone_of(const Mapping& mapping, const measure::Zone& site) {
  return measure::Zone::named(mapping.zone).value_or(site);
}

std::optional<std::int64_t> offset_of(const Mapping& mapping) {
  if (mapping.zone == "utc") return 0;
  if (mapping.zone.size() == 6 && (mapping.zone[0] == '+' || mapping.zone[0] == '-')) {
    const auto midnight = read_moment("2000-01-01T00:00" + mapping.zone, TimeOrder::kYearFirst);
    const auto there = read_moment("2000-01-01T00:00Z", TimeOrder::kYearFirst);
    if (midnight) return there->seconds - midnight->seconds;
  }
  return std::nullopt;
}

// Digits alone are a count of seconds or milliseconds, told apart by their size: JSON has no header
// to ask.
TimeOrder order_of(std::string_view field, TimeOrder usual) {
  const bool count =
      !field.empty() && field.find_first_not_of("0123456789.") == std::string_view::npos;
  if (!count || field.size() < 9) return usual;
  return field.substr(0, field.find('.')).size() > 11 ? TimeOrder::kMilliseconds
                                                      : TimeOrder::kSeconds;
}

}  // namespace

RowReader::RowReader(Plan plan, const measure::Zone& site, bool backward, measure::Instant now,
                     Resolve resolve)
    : plan_(std::move(plan)),
      resolve_(std::move(resolve)),
      local_times_(zone_of(plan_.mapping, site), backward),
      fixed_offset_(offset_of(plan_.mapping)),
      latest_(now.time_since_epoch().count() + kMostAhead),
      last_of_(plan_.targets.size()) {
  for (std::size_t i = 0; i < plan_.mapping.columns.size(); ++i) {
    const MappedColumn& column = plan_.mapping.columns[i];
    const int at = plan_.columns[i];
    switch (column.role) {
      case Role::kMoment:
        moment_ = at;
        break;
      case Role::kDate:
        date_ = at;
        break;
      case Role::kClock:
        clock_ = at;
        break;
      case Role::kProbe:
        probe_ = at;
        break;
      case Role::kValue:
        value_ = at;
        break;
      case Role::kUnit:
        unit_ = at;
        break;
      case Role::kReading:
        if (plan_.of_column[i] >= 0) reading_columns_.push_back({at, plan_.of_column[i]});
        break;
      case Role::kLeftOut:
        break;
    }
  }
  for (std::size_t i = 0; i < plan_.mapping.probes.size(); ++i) {
    probes_.emplace(plan_.mapping.probes[i].name, plan_.of_probe[i]);
  }
}

bool RowReader::refuse(std::string why) {
  why_ = std::move(why);
  return false;
}

bool RowReader::settle_time(std::int64_t local) {
  if (fixed_offset_) {
    at_ = local - *fixed_offset_;
    return true;
  }
  const auto series_before =
      row_target_ >= 0 ? last_of_[static_cast<std::size_t>(row_target_)] : before_;
  const auto at = local_times_.instant_of(local, before_, series_before);
  if (!at)
    return refuse(
        "the clock skipped that time; does the logger keep one time all year? Then say --zone");
  at_ = *at;
  return true;
}

bool RowReader::read_time(std::span<const std::string_view> fields) {
  const TimeOrder order = plan_.mapping.order;
  if (moment_ >= 0) {
    const std::string_view field = fields[static_cast<std::size_t>(moment_)];
    const auto moment =
        read_moment(field, plan_.mapping.json ? order_of(trimmed(field), order) : order);
    if (!moment) return refuse(fmt::format("{} is not a moment", measure::quoted(field)));
    if (!moment->is_utc) return settle_time(moment->seconds);
    at_ = moment->seconds;
    return true;
  }
  const std::string_view date = fields[static_cast<std::size_t>(date_)];
  const std::string_view clock = fields[static_cast<std::size_t>(clock_)];
  const auto day = read_date(date, order);
  const auto time = read_clock(clock);
  if (!day) return refuse(fmt::format("{} is not a date", measure::quoted(date)));
  if (!time) return refuse(fmt::format("{} is not a time of day", measure::quoted(clock)));
  return settle_time(*day * kDaySeconds + *time);
}

bool RowReader::add(std::string_view field, int index, const measure::Unit* unit) {
  const Target& target = plan_.targets[static_cast<std::size_t>(index)];
  auto number = read_number(field, plan_.mapping.decimal);
  if (!number) {
    if (is_missing(field)) return true;
    // "64.4 °C": the unit may stand behind the number.
    const std::string_view plain = trimmed(field);
    const std::size_t end = plain.find_last_of("0123456789");
    number = end == std::string_view::npos
                 ? std::nullopt
                 : read_number(plain.substr(0, end + 1), plan_.mapping.decimal);
    const measure::Unit* said =
        number ? measure::find_unit(trimmed(plain.substr(end + 1))) : nullptr;
    if (said == nullptr) return refuse(fmt::format("{} is not a number", measure::quoted(field)));
    unit = said;
  } else if (*number <= -99 && is_missing(field)) {
    return true;
  }
  if (unit == nullptr) unit = target.unit;
  // The target's own unit fits as it is: a plain number (mg/L of acids) has none of its dimension.
  if (unit != target.unit && unit->dimension != target.dimension) {
    return refuse(
        fmt::format("{} is no unit for {} of {}", unit->symbol, target.quantity, target.label));
  }
  const double value = unit->to_base(*number);
  if (!std::isfinite(value)) {
    return refuse(fmt::format("{} is more than can be kept", measure::quoted(field)));
  }
  // The latest batch first: most rows are of it.
  for (std::size_t run = target.runs.size(); run-- > 0;) {
    if (at_ < target.runs[run].started || at_ > target.runs[run].ended) continue;
    readings_.push_back(
        {static_cast<std::uint32_t>(index), static_cast<std::uint32_t>(run), value});
    return true;
  }
  return refuse(fmt::format("{} was not open at that moment",
                            target.label.substr(0, target.label.find(' '))));
}

std::optional<int> RowReader::target_of_probe(std::string_view name) {
  const auto known = probes_.find(name);
  if (known != probes_.end()) return known->second;
  auto target = name.empty() ? std::nullopt : resolve_(name);
  if (!target) return std::nullopt;
  plan_.targets.push_back(std::move(*target));
  last_of_.emplace_back();
  const int index = static_cast<int>(plan_.targets.size()) - 1;
  probes_.emplace(std::string(name), index);
  return index;
}

const measure::Unit* RowReader::unit_named(std::string_view name) {
  auto known = units_.find(name);
  if (known == units_.end()) {
    known = units_.emplace(std::string(name), measure::find_unit(name)).first;
  }
  return known->second;
}

bool RowReader::read(std::span<const std::string_view> fields) {
  readings_.clear();
  if (plan_.fields > 0 && fields.size() != plan_.fields) {
    return refuse(fmt::format("it has {} field{}, and the table has {}", fields.size(),
                              fields.size() == 1 ? "" : "s", plan_.fields));
  }
  const auto field = [&](int column) { return fields[static_cast<std::size_t>(column)]; };
  row_target_ = reading_columns_.empty() ? -1 : reading_columns_[0].target;
  const measure::Unit* unit = nullptr;  // of the target, unless the row says its own
  if (probe_ >= 0) {
    const std::string_view name = trimmed(field(probe_));
    const auto target = target_of_probe(name);
    if (!target) {
      return refuse(name.empty()
                        ? "it names no probe"
                        : fmt::format("nothing was said of a probe {}", measure::quoted(name)));
    }
    if (*target < 0) return true;  // left out
    row_target_ = *target;
  }
  const std::string_view unit_name = unit_ >= 0 ? trimmed(field(unit_)) : std::string_view();
  if (!unit_name.empty()) {
    unit = unit_named(unit_name);
    if (unit == nullptr) return refuse(fmt::format("{} is no unit", measure::quoted(unit_name)));
  }
  if (!read_time(fields)) return false;
  if (at_ > latest_) return refuse("it is in the future; is the logger's clock right?");
  if (probe_ >= 0) {
    if (!add(field(value_), row_target_, unit)) return false;
  } else {
    for (const ReadingColumn& column : reading_columns_) {
      if (!add(field(column.column), column.target, nullptr)) return false;
    }
  }
  before_ = at_;
  if (row_target_ >= 0) last_of_[static_cast<std::size_t>(row_target_)] = at_;
  return true;
}

}  // namespace book
