#include "cli/keys.h"

#include <sys/random.h>

#include "core/base64url.h"

namespace trowelbell {

VisitKeys read_keys(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  VisitKeys keys;
  if (!reader.header("trowelbell.keys", 1)) {
    return keys;
  }
  const Reader list = reader.object("keys");
  if (const auto* members = list.value().get_ptr<const Json::object_t*>()) {
    for (const auto& entry : *members) {
      keys[entry.first] = list.text(entry.first, 64);
    }
  }
  return keys;
}

Json keys_json(const VisitKeys& keys) {
  return {{"format", "trowelbell.keys"}, {"version", 1}, {"keys", keys}};
}

std::optional<std::string> random_key() {
  std::string bytes(24, '\0');
  // So few bytes come whole or not at all.
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size())) {
    return std::nullopt;
  }
  return base64url(bytes);
}

}  // namespace trowelbell
