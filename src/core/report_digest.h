// The digest by which phone and collector know a report: SHA-256 (FIPS 180-4) of its bytes.
#pragma once

#include <string>
#include <string_view>

namespace trowelbell {

// 64 lower-case hexadecimal digits. Here and not from a library, because the page has none: what
// the browser offers answers later, and a screen needs it now. The tests hold it to libsodium's.
std::string report_digest(std::string_view bytes);

}  // namespace trowelbell
