#include "book/merge.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "book/backup.h"
#include "book/error.h"
#include "book/merge_copy.h"
#include "book/package_text.h"
#include "book/query.h"
#include "book/schema.h"
#include "book/takeover.h"
#include "measure/text.h"

namespace book {
namespace {

using Tables = std::vector<TableInfo>;

const TableInfo& table_named(const Tables& tables, std::string_view name) {
  return *std::find_if(tables.begin(), tables.end(),
                       [&](const TableInfo& table) { return table.name == name; });
}

std::string text_at(const TableInfo& table, const Row& row, std::string_view column) {
  const auto* text = std::get_if<std::string>(&row[table.at(column)]);
  return text == nullptr ? std::string() : *text;
}

// One uid more than another, for what the merge itself has to set right: the same in either order.
std::string uid_after(const std::string& uid, const std::string& of) {
  std::int64_t time{};
  std::from_chars(uid.data(), uid.data() + std::min<std::size_t>(12, uid.size()), time, 16);
  return fmt::format("{:012x}{}", time + 1, of.substr(0, 20));
}

// The two copies as one.
class Union {
 public:
  Union(const Tables& tables, const Copy& a, const Copy& b) : tables_(tables), copies_{&a, &b} {
    join_entries();
    join_journals();
    join_stories();
    keep_what_is_needed();
    settle_codes();
    link_what_was_outdone();
    put_links_first();
    find_when_series_were_born();
  }

  std::map<std::string, EntryRow> entries;
  std::map<std::string, std::vector<JournalRow>> journal;
  std::map<std::string, std::map<std::string, Story>> stories;
  std::vector<Conflict> conflicts;

  // What stands: of what the entries that hold made of a row, the newest. None: it was taken away.
  const Row* standing(const std::string& table, const std::string& name) const {
    return standing_of(stories.at(table).at(name));
  }

  // When the row was first made, as the uid of the entry: a series with its first reading.
  std::string born(const std::string& table, const std::string& name) const {
    if (table == "series") {
      const auto first = series_born_.find(name);
      return first == series_born_.end() ? std::string() : first->second;
    }
    const Story& story = stories.at(table).at(name);
    const TableInfo& info = table_named(tables_, table);
    if (has_story(info) || !info.has("entry") || !story.current) return born(story);
    return entry_of(info, *story.current);
  }

  // Its number in a copy that knows the entry it was born with: of rows of one entry all such
  // copies have the same order. 0: it has none.
  std::int64_t number(const std::string& table, const std::string& name) const {
    const std::string uid = born(table, name);
    for (const Copy* copy : copies_) {
      const auto by_name = copy->stories.find(table);
      if (by_name == copy->stories.end() || !copy->entries.contains(uid)) continue;
      const auto story = by_name->second.find(name);
      if (story != by_name->second.end() && story->second.number != 0) return story->second.number;
    }
    return 0;
  }

 private:
  static std::string born(const Story& story) {
    return story.made.empty() ? std::string() : story.made.begin()->first;
  }

  bool holds(const std::string& uid) const {
    const auto entry = entries.find(uid);
    return entry == entries.end() || entry->second.holds();
  }

  std::optional<std::string> newest(const Story& story) const {
    std::optional<std::string> uid;
    for (const auto& [entry, row] : story.made) {
      if (holds(entry)) uid = entry;
    }
    for (const std::string& entry : story.removed) {
      if (holds(entry) && (!uid || entry > *uid)) uid = entry;
    }
    return uid;
  }

  const Row* standing_of(const Story& story) const {
    if (story.made.empty()) return story.current ? &*story.current : nullptr;  // a series
    const auto uid = newest(story);
    if (!uid) return nullptr;
    const auto made = story.made.find(*uid);
    return made == story.made.end() ? nullptr : &made->second;
  }

  void join_entries() {
    for (const Copy* copy : copies_) {
      for (const auto& [uid, entry] : copy->entries) {
        auto [known, is_new] = entries.emplace(uid, entry);
        auto& undone = known->second.undone_by;
        if (entry.undone_by && (!undone || *entry.undone_by < *undone)) undone = entry.undone_by;
      }
    }
  }

