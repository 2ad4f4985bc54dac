// SHA-256 (FIPS 180-4), and keys that are only ever compared by their digests.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace trowelbell::collector {

using Digest = std::array<unsigned char, 32>;

Digest sha256(std::string_view bytes);
// 64 lower-case hexadecimal digits.
std::string hex(const Digest& digest);

// Takes the same time wherever the two differ.
bool same_digest(const Digest& a, const Digest& b);

// 32 of A-Z a-z 0-9 - _ (192 bits) from the system's random source.
std::string random_key();

}  // namespace trowelbell::collector
