#include "utf8.h"

namespace trowelbell {

namespace {

unsigned byte_at(std::string_view text, std::size_t index) {
  return index < text.size() ? static_cast<unsigned char>(text[index]) : 0;
}

bool between(unsigned value, unsigned least, unsigned most) {
  return value >= least && value <= most;
}

// Length of the well-formed character at `index`, or 0.
std::size_t character_length(std::string_view text, std::size_t index) {
  const unsigned first = byte_at(text, index);
  const unsigned second = byte_at(text, index + 1);
  const auto continues = [&](std::size_t offset) {
    return between(byte_at(text, index + offset), 0x80, 0xBF);
  };
  if (first < 0x80) {
    return 1;
  }
  if (between(first, 0xC2, 0xDF)) {
    return continues(1) ? 2 : 0;
  }
  if (between(first, 0xE0, 0xEF)) {
    const unsigned least = first == 0xE0 ? 0xA0 : 0x80;
    const unsigned most = first == 0xED ? 0x9F : 0xBF;
    return between(second, least, most) && continues(2) ? 3 : 0;
  }
  if (between(first, 0xF0, 0xF4)) {
    const unsigned least = first == 0xF0 ? 0x90 : 0x80;
    const unsigned most = first == 0xF4 ? 0x8F : 0xBF;
    return between(second, least, most) && continues(2) && continues(3) ? 4 : 0;
  }
  return 0;
}

}  // namespace

std::size_t utf8_prefix(std::string_view text) {
  std::size_t index = 0;
  while (index < text.size()) {
    const std::size_t length = character_length(text, index);
    if (length == 0) {
      break;
    }
    index += length;
  }
  return index;
}

}  // namespace trowelbell
