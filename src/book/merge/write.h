#pragma once

#include "book/merge/union.h"

namespace book {

// Inside this layer: writes the union into an empty logbook, with numbers given in an order that
// both copies agree on.
void write_union(const Union& whole, const std::vector<TableInfo>& tables, const Row& site,
                 SQLite::Database& into);

}  // namespace book
