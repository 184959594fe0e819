#include "cli/desk/change_words.h"

#include <charconv>

namespace cli {

bool is_moment(std::string_view field) {
  return field == "at" || field == "started_at" || field == "ended_at";
}

measure::Instant moment_of(const std::string& seconds) {
  std::int64_t number{};
  std::from_chars(seconds.data(), seconds.data() + seconds.size(), number);
  return measure::Instant{std::chrono::seconds{number}};
}

namespace {

// A field as the person knows it: a value with its unit, a moment, a word.
std::string shown(const Desk& desk, const book::Change& change, const std::string& name,
                  const std::string& value) {
  if (value.empty()) return "nothing";
  if (is_moment(name)) {
    return measure::moment_words(moment_of(value), desk.now(), desk.site().zone);
  }
  if (change.table == "note" && name == "text") return "“" + value + "”";
  if (change.table == "reading" && name == "value") {
    double si{};
    std::from_chars(value.data(), value.data() + value.size(), si);
    const auto batch = book::find_batch(desk.logbook(), change.batch);
    const kinds::Quantity* quantity =
        batch ? kinds::find_quantity(desk.kind(*batch), change.quantity) : nullptr;
    if (quantity != nullptr)
      return desk.print()(measure::Value{quantity->dimension, si}, quantity->shown_in);
  }
  return value;
}

std::string field_name(const std::string& name) {
  if (name == "at") return "moment";
  if (name == "started_at") return "start";
  if (name == "ended_at") return "end";
  if (name == "from_batch") return "from";
  if (name == "to_batch") return "to";
  if (name == "material_group") return "group";
  return name;
}

// An amount in base units stands beside the amount as typed; one of them is enough to read.
bool is_double(const book::Change& change, const std::string& name) {
  return (change.table == "movement" && name == "amount") ||
         ((change.table == "setting" || change.table == "rule") && name == "value") ||
         (change.table == "container" && name == "litres") || name == "sure";
}

std::string subject(const book::Change& change) {
  std::string text = change.batch;
  const auto add = [&](const std::string& part) {
    if (!part.empty()) text += (text.empty() ? "" : " ") + part;
  };
  if (change.table == "reading") {
    add(change.quantity);
    add(change.position);
  } else if (change.table == "movement") {
    add(change.material);
  } else if (change.table != "batch") {
    add(change.table);
  }
  return text;
}

}  // namespace

std::string change_text(const Desk& desk, const book::Change& change) {
  std::string text = subject(change) + ":";
  if (change.taken_away) text += " taken away:";
  bool first = true;
  for (const auto& field : change.fields) {
    if (is_double(change, field.name) || (change.taken_away && field.before.empty())) continue;
    text += first ? " " : ", ";
    first = false;
    const bool plain = (change.table == "reading" && field.name == "value") ||
                       (change.table == "movement" && field.name == "typed") ||
                       (change.table == "note" && field.name == "text");
    if (!plain) text += field_name(field.name) + " ";
    text += shown(desk, change, field.name, field.before);
    if (!change.taken_away) text += " became " + shown(desk, change, field.name, field.after);
  }
  return text;
}

}  // namespace cli
