#include "book/keep/sha256.h"

#include <doctest/doctest.h>

#include <sstream>
#include <string>

namespace sha256_test {

TEST_CASE("SHA-256 of a stream is that of its bytes") {
  for (const std::size_t length : {0, 1, 55, 56, 63, 64, 65, 119, 120, 128, 1000, 70'000}) {
    const std::string text(length, 'x');
    std::istringstream in(text);
    const book::StreamDigest digest = book::sha256(in);
    CHECK(digest.hex == book::sha256(text));
    CHECK(digest.bytes == length);
  }
}

}  // namespace sha256_test
