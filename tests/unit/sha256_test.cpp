#include "book/keep/sha256.h"

#include <doctest/doctest.h>

#include <string>

namespace sha256_test {

std::string of(std::string_view text) {
  book::Sha256 digest;
  digest.add(text);
  return digest.digits();
}

// The examples of NIST for FIPS 180-4 ("SHA-256 example" one and two, and the million letters of
// FIPS 180-2, B.3), from memory; each agrees with sha256sum of GNU coreutils.
TEST_CASE("SHA-256 of the standard's own examples") {
  CHECK(of("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(of("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(of(std::string(1'000'000, 'a')) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("SHA-256 is the same however the bytes come") {
  for (const std::size_t length : {55, 56, 63, 64, 65, 119, 120, 128, 1000}) {
    const std::string text(length, 'x');
    for (const std::size_t piece : {1, 7, 64}) {
      book::Sha256 digest;
      for (std::size_t at = 0; at < length; at += piece) {
        digest.add(std::string_view(text).substr(at, piece));
      }
      CHECK(digest.digits() == of(text));
    }
  }
}

}  // namespace sha256_test
