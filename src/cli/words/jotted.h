#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "measure/result.h"

// A line as someone jots it down without a shell: into words, and back.
namespace cli {

// Parts a line at blanks. What stands in quotes ('...', "...", also curly ones, as a phone writes
// them) is one word; a quote within a word is a letter ("don't"). A quote that is not closed, a
// control character, bytes that are no UTF-8 or more than 8192 bytes are a mistake.
measure::Result<std::vector<std::string>> split_words(std::string_view line);

// Takes "--sure" out of the words, and says whether it was there. Any other option is a mistake.
measure::Result<bool> take_sure(std::vector<std::string>& words);

// "roundbook log heap-3 148F 'steam when opened'": the words as they would be typed.
std::string typed_line(const std::vector<std::string>& words);

}  // namespace cli
