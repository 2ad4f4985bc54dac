// base64url without padding (RFC 4648, sections 5 and 3.2): bytes as text that is safe in a link.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace trowelbell {

std::string base64url(std::string_view bytes);
// Nothing for a character outside the alphabet (also "=" and white space), an impossible length, or
// left-over bits that are not zero: one text for one value.
std::optional<std::string> base64url_bytes(std::string_view text);

}  // namespace trowelbell