  static std::string text_of_journal(const JournalRow& row) {
    return row.table + text_of(row.before) + (row.after ? text_of(*row.after) : "gone");
  }

  static void sort(std::vector<JournalRow>& rows) {
    std::sort(rows.begin(), rows.end(), [](const JournalRow& x, const JournalRow& y) {
      return text_of_journal(x) < text_of_journal(y);
    });
  }

  // Where both copies know an entry, a row that one alone has of it is a link of an earlier merge.
  void join_journals() {
    journal = copies_[0]->journal;
    for (const auto& [uid, rows] : copies_[1]->journal) {
      auto& ours = journal[uid];
      if (!copies_[0]->entries.contains(uid)) {
        ours = rows;
        continue;
      }
      std::set<std::string> texts, their_texts;
      for (const JournalRow& row : ours) texts.insert(text_of_journal(row));
      for (const JournalRow& row : rows) {
        their_texts.insert(text_of_journal(row));
        if (!texts.contains(text_of_journal(row))) links_[uid].push_back(row);
      }
      std::vector<JournalRow> common;
      for (const JournalRow& row : ours) {
        (their_texts.contains(text_of_journal(row)) ? common : links_[uid]).push_back(row);
      }
      ours = std::move(common);
    }
    // What the first copy alone has of an entry that both know.
    for (auto& [uid, rows] : journal) {
      if (!copies_[1]->entries.contains(uid) || copies_[1]->journal.contains(uid) ||
          !copies_[0]->entries.contains(uid)) {
        continue;
      }
      links_[uid] = std::move(rows);
      rows.clear();
    }
  }

  void join_stories() {
    for (const Copy* copy : copies_) {
      for (const auto& [table, by_name] : copy->stories) {
        for (const auto& [name, story] : by_name) {
          Story& joined = stories[table][name];
          for (const auto& [uid, row] : story.made) {
            const auto [at, is_new] = joined.made.emplace(uid, row);
            if (!is_new && text_of(at->second) < text_of(row)) at->second = row;
          }
          joined.removed.insert(story.removed.begin(), story.removed.end());
          joined.befores.insert(story.befores.begin(), story.befores.end());
          if (story.current &&
              (!joined.current || goes_before(table, *story.current, *joined.current))) {
            joined.current = story.current;
          }
        }
      }
    }
    for (const TableInfo& table : tables_) stories.try_emplace(table.name);
    for (const TableInfo& table : tables_) {
      if (!has_story(table)) continue;
      for (const auto& [name, story] : stories[table.name]) note_conflict(table, name);
    }
  }

  // Which of two rows without a story stands: how far a file was read by the newer import, the span
  // of an import that was taken back; else one that both orders agree on.
  bool goes_before(const std::string& table, const Row& row, const Row& other) const {
    const TableInfo& info = table_named(tables_, table);
    if (info.has("entry") && entry_of(info, row) != entry_of(info, other)) {
      return entry_of(info, row) > entry_of(info, other);
    }
    return text_of(row) < text_of(other);
  }

  // Both copies went on from what the other does not know.
  void note_conflict(const TableInfo& table, const std::string& name) {
    std::array<const Story*, 2> story{};
    for (std::size_t i = 0; i < 2; ++i) {
      const auto by_name = copies_[i]->stories.find(table.name);
      if (by_name == copies_[i]->stories.end()) return;
      const auto one = by_name->second.find(name);
      if (one == by_name->second.end()) return;
      story[i] = &one->second;
    }
    const auto first = newest(*story[0]);
    const auto second = newest(*story[1]);
    const auto knows = [](const Story& one, const std::string& uid) {
      return one.made.contains(uid) || one.removed.contains(uid);
    };
    if (!first || !second || knows(*story[1], *first) || knows(*story[0], *second)) return;
    const Row* kept = standing_of(*first < *second ? *story[1] : *story[0]);
    const Row* other = standing_of(*first < *second ? *story[0] : *story[1]);
    Conflict conflict;
    if (!tell_apart(table, kept, other, conflict)) return;
    conflict.what = subject(table, name, kept, other);
    conflict.by = who(std::max(*first, *second));
    if (table.name == "reading" && kept != nullptr && other != nullptr) {
      tell_values(table, *kept, *other, conflict);
    }
    conflicts.push_back(std::move(conflict));
  }

