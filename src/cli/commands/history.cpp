#include <fmt/format.h>

#include <ostream>

#include "book/read/past.h"
#include "cli/desk/change_words.h"
#include "cli/desk/desk.h"
#include "cli/desk/hands.h"
#include "cli/shell/commands.h"
#include "cli/words/days.h"
#include "measure/text.h"
#include "render/json.h"
#include "render/text.h"

namespace cli {
namespace {

constexpr std::size_t kShort = 20;
constexpr std::size_t kAll = 1'000'000'000;

// As it was recorded, but for a moment: that is ISO 8601 as everywhere in JSON.
std::string json_value(const Desk& desk, const std::string& name, const std::string& value) {
  return is_moment(name) && !value.empty() ? desk.site().zone.iso(moment_of(value)) : value;
}

render::Json json_of(const book::PastEntry& one, const Desk& desk) {
  render::Json json{
      {"entry", one.entry.id},
      {"uid", one.uid},
      {"recorded", desk.site().zone.iso(one.entry.recorded_at)},
      {"who", one.entry.who},
      {"command", one.entry.command},
      {"line", one.entry.line},
      {"taken_back_by", one.undone_by ? render::Json(*one.undone_by) : render::Json(nullptr)},
      {"photos", one.photos},
      {"changes", render::Json::array()}};
  for (const book::Change& change : one.changes) {
    render::Json row{{"table", change.table},          {"batch", change.batch},
                     {"quantity", change.quantity},    {"position", change.position},
                     {"material", change.material},    {"taken_away", change.taken_away},
                     {"fields", render::Json::array()}};
    for (const auto& field : change.fields) {
      row["fields"].push_back({{"name", field.name},
                               {"before", json_value(desk, field.name, field.before)},
                               {"after", json_value(desk, field.name, field.after)}});
    }
    json["changes"].push_back(row);
  }
  return json;
}

// Words for a batch and for days, in any order, and --who.
measure::Result<book::PastAsked> wanted_past(const Arguments& arguments, const Desk& desk) {
  book::PastAsked asked;
  for (const std::string& word : arguments.words) {
    const auto found = desk.batch(word);
    if (!found && looks_like_days(word) && !asked.from) {
      const auto days = read_days(word, desk.now(), desk.site().zone);
      if (!days) return days.mistake();
      asked.from = days->from;
      asked.to = days->to;
      continue;
    }
    if (asked.batch) {
      return measure::Mistake{word, "history takes one batch and one day or span, or neither"};
    }
    if (!found) return found.mistake();
    asked.batch = *found;
  }
  if (const auto who = arguments.option("who")) {
    const auto name = known_who(*who, desk.logbook());
    if (!name) return name.mistake();
    asked.who = *name;
  }
  return asked;
}

}  // namespace

Outcome run_history(Context& context, const Arguments& arguments) {
  const auto desk = Desk::lay_out(context);
  if (!desk) return desk.mistake();
  const auto asked = wanted_past(arguments, *desk);
  if (!asked) return asked.mistake();
  // Of some days, all is shown.
  const std::size_t most = arguments.flag("all") || asked->from ? kAll : kShort;
  auto entries = book::past(desk->logbook(), *asked, most == kAll ? kAll : most + 1);
  const bool more = entries.size() > most;
  if (more) entries.pop_back();
  if (context.json) {
    render::Json rows = render::Json::array();
    for (const auto& one : entries) rows.push_back(json_of(one, *desk));
    context.out << render::dumped({{"entries", rows}, {"more", more}});
    return kDone;
  }
  const auto width = static_cast<std::size_t>(context.width);
  for (const auto& one : entries) {
    context.out << render::wrapped(
                       fmt::format("{:>4}  {}  {}  {}", one.entry.id,
                                   measure::moment_words(one.entry.recorded_at, desk->now(),
                                                         desk->site().zone),
                                   one.entry.who, one.entry.line),
                       width, 8)
                << '\n';
    for (const std::string& photo : one.photos) {
      context.out << render::wrapped("        photo " + photo, width, 10) << '\n';
    }
    for (const auto& change : one.changes) {
      context.out << render::wrapped("        " + change_text(*desk, change), width, 10) << '\n';
    }
    if (one.undone_by) context.out << "        taken back by entry " << *one.undone_by << '\n';
  }
  const bool is_filtered = asked->batch || asked->who || asked->from;
  if (entries.empty()) {
    context.out << (is_filtered ? "nothing of that is recorded\n" : "nothing is recorded yet\n");
  }
  if (more) context.out << "      earlier entries: --all\n";
  return kDone;
}

}  // namespace cli
