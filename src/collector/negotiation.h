// What a client can take, and what it already has (RFC 9110, sections 12.5.3 and 13.1.2).
#pragma once

#include <string_view>

namespace trowelbell::collector {

// Whether an Accept-Encoding field allows `coding` by name or by "*", with a weight above zero.
bool accepts_coding(std::string_view accept_encoding, std::string_view coding);

// Whether an If-None-Match field names `etag` (quotes included), by weak comparison, or is "*".
bool names_etag(std::string_view if_none_match, std::string_view etag);

}  // namespace trowelbell::collector
