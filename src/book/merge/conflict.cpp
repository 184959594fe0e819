#include "book/merge/conflict.h"

#include <fmt/format.h>

#include "book/keep/package_text.h"
#include "measure/text.h"

namespace book {
namespace {

std::string shown(const TableInfo& table, const Row& row, std::string_view column) {
  return measure::inert(text_at(table, row, column));
}

// The batch as it was made last; null: nothing is known of it.
const Row* latest_of_batch(const Union& whole, const std::string& name) {
  const auto story = whole.stories.at("batch").find(name);
  const bool known = story != whole.stories.at("batch").end() && !story->second.made.empty();
  return known ? &story->second.made.rbegin()->second : nullptr;
}

// Of two readings of other values: the values, and what gives them their unit.
void tell_values(const Union& whole, const TableInfo& table, const Row& kept, const Row& other,
                 Conflict& conflict) {
  const auto parts = measure::split(text_at(table, kept, "series"), kBetween);
  const Row* batch = parts.size() == 3 ? latest_of_batch(whole, parts[0]) : nullptr;
  const auto* kept_value = std::get_if<double>(&kept[table.at("value")]);
  const auto* other_value = std::get_if<double>(&other[table.at("value")]);
  if (batch == nullptr || kept_value == nullptr || other_value == nullptr ||
      *kept_value == *other_value) {
    return;
  }
  conflict.kind = shown(whole.table("batch"), *batch, "kind");
  conflict.quantity = measure::inert(parts[1]);
  conflict.kept_value = *kept_value;
  conflict.other_value = *other_value;
}

std::string subject(const Union& whole, const TableInfo& table, const std::string& name,
                    const Row& row) {
  if (table.name == "batch") return "batch " + shown(table, row, "code");
  if (table.name == "reading") {
    const auto parts = measure::split(text_at(table, row, "series"), kBetween);
    if (parts.size() == 3) {
      return measure::inert(fmt::format("{} {}{}{}", code_of(whole, parts[0]), parts[1],
                                        parts[2].empty() ? "" : " ", parts[2]));
    }
  }
  if (table.has("batch")) {
    const std::string batch = text_at(table, row, "batch");
    const std::string key = table.has("key") ? " " + shown(table, row, "key") : "";
    return table.name + key + (batch.empty() ? "" : ", " + code_of(whole, batch));
  }
  return table.name + (table.has("uid") && table.name != "place" ? "" : " " + measure::inert(name));
}

bool differs_in_reference(const TableInfo& table, const Row& kept, const Row& other) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const std::string& refers = table.columns[i].refers;
    if (!refers.empty() && refers != "entry" && kept[i] != other[i]) return true;
  }
  return false;
}

// What two versions of a row say differently; false: nothing that matters.
bool tell_apart(const TableInfo& table, const Row& kept, const Row& other, Conflict& conflict) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const ColumnInfo& column = table.columns[i];
    const bool tells = column.name != "entry" && column.name != "id" && column.name != "uid" &&
                       column.refers.empty() && !column.is_day();
    if (!tells || kept[i] == other[i]) continue;
    const std::string lead = (conflict.kept.empty() ? "" : ", ") + column.name + " ";
    conflict.kept += lead + csv_cell(column, kept[i]);
    conflict.other += lead + csv_cell(column, other[i]);
  }
  if (!conflict.kept.empty()) return true;
  conflict.kept = "one batch or place";
  conflict.other = "another";
  return differs_in_reference(table, kept, other);
}

}  // namespace

std::optional<Conflict> conflict_of(const Union& whole, const TableInfo& table,
                                    const std::string& name, const Row* kept, const Row* other) {
  if (kept == nullptr && other == nullptr) return std::nullopt;
  Conflict conflict;
  if (kept == nullptr || other == nullptr) {
    conflict.kept = kept == nullptr ? "that it is taken away" : "what was corrected";
    conflict.other = kept == nullptr ? "it corrected" : "it taken away";
  } else {
    if (!tell_apart(table, *kept, *other, conflict)) return std::nullopt;
    if (table.name == "reading") tell_values(whole, table, *kept, *other, conflict);
  }
  conflict.what = subject(whole, table, name, kept != nullptr ? *kept : *other);
  return conflict;
}

std::string who(const Union& whole, const std::string& uid) {
  return shown(whole.table("entry"), whole.entries.at(uid).row, "who");
}

std::string code_of(const Union& whole, const std::string& batch) {
  const Row* row = latest_of_batch(whole, batch);
  return row == nullptr ? measure::inert(batch) : shown(whole.table("batch"), *row, "code");
}

}  // namespace book
