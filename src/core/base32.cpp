#include "base32.h"

#include <cstdint>

namespace trowelbell {

namespace {

constexpr std::string_view kAlphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

}  // namespace

std::string base32(std::string_view bytes) {
  std::string text;
  text.reserve((bytes.size() * 8 + 4) / 5);
  std::uint32_t bits = 0;
  int waiting = 0;  // bits not written yet
  for (const char byte : bytes) {
    bits = bits << 8 | static_cast<unsigned char>(byte);
    waiting += 8;
    while (waiting >= 5) {
      waiting -= 5;
      text += kAlphabet[bits >> waiting & 31];
    }
  }
  if (waiting > 0) text += kAlphabet[bits << (5 - waiting) & 31];
  return text;
}

std::optional<std::string> base32_bytes(std::string_view text) {
  std::string bytes;
  bytes.reserve(text.size() * 5 / 8);
  std::uint32_t bits = 0;
  int waiting = 0;
  for (const char c : text) {
    const std::size_t value = kAlphabet.find(c);
    if (value == std::string_view::npos) return std::nullopt;
    bits = bits << 5 | static_cast<std::uint32_t>(value);
    waiting += 5;
    if (waiting >= 8) {
      waiting -= 8;
      bytes += static_cast<char>(bits >> waiting & 255);
    }
  }
  const std::uint32_t left_over = bits & ((1U << waiting) - 1);
  if (waiting >= 5 || left_over != 0) return std::nullopt;
  return bytes;
}

}  // namespace trowelbell