  void tell_values(const TableInfo& table, const Row& kept, const Row& other,
                   Conflict& conflict) const {
    const auto parts = measure::split(text_at(table, kept, "series"), '\x1f');
    const auto batch = stories.at("batch").find(parts[0]);
    if (kept[table.at("value")] == other[table.at("value")] || parts.size() != 3 ||
        batch == stories.at("batch").end() || batch->second.made.empty()) {
      return;
    }
    conflict.kind =
        text_at(table_named(tables_, "batch"), batch->second.made.rbegin()->second, "kind");
    conflict.quantity = parts[1];
    conflict.kept_value = std::get<double>(kept[table.at("value")]);
    conflict.other_value = std::get<double>(other[table.at("value")]);
  }

  std::string who(const std::string& uid) const {
    const TableInfo& entry = table_named(tables_, "entry");
    return text_at(entry, entries.at(uid).row, "who");
  }

  std::string code_of(const std::string& batch) const {
    const auto story = stories.at("batch").find(batch);
    if (story == stories.at("batch").end() || story->second.made.empty()) return batch;
    return text_at(table_named(tables_, "batch"), story->second.made.rbegin()->second, "code");
  }

  std::string subject(const TableInfo& table, const std::string& name, const Row* kept,
                      const Row* other) const {
    const Row& row = kept != nullptr ? *kept : *other;
    if (table.name == "batch") return "batch " + text_at(table, row, "code");
    if (table.name == "reading") {
      const auto parts = measure::split(text_at(table, row, "series"), '\x1f');
      if (parts.size() == 3) {
        return fmt::format("{} {}{}{}", code_of(parts[0]), parts[1], parts[2].empty() ? "" : " ",
                           parts[2]);
      }
    }
    if (table.has("batch")) {
      const std::string batch = text_at(table, row, "batch");
      const std::string key = table.has("key") ? " " + text_at(table, row, "key") : "";
      return table.name + key + (batch.empty() ? "" : ", " + code_of(batch));
    }
    return table.name +
           (table.has("uid") && table.name != "place" ? "" : " " + measure::inert(name));
  }

  // What two versions of a row say differently; false: nothing that matters.
  static bool tell_apart(const TableInfo& table, const Row* kept, const Row* other,
                         Conflict& conflict) {
    if (kept == nullptr && other == nullptr) return false;
    if (kept == nullptr || other == nullptr) {
      conflict.kept = kept == nullptr ? "that it is taken away" : "what was corrected";
      conflict.other = kept == nullptr ? "it corrected" : "it taken away";
      return true;
    }
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const ColumnInfo& column = table.columns[i];
      const bool tells = column.name != "entry" && column.name != "id" && column.name != "uid" &&
                         column.refers.empty() && !column.is_day();
      if (!tells || (*kept)[i] == (*other)[i]) continue;
      const std::string lead = (conflict.kept.empty() ? "" : ", ") + column.name + " ";
      conflict.kept += lead + csv_cell(column, (*kept)[i]);
      conflict.other += lead + csv_cell(column, (*other)[i]);
    }
    if (!conflict.kept.empty()) return true;
    conflict.kept = "one batch or place";
    conflict.other = "another";
    return differs_in_reference(table, *kept, *other);
  }

  static bool differs_in_reference(const TableInfo& table, const Row& kept, const Row& other) {
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const std::string& refers = table.columns[i].refers;
      if (!refers.empty() && refers != "entry" && kept[i] != other[i]) return true;
    }
    return false;
  }

