#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "kinds/caution.h"
#include "measure/text.h"

namespace cautions_test {

std::vector<std::string> moments_of(const model::Caution& caution) {
  return measure::split(caution.moments, ' ');
}

// kind, moment and the cautions that are said then: what a reader sees at once.
std::string table() {
  std::string text;
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    std::map<std::string, std::vector<std::string>> said;
    for (const model::Caution& one : kinds::all_cautions()) {
      if (!kinds::is_of(one, kind->name)) continue;
      for (const std::string& moment : moments_of(one)) said[moment].emplace_back(one.id);
    }
    text += std::string(kind->name) + '\n';
    for (const auto& [moment, ids] : said) {
      text += "  " + moment + ": " + measure::joined(ids, ", ") + '\n';
    }
    for (const model::Hazard hazard : model::kHazards) {
      const kinds::HazardAnswer& answer = kind->hazards[hazard];
      if (answer.applies()) continue;
      text +=
          "  no " + std::string(model::word(hazard)) + ": " + std::string(answer.why_none()) + '\n';
    }
  }
  return text;
}

TEST_CASE("cautions: every kind answers for every hazard, by rows or by why there is none") {
  for (const kinds::Kind* kind : kinds::all_kinds()) {
    for (const model::Hazard hazard : model::kHazards) {
      CAPTURE(kind->name);
      CAPTURE(model::word(hazard));
      bool any = false;
      for (const model::Caution& one : kinds::all_cautions()) {
        any = any || (one.hazard == hazard && kinds::is_of(one, kind->name));
      }
      CHECK(any == kind->hazards[hazard].applies());
    }
  }
}

TEST_CASE("cautions: a row speaks of kinds, deeds and readings that there are") {
  for (const model::Caution& one : kinds::all_cautions()) {
    CAPTURE(one.id);
    for (const std::string& name : measure::split(one.kinds, ' ')) {
      CAPTURE(name);
      CHECK(kinds::find_kind(name) != nullptr);
    }
    for (const std::string& moment : moments_of(one)) {
      CAPTURE(moment);
      const std::string what = moment.substr(0, moment.find('@'));
      const std::string sort = what.substr(0, what.find(':'));
      CHECK(std::set<std::string>{"start", "end", "log", "add", "take", "rule", "note"}.count(
                sort) == 1);
      if (sort == "log") {
        const std::string name = what.substr(what.find(':') + 1);
        bool known = false;
        for (const kinds::Kind* kind : kinds::all_kinds()) {
          if (!kinds::is_of(one, kind->name)) continue;
          known = known || kinds::find_word(*kind, name) != nullptr ||
                  kinds::find_quantity(*kind, name) != nullptr;
        }
        CHECK(known);
      }
      if (sort == "rule") {
        const std::string rule = what.substr(what.find(':') + 1);
        CHECK(kinds::is_of(one, rule.substr(0, rule.find('.'))));
      }
    }
  }
}

// UPDATE=1 writes the table as it is now; the change is reviewed like code.
TEST_CASE("cautions: the table of kind, moment and caution is the one that was read over") {
  const std::string path = TEST_DATA "/caution-table.txt";
  if (std::getenv("UPDATE") != nullptr) std::ofstream(path) << table();
  std::stringstream kept;
  kept << std::ifstream(path).rdbuf();
  CHECK(kept.str() == table());
}

}  // namespace cautions_test
