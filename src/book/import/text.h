#pragma once

#include <cstddef>
#include <string>
#include <string_view>

// The bytes of a file as UTF-8, whatever a logger or a spreadsheet wrote them in.
namespace book {

enum class Encoding { kUtf8, kUtf16Little, kUtf16Big, kLatin1 };

// Tells the encoding by the file's first bytes: by its byte order mark; else UTF-16 by zeros in
// every other byte; else UTF-8 where all of it is well formed; else Latin-1, read as Windows code
// page 1252, its superset (WHATWG Encoding Standard, section 4.2).
Encoding sniff_encoding(std::string_view head);

// The length of the byte order mark that `head` begins with, or 0.
std::size_t byte_order_mark(std::string_view head, Encoding encoding);

// Appends `bytes` to `out` as UTF-8 and returns how many were used: half a character at the end is
// left for the next call. What is no character becomes U+FFFD. UTF-8 is appended as it is.
std::size_t append_utf8(std::string_view bytes, Encoding encoding, std::string& out);

}  // namespace book