  // What was taken back in one copy, while the other went on with it, stays: nothing is lost.
  void keep_what_is_needed() {
    for (bool again = true; again;) {
      again = false;
      for (const TableInfo& table : tables_) {
        for (const auto& [name, story] : stories[table.name]) {
          const Row* row = has_story(table) ? standing_of(story) : nullptr;
          if (row == nullptr) continue;
          for (const auto& [kind, needed] : needs(table, *row)) again |= revive(kind, needed);
        }
      }
    }
  }

  std::vector<std::pair<std::string, std::string>> needs(const TableInfo& table,
                                                         const Row& row) const {
    std::vector<std::pair<std::string, std::string>> found;
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string& refers = table.columns[i].refers;
      const auto* name = std::get_if<std::string>(&row[i]);
      if (name == nullptr || refers.empty() || refers == "entry") continue;
      if (refers == "series") {
        found.emplace_back("batch", name->substr(0, name->find('\x1f')));
      } else {
        found.emplace_back(refers, *name);
      }
    }
    return found;
  }

  bool revive(const std::string& table, const std::string& name) {
    const auto story = stories[table].find(name);
    if (story == stories[table].end() || standing_of(story->second) != nullptr ||
        story->second.made.empty()) {
      return false;
    }
    EntryRow& entry = entries.at(story->second.made.rbegin()->first);
    if (entry.holds()) return false;
    entry.undone_by.reset();
    const bool stood = std::any_of(copies_.begin(), copies_.end(), [&](const Copy* copy) {
      const auto known = copy->entries.find(story->second.made.rbegin()->first);
      return known != copy->entries.end() && known->second.undone_by;
    });
    if (stood) {
      conflicts.push_back({table + " " + (table == "batch" ? code_of(name) : name),
                           "it, since it is used", "it taken back", "", "", "", 0, 0});
    }
    return true;
  }

  // A code that both copies gave to a batch of their own: the later one goes by another.
  void settle_codes() {
    const TableInfo& batch = table_named(tables_, "batch");
    std::vector<std::pair<std::string, std::string>> order;  // born, name
    std::set<std::string> codes;
    for (const auto& [name, story] : stories["batch"]) {
      const Row* row = standing_of(story);
      if (row == nullptr) continue;
      order.emplace_back(born(story), name);
      codes.insert(text_at(batch, *row, "code"));
    }
    std::sort(order.begin(), order.end());
    std::set<std::pair<std::string, std::int64_t>> runs;
    std::set<std::string> open;
    for (const auto& [when, name] : order) {
      const Row row = *standing_of(stories["batch"].at(name));
      std::string code = text_at(batch, row, "code");
      std::int64_t run = std::get<std::int64_t>(row[batch.at("run")]);
      const bool is_open = std::holds_alternative<std::monostate>(row[batch.at("ended_at")]);
      const std::string was = code;
      if (is_open && open.contains(code)) {
        for (char letter = 'b'; codes.contains(code); ++letter) {
          code = was + "-" + std::string(1, letter);
        }
        run = 1;
      }
      while (runs.contains({code, run})) ++run;
      runs.emplace(code, run);
      codes.insert(code);
      if (is_open) open.insert(code);
      if (code != was || run != std::get<std::int64_t>(row[batch.at("run")])) {
        rename(name, row, code, run);
      }
    }
  }

  void rename(const std::string& name, const Row& row, const std::string& code, std::int64_t run) {
    const TableInfo& batch = table_named(tables_, "batch");
    const TableInfo& entry = table_named(tables_, "entry");
    Story& story = stories["batch"].at(name);
    const std::string newest_uid = *newest(story);
    const std::string uid = uid_after(newest_uid, name);
    const std::string was = text_at(batch, row, "code");
    Row is = row;
    is[batch.at("code")] = code;
    is[batch.at("run")] = run;
    is[batch.at("entry")] = uid;
    EntryRow made = entries.at(newest_uid);
    made.command = "merge";
    made.undone_by.reset();
    made.row[entry.at("id")] = uid;
    made.row[entry.at("uid")] = uid;
    made.row[entry.at("command")] = std::string("merge");
    made.row[entry.at("undone_by")] = Cell{};
    made.row[entry.at("line")] =
        fmt::format("merge: both copies began a {}; the later is {}/{}", was, code, run);
    entries.emplace(uid, made);
    journal[uid].push_back({"batch", row, is});
    story.befores.insert(text_of(row));
    story.made.emplace(uid, is);
    conflicts.push_back({"batch " + was, fmt::format("the later of two, as {}/{},", code, run),
                         "one of its own under that code", "", "", "", 0, 0});
  }

  // What stood in a copy and stands no more, and is in no journal yet, is put there.
  void link_what_was_outdone() {
    for (const TableInfo& table : tables_) {
      if (!has_story(table)) continue;
      for (auto& [name, story] : stories[table.name]) {
        for (const Copy* copy : copies_) {
          const auto by_name = copy->stories.find(table.name);
          if (by_name == copy->stories.end()) continue;
          const auto one = by_name->second.find(name);
          if (one == by_name->second.end() || !one->second.current) continue;
          link(table, story, *one->second.current);
        }
      }
    }
  }

  void link(const TableInfo& table, Story& story, const Row& stood) {
    const Row* stands = standing_of(story);
    if (stands != nullptr && text_of(*stands) == text_of(stood)) return;
    // An import that was taken back keeps its readings in a table of its own.
    const EntryRow& made_by = entries.at(entry_of(table, stood));
    if (table.name == "reading" && made_by.command == "import" && !made_by.holds()) return;
    if (!story.befores.insert(text_of(stood)).second) return;
    std::string by = entry_of(table, stands != nullptr ? *stands : stood);
    if (stands == nullptr) {
      const auto latest = newest(story);
      const auto& undone = entries.at(by).undone_by;
      by = latest ? *latest : undone.value_or(by);
    }
    JournalRow row{table.name, stood, std::nullopt};
    if (stands != nullptr) row.after = *stands;
    links_[by].push_back(std::move(row));
  }

  // Before what the entry itself did: taking the entry back brings out last what the link has.
  void put_links_first() {
    for (auto& [uid, links] : links_) {
      sort(links);
      auto& rows = journal[uid];
      rows.insert(rows.begin(), links.begin(), links.end());
    }
  }

  void find_when_series_were_born() {
    const TableInfo& reading = table_named(tables_, "reading");
    for (const auto& [name, story] : stories["reading"]) {
      for (const auto& [uid, row] : story.made) {
        auto& first = series_born_.emplace(text_at(reading, row, "series"), uid).first->second;
        first = std::min(first, uid);
      }
    }
  }

  const Tables& tables_;
  std::array<const Copy*, 2> copies_;
  std::map<std::string, std::vector<JournalRow>> links_;  // by the entry's uid
  std::map<std::string, std::string> series_born_;
};

