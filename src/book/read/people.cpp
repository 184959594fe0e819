#include "book/read/people.h"

#include "book/read/query.h"

namespace book {

std::vector<std::string> people(const Logbook& logbook) {
  std::vector<std::string> names;
  Query row(logbook, "SELECT DISTINCT who FROM entry ORDER BY who");
  while (row.next()) names.push_back(row.text(0));
  return names;
}

}  // namespace book
