#pragma once

#include <cstdint>
#include <iosfwd>
#include <string>
#include <string_view>

namespace book {

// The SHA-256 digest of the bytes, as 64 hexadecimal digits (NIST FIPS 180-4, section 6.2).
std::string sha256(std::string_view bytes);

// The same of what a stream still holds, and how many bytes that were, in constant memory.
struct StreamDigest {
  std::string hex;
  std::uint64_t bytes;
};
StreamDigest sha256(std::istream& in);

}  // namespace book