// Writes the union into an empty logbook, with numbers given in an order that both copies agree on.
class Scribe {
 public:
  Scribe(const Tables& tables, const Union& whole, SQLite::Database& into)
      : tables_(tables), whole_(whole), into_(into) {}

  void write(const Row& site) {
    insert_row(into_, table_named(tables_, "site"), site);
    for (const auto& [uid, entry] : whole_.entries) number("entry", uid);
    for (const TableInfo& table : tables_) give_numbers(table);
    write_entries();
    for (const TableInfo& table : tables_) write_rows(table);
    write_journal();
  }

 private:
  std::int64_t number(const std::string& table, const std::string& name) {
    if (name.starts_with(kGone)) {  // only the journal of what was taken back speaks of it
      std::int64_t gone{};
      std::from_chars(name.data() + 1, name.data() + name.size(), gone);
      return gone;
    }
    auto& numbers = numbers_[table];
    return numbers.emplace(name, static_cast<std::int64_t>(numbers.size()) + 1).first->second;
  }

  bool is_kept(const TableInfo& table, const std::string& name) const {
    const Row* row = whole_.standing(table.name, name);
    if (row == nullptr) return false;
    // What is taken back is read from its start the next time.
    if (table.name == "import_file") return whole_.entries.at(entry_of(table, *row)).holds();
    return table.name != "series" || is_kept_batch(text_at(table, *row, "batch"));
  }

