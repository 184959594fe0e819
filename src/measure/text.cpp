#include "measure/text.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>

namespace measure {
namespace {

// The length of the well-formed UTF-8 character at the start of `text`, or 0 (RFC 3629, section 4).
std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
  };
  const auto continues = [&](std::size_t i) { return (byte(i) & 0xC0U) == 0x80U; };
  const unsigned first = byte(0);
  if (first < 0x80U) return 1;
  if (first >= 0xC2U && first <= 0xDFU) return continues(1) ? 2 : 0;
  if (first >= 0xE0U && first <= 0xEFU) {
    if (!continues(1) || !continues(2)) return 0;
    if (first == 0xE0U && byte(1) < 0xA0U) return 0;  // overlong
    if (first == 0xEDU && byte(1) > 0x9FU) return 0;  // a surrogate
    return 3;
  }
  if (first >= 0xF0U && first <= 0xF4U) {
    if (!continues(1) || !continues(2) || !continues(3)) return 0;
    if (first == 0xF0U && byte(1) < 0x90U) return 0;  // overlong
    if (first == 0xF4U && byte(1) > 0x8FU) return 0;  // past U+10FFFF
    return 4;
  }
  return 0;
}

// C0 controls, DEL, the C1 controls U+0080 to U+009F; and what breaks a line or turns the reading
// direction of others: U+2028 to U+202E and U+2066 to U+2069 (Unicode Standard Annex #9, section
// 2).
bool is_control(std::string_view character) {
  const auto first = static_cast<unsigned char>(character[0]);
  if (character.size() == 1) return first < 0x20U || first == 0x7FU;
  if (character.size() == 2) {
    return first == 0xC2U && static_cast<unsigned char>(character[1]) < 0xA0U;
  }
  const bool breaks_or_turns = character >= "\u2028" && character <= "\u202E";
  const bool isolates = character >= "\u2066" && character <= "\u2069";
  return character.size() == 3 && (breaks_or_turns || isolates);
}

// The text with a "?" for each control character but those of `allowed`, and for each wrong byte.
std::string without_controls(std::string_view text, std::string_view allowed) {
  std::string out;
  out.reserve(text.size());
  const auto is_plain = [](char c) { return c >= ' ' && c <= '~'; };
  while (!text.empty()) {
    // Most text is nothing else: taken a run at a time.
    const auto special = std::find_if_not(text.begin(), text.end(), is_plain);
    const auto run = static_cast<std::size_t>(special - text.begin());
    out += text.substr(0, run);
    text.remove_prefix(run);
    if (text.empty()) break;
    const std::size_t length = std::max<std::size_t>(utf8_length(text), 1);
    const bool wrong = utf8_length(text) == 0 || is_control(text.substr(0, length));
    const bool stays = !wrong || allowed.find(text.front()) != std::string_view::npos;
    out += stays ? text.substr(0, length) : "?";
    text.remove_prefix(length);
  }
  return out;
}

// Insertions, deletions, changes, and two neighbouring letters changing places, each 1 (the optimal
// string alignment distance).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    std::swap(before_last, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

constexpr std::array<std::pair<std::string_view, std::string_view>, 8> kSpellings{{
    {"°", ""},
    {"º", ""},
    {"²", "2"},
    {"³", "3"},
    {"½", " 1/2"},
    {"¼", " 1/4"},
    {"¾", " 3/4"},
    {"\u00A0", " "},
}};

}  // namespace

bool is_clean_text(std::string_view text) {
  return inert(text) == text;
}

bool is_clean_lines(std::string_view text) {
  return inert_lines(text) == text;
}

std::string inert(std::string_view text) {
  return without_controls(text, "");
}

std::string inert_lines(std::string_view text) {
  return without_controls(text, "\n\t");
}

