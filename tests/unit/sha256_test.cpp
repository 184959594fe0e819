#include "book/keep/sha256.h"

#include <doctest/doctest.h>

#include <sstream>
#include <string>

namespace sha256_test {

TEST_CASE("SHA-256 of a stream is that of its bytes") {
  for (const std::size_t length :
       {0U, 1U, 55U, 56U, 63U, 64U, 65U, 119U, 120U, 128U, 1000U, 70000U}) {
    const std::string text(length, 'x');
    std::istringstream in(text);
    const book::StreamDigest digest = book::sha256(in);
    CHECK(digest.hex == book::sha256(text));
    CHECK(digest.bytes == length);
  }
}

}  // namespace sha256_test