  bool is_kept_batch(const std::string& name) const {
    const auto& batches = whole_.stories.at("batch");
    return batches.contains(name) && whole_.standing("batch", name) != nullptr;
  }

  // A span names its series while the readings stand there.
  Row settled(const TableInfo& table, Row row) const {
    if (table.name != "import_span") return row;
    const bool stands = whole_.entries.at(entry_of(table, row)).holds() &&
                        is_kept_batch(text_at(table, row, "batch_uid"));
    if (!stands) row[table.at("series")] = Cell{};
    return row;
  }

  std::vector<std::string> in_order(const TableInfo& table) const {
    std::vector<std::tuple<std::string, std::int64_t, std::string>> order;
    for (const auto& [name, story] : whole_.stories.at(table.name)) {
      if (is_kept(table, name)) {
        order.emplace_back(whole_.born(table.name, name), whole_.number(table.name, name), name);
      }
    }
    std::sort(order.begin(), order.end());
    std::vector<std::string> names;
    for (auto& [when, number, name] : order) names.push_back(name);
    return names;
  }

  void give_numbers(const TableInfo& table) {
    if (!table.has("id") || !whole_.stories.contains(table.name) || table.name == "entry") return;
    for (const std::string& name : in_order(table)) number(table.name, name);
  }

  Row numbered(const TableInfo& table, Row row) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      const ColumnInfo& column = table.columns[i];
      const auto* name = std::get_if<std::string>(&row[i]);
      if (name == nullptr) continue;
      if (column.name == "id") {
        row[i] = number(table.name, *name);
      } else if (!column.refers.empty()) {
        row[i] = number(column.refers, *name);
      }
    }
    return row;
  }

  void write_entries() {
    const TableInfo& table = table_named(tables_, "entry");
    for (const auto& [uid, entry] : whole_.entries) {
      Row row = entry.row;
      row[table.at("undone_by")] = entry.undone_by ? Cell{*entry.undone_by} : Cell{};
      insert_row(into_, table, numbered(table, row));
    }
  }

  void write_rows(const TableInfo& table) {
    if (table.name == "entry" || table.name == "journal" || table.name == "site") return;
    for (const std::string& name : in_order(table)) {
      insert_row(into_, table, numbered(table, settled(table, *whole_.standing(table.name, name))));
    }
  }

  std::string real_text(double number) {
    SQLite::Statement quote(into_, "SELECT quote(?)");
    quote.bind(1, number);
    quote.executeStep();
    return quote.getColumn(0).getString();
  }

  // As the triggers write it.
  std::string json_of(const TableInfo& table, const Row& named) {
    const Row row = numbered(table, named);
    std::string json = "{";
    for (std::size_t i = 0; i < row.size(); ++i) {
      json += (i == 0 ? "" : ",") + json_text(table.columns[i].name) + ":";
      if (const auto* whole = std::get_if<std::int64_t>(&row[i])) {
        json += fmt::format("{}", *whole);
      } else if (const auto* real = std::get_if<double>(&row[i])) {
        json += real_text(*real);
      } else if (const auto* text = std::get_if<std::string>(&row[i])) {
        json += json_text(*text);
      } else {
        json += "null";
      }
    }
    return json + "}";
  }

  void write_journal() {
    SQLite::Statement insert(into_,
                             "INSERT INTO journal (entry, table_name, before, after)"
                             " VALUES (?, ?, ?, ?)");
    for (const auto& [uid, rows] : whole_.journal) {
      for (const JournalRow& row : rows) {
        const TableInfo& table = table_named(tables_, row.table);
        insert.reset();
        insert.bind(1, number("entry", uid));
        insert.bind(2, row.table);
        insert.bind(3, json_of(table, row.before));
        if (row.after) {
          insert.bind(4, json_of(table, *row.after));
        } else {
          insert.bind(4);
        }
        insert.exec();
      }
    }
  }

  const Tables& tables_;
  const Union& whole_;
  SQLite::Database& into_;
  std::map<std::string, std::map<std::string, std::int64_t>> numbers_;
};

