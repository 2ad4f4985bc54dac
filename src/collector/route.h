// Which part an address belongs to.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace trowelbell::collector {

enum class Endpoint {
  health,
  visits,
  latest_report,
  report,
  by_hand,
  parts,
  picture,
  site,
  unknown
};

struct Route {
  Endpoint endpoint = Endpoint::unknown;
  std::string_view pattern;  // for the log: never the address itself
  std::string path;          // decoded
  std::string_view query;    // as sent, without '?'; a view of the target
  std::string visit;
  std::string device;
  std::int64_t revision = 0;
};

// `target` as a request sends it, in origin form ("/a?b") or absolute form ("http://host/a?b").
Route find_route(std::string_view target);

// Percent-decoding (RFC 3986, 2.1). False for a broken escape or a control character.
bool percent_decode(std::string_view text, std::string& decoded);

// The value of one key in a query; "" where it is missing or broken.
std::string query_value(std::string_view query, std::string_view key);

}  // namespace trowelbell::collector
