// Base32 without padding (RFC 4648, sections 6 and 3.2): bytes as capital letters and digits, which
// a QR code holds more tightly than any others and no program that passes text on changes.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace trowelbell {

std::string base32(std::string_view bytes);
// Nothing for a character outside A-Z and 2-7, an impossible length, or left-over bits that are not
// zero: one text for one value.
std::optional<std::string> base32_bytes(std::string_view text);

}  // namespace trowelbell
