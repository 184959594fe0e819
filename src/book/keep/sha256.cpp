#include "book/keep/sha256.h"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <fstream>

#include "book/file/error.h"

namespace book {
namespace {

// The first 32 bits of the fractional parts of the cube roots of the first 64 primes (4.2.2).
constexpr std::array<std::uint32_t, 64> kRound{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1,
    0x923f82a4, 0xab1c5ed5, 0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3,
    0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174, 0xe49b69c1, 0xefbe4786,
    0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147,
    0x06ca6351, 0x14292967, 0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13,
    0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85, 0xa2bfe8a1, 0xa81a664b,
    0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a,
    0x5b9cca4f, 0x682e6ff3, 0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208,
    0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

}  // namespace

void Sha256::add(std::string_view bytes) {
  bytes_ += bytes.size();
  while (!bytes.empty()) {
    const std::size_t taken = std::min(bytes.size(), rest_.size() - used_);
    std::copy_n(bytes.begin(), taken, rest_.begin() + static_cast<std::ptrdiff_t>(used_));
    used_ += taken;
    bytes.remove_prefix(taken);
    if (used_ == rest_.size()) {
      take(rest_.data());
      used_ = 0;
    }
  }
}

std::string Sha256::digits() {
  const std::uint64_t bits = bytes_ * 8;
  // A one, zeros up to 56 bytes of a block, then the length in bits (5.1.1).
  std::string end(1, '\x80');
  end.append((119 - used_) % 64, '\0');
  for (int shift = 56; shift >= 0; shift -= 8) end += static_cast<char>(bits >> shift & 0xff);
  add(end);
  std::string text;
  for (const std::uint32_t word : state_) text += fmt::format("{:08x}", word);
  return text;
}

void Sha256::take(const unsigned char* block) {
  std::array<std::uint32_t, 64> w{};
  for (std::size_t i = 0; i < 16; ++i) {
    for (std::size_t k = 0; k < 4; ++k) w[i] = w[i] << 8 | block[4 * i + k];
  }
  for (std::size_t i = 16; i < 64; ++i) {
    const std::uint32_t a = w[i - 15], b = w[i - 2];
    w[i] = w[i - 16] + (std::rotr(a, 7) ^ std::rotr(a, 18) ^ a >> 3) + w[i - 7] +
           (std::rotr(b, 17) ^ std::rotr(b, 19) ^ b >> 10);
  }
  std::array<std::uint32_t, 8> s = state_;
  for (std::size_t i = 0; i < 64; ++i) {
    const std::uint32_t one =
        s[7] + (std::rotr(s[4], 6) ^ std::rotr(s[4], 11) ^ std::rotr(s[4], 25)) +
        ((s[4] & s[5]) ^ (~s[4] & s[6])) + kRound[i] + w[i];
    const std::uint32_t two = (std::rotr(s[0], 2) ^ std::rotr(s[0], 13) ^ std::rotr(s[0], 22)) +
                              ((s[0] & s[1]) ^ (s[0] & s[2]) ^ (s[1] & s[2]));
    s = {one + two, s[0], s[1], s[2], s[3] + one, s[4], s[5], s[6]};
  }
  for (std::size_t i = 0; i < s.size(); ++i) state_[i] += s[i];
}

std::string sha256_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  Sha256 digest;
  std::string piece(65536, '\0');
  while (in.read(piece.data(), static_cast<std::streamsize>(piece.size())) || in.gcount() > 0) {
    digest.add(std::string_view(piece).substr(0, static_cast<std::size_t>(in.gcount())));
  }
  if (!in.eof()) refuse(file, "it cannot be read");
  return digest.digits();
}

}  // namespace book
