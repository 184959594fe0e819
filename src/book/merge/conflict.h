#pragma once

#include <optional>
#include <string>

#include "book/merge/union.h"

// Inside this layer: what is said of two versions of a row, fit for a terminal.
namespace book {

// What the row that stands and the one that was outdone say differently (null: taken away; not both
// are). None: nothing that matters. Who wrote it is left open.
std::optional<Conflict> conflict_of(const Union& whole, const TableInfo& table,
                                    const std::string& name, const Row* kept, const Row* other);

// Who wrote an entry, by its uid.
std::string who(const Union& whole, const std::string& uid);

// The code that a batch has, by its name in the merge.
std::string code_of(const Union& whole, const std::string& batch);

}  // namespace book
