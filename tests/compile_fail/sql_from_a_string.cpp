#include "book/read/query.h"

// SQL comes from literals alone, so that nothing that was typed can become part of it.
void right(const book::Logbook& logbook, const std::string& name) {
  book::Query(logbook, "SELECT id FROM place WHERE name = ?", name).run();
}
#ifdef WRONG
void wrong(const book::Logbook& logbook, const std::string& name) {
  const std::string text = "SELECT id FROM place WHERE name = '" + name + "'";
  book::Query(logbook, book::Sql(text.c_str())).run();  // ERROR: constant expression
}
#endif
