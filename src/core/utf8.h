// Whether bytes are well-formed UTF-8 (Unicode, table 3-7: no overlong forms, no surrogates, at
// most U+10FFFF).
#pragma once

#include <string_view>

namespace trowelbell {

// The number of leading bytes that are well-formed; text.size() when all are.
std::size_t utf8_prefix(std::string_view text);
inline bool is_utf8(std::string_view text) {
  return utf8_prefix(text) == text.size();
}

}  // namespace trowelbell
