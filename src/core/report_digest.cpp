#include "report_digest.h"

#include <array>
#include <bit>
#include <cstdint>

namespace trowelbell {
namespace {

using Words = std::array<std::uint32_t, 8>;

// FIPS 180-4, 4.2.2: of the cube roots of the first 64 primes.
constexpr std::uint32_t kRound[64] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

// 6.2.2: one block of 64 bytes.
void take_block(Words& hash, std::string_view block) {
  std::uint32_t w[64];
  for (std::size_t t = 0; t < 16; ++t) {
    w[t] = 0;
    for (std::size_t i = 0; i < 4; ++i)
      w[t] = w[t] << 8 | static_cast<unsigned char>(block[4 * t + i]);
  }
  for (std::size_t t = 16; t < 64; ++t) {
    const std::uint32_t a = w[t - 15], b = w[t - 2];
    w[t] = w[t - 16] + w[t - 7] + (std::rotr(a, 7) ^ std::rotr(a, 18) ^ a >> 3) +
           (std::rotr(b, 17) ^ std::rotr(b, 19) ^ b >> 10);
  }
  auto [a, b, c, d, e, f, g, h] = hash;
  for (std::size_t t = 0; t < 64; ++t) {
    const std::uint32_t first = h + (std::rotr(e, 6) ^ std::rotr(e, 11) ^ std::rotr(e, 25)) +
                                ((e & f) ^ (~e & g)) + kRound[t] + w[t];
    const std::uint32_t second =
        (std::rotr(a, 2) ^ std::rotr(a, 13) ^ std::rotr(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
    h = g;
    g = f;
    f = e;
    e = d + first;
    d = c;
    c = b;
    b = a;
    a = first + second;
  }
  const Words added = {a, b, c, d, e, f, g, h};
  for (std::size_t i = 0; i < hash.size(); ++i) hash[i] += added[i];
}

}  // namespace

std::string report_digest(std::string_view bytes) {
  Words hash = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
  const std::uint64_t length = std::uint64_t{bytes.size()} * 8;
  for (; bytes.size() >= 64; bytes.remove_prefix(64)) take_block(hash, bytes.substr(0, 64));
  // 5.1.1: a one, zeros up to eight bytes before the end of a block, the length in bits.
  std::string rest = std::string(bytes) + '\x80';
  rest.resize(rest.size() <= 56 ? 56 : 120, '\0');
  for (int shift = 56; shift >= 0; shift -= 8) rest += static_cast<char>(length >> shift & 255);
  for (std::size_t at = 0; at < rest.size(); at += 64)
    take_block(hash, std::string_view(rest).substr(at, 64));
  std::string digits;
  for (const std::uint32_t word : hash) {
    for (int shift = 28; shift >= 0; shift -= 4) digits += "0123456789abcdef"[word >> shift & 15];
  }
  return digits;
}

}  // namespace trowelbell
