#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <string_view>

// Inside this layer: the journal, which keeps each row as it was before an entry changed it or took
// it back, as JSON, for undo, merge and history. Its rows are written by triggers that live in the
// connection (TEMP), not in the file: who reads, or only adds, need not read them.
namespace book {

// The table whose rows a statement of ours changes or takes away; empty where it only reads or
// adds.
std::string_view changed_table(std::string_view sql);

// Makes that table's triggers, where it is journalled and the connection has none. To be called
// before each such statement runs: a transaction rolled back takes the triggers with it that it
// made.
void keep_journal(SQLite::Database& database, std::string_view table);

}  // namespace book