std::string folded(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const char c = text.front();
    // Each of the spellings begins with a byte beyond ASCII, which most texts have none of.
    const auto spelling =
        static_cast<unsigned char>(c) < 0x80
            ? kSpellings.end()
            : std::find_if(kSpellings.begin(), kSpellings.end(),
                           [&](const auto& pair) { return text.starts_with(pair.first); });
    if (spelling != kSpellings.end()) {
      out += spelling->second;
      text.remove_prefix(spelling->first.size());
      continue;
    }
    out += (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
    text.remove_prefix(1);
  }
  std::string tidy;
  for (const char c : out) {
    const bool space = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (!space) {
      tidy += c;
    } else if (!tidy.empty() && tidy.back() != ' ') {
      tidy += ' ';
    }
  }
  if (!tidy.empty() && tidy.back() == ' ') tidy.pop_back();
  return tidy;
}

std::string_view take_word(std::string_view& list) {
  const std::size_t end = std::min(list.find(' '), list.size());
  const std::string_view word = list.substr(0, end);
  list.remove_prefix(std::min(end + 1, list.size()));
  return word;
}

bool is_among(std::string_view list, std::string_view word) {
  while (!list.empty()) {
    if (take_word(list) == word) return true;
  }
  return false;
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  if (text.empty()) return parts;
  std::size_t start = 0;
  for (;;) {
    const std::size_t end = text.find(separator, start);
    parts.emplace_back(text.substr(start, end - start));
    if (end == std::string_view::npos) return parts;
    start = end + 1;
  }
}

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string joined(std::span<const std::string> parts, std::string_view separator) {
  std::string out;
  for (const std::string& part : parts) {
    if (!out.empty()) out += separator;
    out += part;
  }
  return out;
}

std::string listed(std::span<const std::string_view> words, std::string_view last) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0 && i + 1 < words.size()) out += ", ";
    if (i > 0 && i + 1 == words.size()) out.append(" ").append(last).append(" ");
    out += words[i];
  }
  return out;
}

std::optional<std::string> nearest(std::string_view word,
                                   std::span<const std::string_view> candidates) {
  const std::string wanted = folded(word);
  if (wanted.size() > 64) return std::nullopt;
  const std::size_t allowed = std::min<std::size_t>(3, std::max<std::size_t>(1, wanted.size() / 3));
  std::optional<std::string> best;
  std::size_t best_distance = allowed + 1;
  for (const std::string_view candidate : candidates) {
    const std::string known = folded(candidate);
    const std::size_t longer = std::max(known.size(), wanted.size());
    if (longer - std::min(known.size(), wanted.size()) > allowed) continue;
    const std::size_t distance = edit_distance(wanted, known);
    if (distance < best_distance && distance < longer) {
      best_distance = distance;
      best = std::string(candidate);
    }
  }
  return best;
}

bool is_slip_of(std::string_view typed, std::string_view known) {
  std::string a = folded(typed), b = folded(known);
  while (!a.empty() && !b.empty() && a.back() == b.back()) a.pop_back(), b.pop_back();
  std::size_t same = 0;
  while (same < a.size() && same < b.size() && a[same] == b[same]) ++same;
  a.erase(0, same);
  b.erase(0, same);
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  if (std::any_of(a.begin(), a.end(), is_digit) || std::any_of(b.begin(), b.end(), is_digit)) {
    return false;
  }
  const bool one_letter = a.size() <= 1 && b.size() <= 1 && a.size() + b.size() > 0;
  const bool swapped = a.size() == 2 && b.size() == 2 && a[0] == b[1] && a[1] == b[0];
  return one_letter || swapped;
}

std::string quoted(std::string_view text, std::size_t width) {
  std::string out = "'";
  std::size_t shown = 0;
  while (!text.empty() && shown < width) {
    const std::size_t length = utf8_length(text);
    if (length == 0 || is_control(text.substr(0, length))) {
      out += '?';
      text.remove_prefix(std::max<std::size_t>(length, 1));
    } else {
      out += text.substr(0, length);
      text.remove_prefix(length);
    }
    ++shown;
  }
  if (!text.empty()) out += "...";
  return out + "'";
}

}  // namespace measure
