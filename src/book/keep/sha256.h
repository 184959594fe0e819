#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace book {

// The SHA-256 digest of bytes that come piece by piece, as 64 hexadecimal digits. Source: FIPS PUB
// 180-4, Secure Hash Standard, sections 4.1.2, 5.1.1 and 6.2.
class Sha256 {
 public:
  void add(std::string_view bytes);
  std::string digits();  // of all that was added; then it is spent

 private:
  void take(const unsigned char* block);

  std::array<std::uint32_t, 8> state_{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                      0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
  std::array<unsigned char, 64> rest_{};
  std::size_t used_ = 0;    // bytes of `rest_`
  std::uint64_t bytes_ = 0;  // added so far
};

// Of a whole file. Throws BookError where it cannot be read.
std::string sha256_of(const std::filesystem::path& file);

}  // namespace book
