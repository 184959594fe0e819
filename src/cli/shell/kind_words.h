#pragma once

#include <string>
#include <vector>

#include "kinds/kind.h"

// What can be said of a kind, for the help and the man page.
namespace cli {

struct WordRow {
  std::string names;    // "turned, turn"
  std::string meaning;  // "mixed through, outside to inside"
};
struct WordSection {
  std::string title;  // "deeds"
  std::vector<WordRow> rows;
};

// Its readings with the positions, its deeds, its judgements by hand by what is judged.
std::vector<WordSection> words_of(const kinds::Kind& kind);

}  // namespace cli
