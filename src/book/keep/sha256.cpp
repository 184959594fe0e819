#include "book/keep/sha256.h"

#include <array>
#include <bit>
#include <cstdint>
#include <istream>
#include <vector>

namespace book {
namespace {

using Word = std::uint32_t;

// FIPS 180-4, 4.2.2: the first 32 bits of the fractional parts of the cube roots of the first 64
// primes.
constexpr std::array<Word, 64> kRounds{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

using State = std::array<Word, 8>;

void take_block(State& state, std::string_view block) {
  std::array<Word, 64> w{};
  for (std::size_t t = 0; t < 16; ++t) {
    for (std::size_t i = 0; i < 4; ++i) {
      w[t] = w[t] << 8 | static_cast<unsigned char>(block[4 * t + i]);
    }
  }
  for (std::size_t t = 16; t < 64; ++t) {
    const Word near = w[t - 15];
    const Word far = w[t - 2];
    w[t] = (std::rotr(far, 17) ^ std::rotr(far, 19) ^ far >> 10) + w[t - 7] +
           (std::rotr(near, 7) ^ std::rotr(near, 18) ^ near >> 3) + w[t - 16];
  }
  auto [a, b, c, d, e, f, g, h] = state;
  for (std::size_t t = 0; t < 64; ++t) {
    const Word one = h + (std::rotr(e, 6) ^ std::rotr(e, 11) ^ std::rotr(e, 25)) +
                     ((e & f) ^ (~e & g)) + kRounds[t] + w[t];
    const Word two =
        (std::rotr(a, 2) ^ std::rotr(a, 13) ^ std::rotr(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
    h = g;
    g = f;
    f = e;
    e = d + one;
    d = c;
    c = b;
    b = a;
    a = one + two;
  }
  const State worked{a, b, c, d, e, f, g, h};
  for (std::size_t i = 0; i < state.size(); ++i) state[i] += worked[i];
}

constexpr std::size_t kBlock = 64;
constexpr State kBegin{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                       0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};

// Takes the whole blocks from the front of `bytes` and leaves the rest in it.
void take_blocks(State& state, std::string_view& bytes) {
  while (bytes.size() >= kBlock) {
    take_block(state, bytes.substr(0, kBlock));
    bytes.remove_prefix(kBlock);
  }
}

// The digest in hexadecimal, behind the last bytes, fewer than a block, of a text that long.
std::string finished(State state, std::string_view rest, std::uint64_t size) {
  // 5.1.1: a one, zeros, and the length in bits as the last eight bytes.
  std::string end(rest);
  end += '\x80';
  end.append((end.size() <= kBlock - 8 ? kBlock : 2 * kBlock) - 8 - end.size(), '\0');
  for (int shift = 56; shift >= 0; shift -= 8) end += static_cast<char>(size * 8 >> shift & 0xFF);
  std::string_view left = end;
  take_blocks(state, left);
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string hex;
  for (const Word word : state) {
    for (int shift = 28; shift >= 0; shift -= 4) hex += kDigits[word >> shift & 0xF];
  }
  return hex;
}

}  // namespace

std::string sha256(std::string_view bytes) {
  State state = kBegin;
  const std::uint64_t size = bytes.size();
  take_blocks(state, bytes);
  return finished(state, bytes, size);
}

StreamDigest sha256(std::istream& in) {
  std::vector<char> part(1024 * kBlock);
  State state = kBegin;
  std::uint64_t size = 0;
  for (;;) {
    in.read(part.data(), static_cast<std::streamsize>(part.size()));
    const auto read = static_cast<std::size_t>(in.gcount());
    size += read;
    std::string_view bytes(part.data(), read);
    take_blocks(state, bytes);
    // Only the last part can end within a block.
    if (read < part.size()) return {finished(state, bytes, size), size};
  }
}

}  // namespace book
