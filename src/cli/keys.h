// The keys file: for each visit the key its reports are sent with. Format "trowelbell.keys". Keep
// it private.
#pragma once

#include <map>

#include "core/json.h"

namespace trowelbell {

inline constexpr JsonLimits kKeysLimits{1024 * 1024, 4};

using VisitKeys = std::map<std::string, std::string>;  // by visit id

VisitKeys read_keys(const Json& document, Problems& problems);
Json keys_json(const VisitKeys& keys);

// 32 characters of base64url from 24 bytes of the system's random source; nothing where it gives
// none.
std::optional<std::string> random_key();

}  // namespace trowelbell
