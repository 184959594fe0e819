#include "cli/desk/hands.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/read/people.h"
#include "cli/desk/desk.h"
#include "measure/text.h"

namespace cli {
namespace {

constexpr std::size_t kLongestName = 40;

bool can_be_name(const std::string& name) {
  const auto shows = [](unsigned char c) { return c != ' '; };
  return name.size() <= kLongestName && measure::is_clean_text(name) && !name.empty() &&
         std::any_of(name.begin(), name.end(), shows) && name[0] != '-';
}

}  // namespace

measure::Result<std::string> who_is(const std::string& name, const book::Logbook& logbook,
                                    bool is_new) {
  if (!can_be_name(name)) {
    return measure::Mistake{name, fmt::format("a name has 1 to {} letters; {} has not",
                                              kLongestName, measure::quoted(name))};
  }
  const std::vector<std::string> known = book::people(logbook);
  const std::string spelled = as_known(name, known);
  if (is_new || std::find(known.begin(), known.end(), spelled) != known.end()) return spelled;
  for (const std::string& one : known) {
    if (!measure::is_slip_of(name, one)) continue;
    return measure::Mistake{name, fmt::format("nobody is called {} yet; did you mean {}? "
                                              "--new-who: somebody new",
                                              measure::quoted(name), one)};
  }
  return spelled;
}

measure::Result<std::string> known_who(const std::string& name, const book::Logbook& logbook) {
  const std::vector<std::string> known = book::people(logbook);
  const std::string spelled = as_known(name, known);
  if (std::find(known.begin(), known.end(), spelled) != known.end()) return spelled;
  return no_such("person", name, known);
}

}  // namespace cli
