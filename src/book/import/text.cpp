#include "book/import/text.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "measure/text.h"

namespace book {
namespace {

// What code page 1252 has at 0x80 to 0x9F, where Latin-1 has control characters; 0: nothing.
constexpr std::array<std::uint32_t, 32> kCodePage1252{
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};
constexpr std::uint32_t kNoCharacter = 0xFFFD;

void append(std::uint32_t character, std::string& out) {
  const auto byte = [&](std::uint32_t value) { out += static_cast<char>(value); };
  if (character < 0x80) {
    byte(character);
  } else if (character < 0x800) {
    byte(0xC0 | (character >> 6));
    byte(0x80 | (character & 0x3F));
  } else if (character < 0x10000) {
    byte(0xE0 | (character >> 12));
    byte(0x80 | ((character >> 6) & 0x3F));
    byte(0x80 | (character & 0x3F));
  } else {
    byte(0xF0 | (character >> 18));
    byte(0x80 | ((character >> 12) & 0x3F));
    byte(0x80 | ((character >> 6) & 0x3F));
    byte(0x80 | (character & 0x3F));
  }
}

std::uint32_t byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

std::size_t append_latin1(std::string_view bytes, std::string& out) {
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    const std::uint32_t byte = byte_at(bytes, i);
    const bool is_1252 = byte >= 0x80 && byte < 0xA0;
    const std::uint32_t character = is_1252 ? kCodePage1252[byte - 0x80] : byte;
    append(character == 0 && is_1252 ? kNoCharacter : character, out);
  }
  return bytes.size();
}

std::size_t append_utf16(std::string_view bytes, bool big, std::string& out) {
  const auto unit = [&](std::size_t at) {
    return big ? byte_at(bytes, at) << 8 | byte_at(bytes, at + 1)
               : byte_at(bytes, at + 1) << 8 | byte_at(bytes, at);
  };
  std::size_t at = 0;
  while (at + 2 <= bytes.size()) {
    const std::uint32_t first = unit(at);
    if (first < 0xD800 || first > 0xDFFF) {
      append(first, out);
      at += 2;
      continue;
    }
    if (first > 0xDBFF) {  // the second half of a pair without its first
      append(kNoCharacter, out);
      at += 2;
      continue;
    }
    if (at + 4 > bytes.size()) break;
    const std::uint32_t second = unit(at + 2);
    const bool paired = second >= 0xDC00 && second <= 0xDFFF;
    append(paired ? 0x10000 + ((first - 0xD800) << 10) + (second - 0xDC00) : kNoCharacter, out);
    at += paired ? 4 : 2;
  }
  return at;
}

// Well formed but for a character cut off at the end.
bool is_utf8(std::string_view head) {
  std::string visible(head);
  std::replace_if(
      visible.begin(), visible.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20U; },
      ' ');
  for (std::size_t cut = 0; cut < 4 && cut <= visible.size(); ++cut) {
    if (measure::is_clean_text(std::string_view(visible).substr(0, visible.size() - cut))) {
      return true;
    }
    if (cut < visible.size() && byte_at(visible, visible.size() - cut - 1) < 0x80) return false;
  }
  return false;
}

}  // namespace

Encoding sniff_encoding(std::string_view head) {
  if (head.starts_with("\xEF\xBB\xBF")) return Encoding::kUtf8;
  if (head.starts_with("\xFF\xFE")) return Encoding::kUtf16Little;
  if (head.starts_with("\xFE\xFF")) return Encoding::kUtf16Big;
  std::size_t even = 0, odd = 0;
  for (std::size_t i = 0; i < head.size(); ++i) {
    if (head[i] == '\0') ++(i % 2 == 0 ? even : odd);
  }
  // In UTF-16 nearly every character of a table of numbers has one byte of zeros.
  if (odd * 4 > head.size() && even * 8 < head.size()) return Encoding::kUtf16Little;
  if (even * 4 > head.size() && odd * 8 < head.size()) return Encoding::kUtf16Big;
  return is_utf8(head) ? Encoding::kUtf8 : Encoding::kLatin1;
}

std::size_t byte_order_mark(std::string_view head, Encoding encoding) {
  switch (encoding) {
    case Encoding::kUtf8:
      return head.starts_with("\xEF\xBB\xBF") ? 3 : 0;
    case Encoding::kUtf16Little:
      return head.starts_with("\xFF\xFE") ? 2 : 0;
    case Encoding::kUtf16Big:
      return head.starts_with("\xFE\xFF") ? 2 : 0;
    case Encoding::kLatin1:
      return 0;
  }
  return 0;
}

std::size_t append_utf8(std::string_view bytes, Encoding encoding, std::string& out) {
  switch (encoding) {
    case Encoding::kUtf8:
      out += bytes;
      return bytes.size();
    case Encoding::kUtf16Little:
      return append_utf16(bytes, false, out);
    case Encoding::kUtf16Big:
      return append_utf16(bytes, true, out);
    case Encoding::kLatin1:
      return append_latin1(bytes, out);
  }
  return bytes.size();
}

}  // namespace book
