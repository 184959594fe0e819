#include "book/import/json.h"

#include <algorithm>
#include <charconv>
#include <cstdint>

#include "book/import/text.h"

namespace book {
namespace {

constexpr std::array<std::string_view, 4> kMembers{"at", "series", "value", "unit"};
constexpr int kDeepest = 32;

// The four hexadecimal digits at the front, or -1.
int code_unit(std::string_view text) {
  unsigned unit{};
  const std::string four(text.substr(0, 4));
  const char* const last = four.data() + four.size();
  const auto [end, error] = std::from_chars(four.data(), last, unit, 16);
  return error == std::errc{} && four.size() == 4 && end == last ? static_cast<int>(unit) : -1;
}

}  // namespace

bool JsonLine::fail(std::string why) {
  why_ = std::move(why);
  return false;
}

void JsonLine::space() {
  rest_.remove_prefix(std::min(rest_.find_first_not_of(" \t\r\n"), rest_.size()));
}

bool JsonLine::read(std::string_view line) {
  rest_ = line;
  for (std::string& member : members_) member.clear();
  space();
  if (!rest_.starts_with('{')) return fail("it is not a JSON object");
  if (!object()) return false;
  space();
  return rest_.empty() || fail("something stands behind the JSON object");
}

bool JsonLine::object() {
  rest_.remove_prefix(1);
  space();
  if (rest_.starts_with('}')) {
    rest_.remove_prefix(1);
    return true;
  }
  for (;;) {
    std::string name, text;
    space();
    if (!string(name)) return false;
    space();
    if (!rest_.starts_with(':')) return fail("a member has no ':'");
    rest_.remove_prefix(1);
    if (!value(text, 0)) return false;
    const auto known = std::find(kMembers.begin(), kMembers.end(), name);
    if (known != kMembers.end()) {
      members_[static_cast<std::size_t>(known - kMembers.begin())] = text;
    }
    space();
    if (rest_.empty()) return fail("the JSON object does not end");
    const char next = rest_[0];
    rest_.remove_prefix(1);
    if (next == '}') return true;
    if (next != ',') return fail("a ',' is missing between members");
  }
}

bool JsonLine::string(std::string& into) {
  if (!rest_.starts_with('"')) return fail("a member's name is not in quotes");
  rest_.remove_prefix(1);
  std::string units;  // of \u escapes: UTF-16, big end first
  const auto flush = [&] {
    append_utf8(units, Encoding::kUtf16Big, into);
    units.clear();
  };
  while (!rest_.empty()) {
    const char c = rest_[0];
    rest_.remove_prefix(1);
    if (c == '"') {
      flush();
      return true;
    }
    if (static_cast<unsigned char>(c) < 0x20) return fail("a control character stands in a string");
    if (c != '\\') {
      flush();
      into += c;
      continue;
    }
    if (rest_.empty()) break;
    const char escaped = rest_[0];
    rest_.remove_prefix(1);
    if (escaped == 'u') {
      const int unit = code_unit(rest_);
      if (unit < 0) return fail("a \\u escape has no four digits");
      rest_.remove_prefix(4);
      units += static_cast<char>(unit >> 8);
      units += static_cast<char>(unit & 0xFF);
      continue;
    }
    constexpr std::string_view kEscapes = "\"\\/bfnrt";
    constexpr std::string_view kMeant = "\"\\/\b\f\n\r\t";
    const std::size_t which = kEscapes.find(escaped);
    if (which == std::string_view::npos) return fail("there is no such escape in JSON");
    flush();
    into += kMeant[which];
  }
  return fail("a string does not end");
}

// Arrays and objects inside are passed over.
bool JsonLine::value(std::string& into, int depth) {
  space();
  if (rest_.starts_with('"')) return string(into);
  if (rest_.starts_with('{') || rest_.starts_with('[')) {
    if (depth == kDeepest) return fail("it is nested too deep");
    const bool named = rest_[0] == '{';
    const char close = named ? '}' : ']';
    rest_.remove_prefix(1);
    std::string passed_over;
    for (bool first = true;; first = false) {
      space();
      if (first && rest_.starts_with(close)) break;
      if (named) {
        if (!string(passed_over)) return false;
        space();
        if (!rest_.starts_with(':')) return fail("a member has no ':'");
        rest_.remove_prefix(1);
      }
      if (!value(passed_over, depth + 1)) return false;
      space();
      if (rest_.starts_with(close)) break;
      if (!rest_.starts_with(',')) return fail("a ',' is missing");
      rest_.remove_prefix(1);
    }
    rest_.remove_prefix(1);
    return true;
  }
  const std::size_t end = std::min(rest_.find_first_of(",}] \t\r\n"), rest_.size());
  const std::string_view word = rest_.substr(0, end);
  if (word.empty()) return fail("a value is missing");
  const bool number = word[0] == '-' || (word[0] >= '0' && word[0] <= '9');
  if (!number && word != "null" && word != "true" && word != "false") {
    return fail("a value is neither a number nor in quotes");
  }
  if (word != "null") into += word;
  rest_.remove_prefix(end);
  return true;
}

std::array<std::string_view, 4> JsonLine::fields() const {
  return {members_[0], members_[1], members_[2], members_[3]};
}

}  // namespace book
