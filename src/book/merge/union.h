#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "book/merge/copy.h"
#include "book/merge/merge.h"

// Inside this layer: the two copies of a merge as one, before it is written.
namespace book {

class Union {
 public:
  // All three must outlive it.
  Union(const std::vector<TableInfo>& tables, const Copy& a, const Copy& b);

  std::map<std::string, EntryRow> entries;
  std::map<std::string, std::vector<JournalRow>> journal;
  std::map<std::string, std::map<std::string, Story>> stories;
  std::vector<Conflict> conflicts;

  const TableInfo& table(std::string_view name) const { return table_named(tables_, name); }

  // What stands: of what the entries that hold made of a row, the newest. None: it was taken away.
  const Row* standing(const std::string& table, const std::string& name) const;

  // When the row was first made, as the uid of the entry: a series with its first reading.
  std::string born(const std::string& table, const std::string& name) const;

  // Its number in a copy that knows the entry it was born with: of rows of one entry all such
  // copies have the same order. 0: it has none.
  std::int64_t number(const std::string& table, const std::string& name) const;

 private:
  bool holds(const std::string& uid) const;
  std::optional<std::string> newest(const Story& story) const;
  const Row* standing_of(const Story& story) const;

  void join_entries();
  void join_journals();
  void join_stories();
  bool goes_before(const std::string& table, const Row& row, const Row& other) const;
  void note_conflict(const TableInfo& table, const std::string& name);
  void keep_what_is_needed();
  bool revive(const std::string& table, const std::string& name);
  void settle_codes();
  void rename(const std::string& name, const Row& row, const std::string& code, std::int64_t run);
  void link_what_was_outdone();
  void link(const TableInfo& table, Story& story, const Row& stood);
  void put_links_first();
  void find_when_series_were_born();

  const std::vector<TableInfo>& tables_;
  std::array<const Copy*, 2> copies_;
  std::map<std::string, std::vector<JournalRow>> links_;  // by the entry's uid
  std::map<std::string, std::string> series_born_;
};

}  // namespace book
