#pragma once

#include <span>
#include <string>
#include <vector>

#include "kinds/kind.h"
#include "measure/amount.h"

// What stands apart in a line of `log` and belongs together.
namespace cli {

// Each of the line's readings, deeds and judgements as one word: "148 F" is 148F, "9 eggs" is
// eggs=9, "leak mended" is leak-mended.
// A container of the site ("9 bucket") is a unit.
std::vector<std::string> log_phrases(const std::vector<std::string>& words, const kinds::Kind& kind,
                                     std::span<const measure::Container> containers);

// Whether the word names a reading or a position of the kind, and says nothing by itself.
bool is_name(const std::string& word, const kinds::Kind& kind);

}  // namespace cli
