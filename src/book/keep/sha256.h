#pragma once

#include <string>
#include <string_view>

namespace book {

// The SHA-256 digest of the bytes, as 64 hexadecimal digits (NIST FIPS 180-4, section 6.2).
std::string sha256(std::string_view bytes);

}  // namespace book