// Whether two copies say the same, whatever numbers they give their rows.
bool say_the_same(const Copy& a, const Copy& b) {
  const auto entries = [](const Copy& copy) {
    std::string text;
    for (const auto& [uid, entry] : copy.entries) text += uid + text_of(entry.row);
    return text;
  };
  const auto journal = [](const Copy& copy) {
    std::multiset<std::string> rows;
    for (const auto& [uid, list] : copy.journal) {
      for (const JournalRow& row : list) {
        rows.insert(uid + row.table + text_of(row.before) + (row.after ? text_of(*row.after) : ""));
      }
    }
    return rows;
  };
  const auto rows = [](const Copy& copy) {
    std::map<std::string, std::string> standing;
    for (const auto& [table, stories] : copy.stories) {
      for (const auto& [name, story] : stories) {
        if (story.current) standing[table + name] = text_of(*story.current);
      }
    }
    return standing;
  };
  return entries(a) == entries(b) && journal(a) == journal(b) && rows(a) == rows(b);
}

[[noreturn]] void refuse(const std::filesystem::path& path, std::string_view why) {
  throw BookError(fmt::format("{}: {}", path.string(), why));
}

}  // namespace

Merged merge(Logbook& logbook, const std::filesystem::path& other, measure::Instant now) {
  std::error_code none;
  if (std::filesystem::equivalent(logbook.path(), other, none)) {
    refuse(other, "that is the logbook itself; nothing was changed");
  }
  const Logbook theirs(other, Access::kRead);
  SQLite::Database& their_file = theirs.connection().database;
  Merged merged;
  try {
    const auto wrong = integrity(their_file);
    if (!wrong.empty()) refuse(other, "the file is damaged (" + wrong.front() + ")");
    SQLite::Database successor = fresh_schema();
    successor.exec(fmt::format("PRAGMA application_id = {}", kApplicationId));
    Takeover takeover(logbook, successor);
    const Logbook ours(logbook.path(), Access::kRead);
    SQLite::Database& our_file = ours.connection().database;
    const Tables tables = merged_tables(successor);
    const Copy a = read_copy(our_file, tables);
    const Copy b = read_copy(their_file, tables);
    if (a.site != b.site) {
      refuse(other, fmt::format("this is no copy of the same logbook, but one of {}; nothing was "
                                "changed",
                                measure::quoted(theirs.site().name)));
    }
    Union whole(tables, a, b);
    {
      SQLite::Transaction transaction(successor);
      successor.exec("PRAGMA defer_foreign_keys = ON");
      Scribe(tables, whole, successor).write(a.site);
      transaction.commit();
    }
    rebuild_rolls(successor, logbook.site().zone);
    const auto impossible = integrity(successor);
    if (!impossible.empty()) {
      refuse(other,
             "the two could not be joined (" + impossible.front() + "); nothing was changed");
    }
    merged.entries = static_cast<int>(whole.entries.size());
    merged.from_other = merged.entries - static_cast<int>(a.entries.size());
    merged.conflicts = whole.conflicts;
    merged.changed = !say_the_same(a, read_copy(successor, tables));
    if (!merged.changed) return merged;
    const std::string stem =
        logbook.path().stem().string() + "-before-merge-" + stamp(now, logbook.site().zone);
    merged.kept = backup_folder(logbook.path()) / (stem + ".db");
    for (int n = 2; std::filesystem::exists(merged.kept); ++n) {
      merged.kept = backup_folder(logbook.path()) / fmt::format("{}-{}.db", stem, n);
    }
    back_up(ours, merged.kept);
    takeover.finish();
  } catch (const SQLite::Exception& error) {
    fail(other, error);
  }
  return merged;
}

}  // namespace book
