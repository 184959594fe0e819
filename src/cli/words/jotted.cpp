#include "cli/words/jotted.h"

#include <fmt/format.h>

#include <array>

#include "measure/text.h"

namespace cli {
namespace {

constexpr std::size_t kLongestLine = 8192;

// What opens a word in quotes, and what closes it.
struct Quotes {
  std::string_view open, close;
};
constexpr std::array kQuotes{
    Quotes{"'", "'"},
    Quotes{"\"", "\""},
    Quotes{"\u201c", "\u201d"},
    Quotes{"\u2018", "\u2019"},
};
constexpr std::string_view kHardSpace = "\u00a0";

// The bytes of the blank that stands there; 0: none does.
std::size_t blank_at(std::string_view text, std::size_t at) {
  if (text[at] == ' ' || text[at] == '\t') return 1;
  return text.substr(at).starts_with(kHardSpace) ? kHardSpace.size() : 0;
}

const Quotes* quotes_at(std::string_view text, std::size_t at) {
  for (const Quotes& one : kQuotes) {
    if (text.substr(at).starts_with(one.open)) return &one;
  }
  return nullptr;
}

bool ends_word(std::string_view text, std::size_t at) {
  return at >= text.size() || blank_at(text, at) > 0;
}

// Where the quote is closed: before a blank or the end, so that 'don't know' is one.
std::size_t closed_at(std::string_view text, std::size_t from, const Quotes& quotes) {
  std::size_t at = text.find(quotes.close, from);
  while (at != std::string_view::npos && !ends_word(text, at + quotes.close.size())) {
    at = text.find(quotes.close, at + 1);
  }
  return at;
}

}  // namespace

measure::Result<std::vector<std::string>> split_words(std::string_view line) {
  if (line.size() > kLongestLine) {
    return measure::Mistake{"", fmt::format("a line of {} bytes; {} is the most it may have",
                                            line.size(), kLongestLine)};
  }
  if (!measure::is_clean_lines(line)) {
    return measure::Mistake{
        "", measure::quoted(line) + " holds a control character or is not UTF-8 text"};
  }
  std::vector<std::string> words;
  std::size_t at = 0;
  while (at < line.size()) {
    if (const std::size_t blank = blank_at(line, at)) {
      at += blank;
      continue;
    }
    if (const Quotes* quotes = quotes_at(line, at)) {
      const std::size_t from = at + quotes->open.size();
      const std::size_t end = closed_at(line, from, *quotes);
      if (end == std::string_view::npos) {
        return measure::Mistake{"", fmt::format("the quote before {} is not closed",
                                                measure::quoted(line.substr(from)))};
      }
      words.emplace_back(line.substr(from, end - from));
      at = end + quotes->close.size();
      continue;
    }
    const std::size_t from = at;
    while (!ends_word(line, at)) ++at;
    words.emplace_back(line.substr(from, at - from));
  }
  return words;
}

measure::Result<bool> take_sure(std::vector<std::string>& words) {
  bool sure = false;
  for (std::size_t i = 0; i < words.size();) {
    if (words[i] == "--sure") {
      sure = true;
      words.erase(words.begin() + static_cast<std::ptrdiff_t>(i));
      continue;
    }
    if (words[i].starts_with("--")) {
      return measure::Mistake{words[i],
                              fmt::format("of options only --sure is understood here, not {}",
                                          measure::quoted(words[i]))};
    }
    ++i;
  }
  return sure;
}

std::string typed_line(const std::vector<std::string>& words) {
  std::string line = "roundbook";
  for (const std::string& word : words) {
    const bool plain =
        !word.empty() && word.find_first_of(" '\"\\$`*?&|;<>()") == std::string::npos;
    if (plain) {
      line += " " + word;
      continue;
    }
    line += " '";
    for (const char c : word) line += c == '\'' ? std::string("'\\''") : std::string(1, c);
    line += "'";
  }
  return line;
}

}  // namespace cli
