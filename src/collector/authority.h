// Who may ask: a bearer key (RFC 6750), known here only by its SHA-256.
#pragma once

#include <filesystem>

#include "digest.h"
#include "message.h"

namespace trowelbell::collector {

// Whether the field says "Bearer <key>" with the key of this digest.
bool bearer_matches(std::string_view authorization, const Digest& key_digest);

// The key in the file, which is made with a random one (readable by its owner alone) where there is
// none. Throws std::runtime_error with a sentence that says what to do.
std::string coordinator_key(const std::filesystem::path& file);

}  // namespace trowelbell::collector
