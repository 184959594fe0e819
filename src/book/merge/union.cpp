#include "book/merge/union.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <set>

#include "book/merge/conflict.h"
#include "measure/text.h"

namespace book {
namespace {

// One uid more than another, for what the merge itself has to set right: the same in either order.
std::string uid_after(const std::string& uid, const std::string& of) {
  std::int64_t time{};
  std::from_chars(uid.data(), uid.data() + std::min<std::size_t>(12, uid.size()), time, 16);
  return fmt::format("{:012x}{}", time + 1, of.substr(0, 20));
}

std::string first_entry(const Story& story) {
  return story.made.empty() ? std::string() : story.made.begin()->first;
}

std::string text_of_journal(const JournalRow& row) {
  return row.table + text_of(row.before) + (row.after ? text_of(*row.after) : "gone");
}

void sort(std::vector<JournalRow>& rows) {
  std::sort(rows.begin(), rows.end(), [](const JournalRow& x, const JournalRow& y) {
    return text_of_journal(x) < text_of_journal(y);
  });
}

// The rows that a row speaks of: table and name.
std::vector<std::pair<std::string, std::string>> needs(const TableInfo& table, const Row& row) {
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

// 0 is a, 25 z, 26 aa.
std::string letters_of(int n) {
  const std::string last(1, static_cast<char>('a' + n % 26));
  return n < 26 ? last : letters_of(n / 26 - 1) + last;
}

}  // namespace

Union::Union(const std::vector<TableInfo>& tables, const Copy& a, const Copy& b)
    : tables_(tables), copies_{&a, &b} {
  join_entries();
  join_journals();
  join_stories();
  keep_what_is_needed();
  settle_codes();
  link_what_was_outdone();
  put_links_first();
  find_when_series_were_born();
}

const Row* Union::standing(const std::string& table, const std::string& name) const {
  return standing_of(stories.at(table).at(name));
}

std::string Union::born(const std::string& table, const std::string& name) const {
  if (table == "series") {
    const auto first = series_born_.find(name);
    return first == series_born_.end() ? std::string() : first->second;
  }
  const Story& story = stories.at(table).at(name);
  const TableInfo& info = table_named(tables_, table);
  if (has_story(info) || !info.has("entry") || !story.current) return first_entry(story);
  return entry_of(info, *story.current);
}

std::int64_t Union::number(const std::string& table, const std::string& name) const {
  const std::string uid = born(table, name);
  for (const Copy* copy : copies_) {
    const auto by_name = copy->stories.find(table);
    if (by_name == copy->stories.end() || !copy->entries.contains(uid)) continue;
    const auto story = by_name->second.find(name);
    if (story != by_name->second.end() && story->second.number != 0) return story->second.number;
  }
  return 0;
}

bool Union::holds(const std::string& uid) const {
  const auto entry = entries.find(uid);
  return entry == entries.end() || entry->second.holds();
}

std::optional<std::string> Union::newest(const Story& story) const {
  std::optional<std::string> uid;
  for (const auto& [entry, row] : story.made) {
    if (holds(entry)) uid = entry;
  }
  for (const std::string& entry : story.removed) {
    if (holds(entry) && (!uid || entry > *uid)) uid = entry;
  }
  return uid;
}

const Row* Union::standing_of(const Story& story) const {
  if (story.made.empty()) return story.current ? &*story.current : nullptr;  // a series
  const auto uid = newest(story);
  if (!uid) return nullptr;
  const auto made = story.made.find(*uid);
  return made == story.made.end() ? nullptr : &made->second;
}

void Union::join_entries() {
  for (const Copy* copy : copies_) {
    for (const auto& [uid, entry] : copy->entries) {
      auto [known, is_new] = entries.emplace(uid, entry);
      auto& undone = known->second.undone_by;
      if (entry.undone_by && (!undone || *entry.undone_by < *undone)) undone = entry.undone_by;
    }
  }
}

// Where both copies know an entry, a row that one alone has of it is a link of an earlier merge.
void Union::join_journals() {
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

void Union::join_stories() {
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
bool Union::goes_before(const std::string& table, const Row& row, const Row& other) const {
  const TableInfo& info = table_named(tables_, table);
  if (info.has("entry") && entry_of(info, row) != entry_of(info, other)) {
    return entry_of(info, row) > entry_of(info, other);
  }
  return text_of(row) < text_of(other);
}

// Both copies went on from what the other does not know.
void Union::note_conflict(const TableInfo& table, const std::string& name) {
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
  auto conflict = conflict_of(*this, table, name, kept, other);
  if (!conflict) return;
  conflict->by = who(*this, std::max(*first, *second));
  conflicts.push_back(std::move(*conflict));
}

// What was taken back in one copy, while the other went on with it, stays: nothing is lost.
void Union::keep_what_is_needed() {
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

bool Union::revive(const std::string& table, const std::string& name) {
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
    conflicts.push_back({table + " " + (table == "batch" ? code_of(*this, name) : name),
                         "it, since it is used", "it taken back", "", "", "", 0, 0});
  }
  return true;
}

// A code that both copies gave to a batch of their own: the later one goes by another.
void Union::settle_codes() {
  const TableInfo& batch = table("batch");
  std::vector<std::pair<std::string, std::string>> order;  // born, name
  std::set<std::string> codes;
  for (const auto& [name, story] : stories["batch"]) {
    const Row* row = standing_of(story);
    if (row == nullptr) continue;
    order.emplace_back(first_entry(story), name);
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
      for (int n = 1; codes.contains(code); ++n) code = was + "-" + letters_of(n);
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

void Union::rename(const std::string& name, const Row& row, const std::string& code,
                   std::int64_t run) {
  const TableInfo& batch = table("batch");
  const TableInfo& entry = table("entry");
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
  conflicts.push_back({"batch " + measure::inert(was),
                       fmt::format("the later of two, as {}/{},", measure::inert(code), run),
                       "one of its own under that code", "", "", "", 0, 0});
}

// What stood in a copy and stands no more, and is in no journal yet, is put there.
void Union::link_what_was_outdone() {
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

void Union::link(const TableInfo& table, Story& story, const Row& stood) {
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
void Union::put_links_first() {
  for (auto& [uid, links] : links_) {
    sort(links);
    auto& rows = journal[uid];
    rows.insert(rows.begin(), links.begin(), links.end());
  }
}

void Union::find_when_series_were_born() {
  const TableInfo& reading = table("reading");
  for (const auto& [name, story] : stories["reading"]) {
    for (const auto& [uid, row] : story.made) {
      auto& first = series_born_.emplace(text_at(reading, row, "series"), uid).first->second;
      first = std::min(first, uid);
    }
  }
}

}  // namespace book
