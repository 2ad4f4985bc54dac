#include "digest.h"

#include <sodium.h>

#include <stdexcept>

namespace trowelbell::collector {

Digest sha256(std::string_view bytes) {
  Digest digest{};
  crypto_hash_sha256(digest.data(), reinterpret_cast<const unsigned char*>(bytes.data()),
                     bytes.size());
  return digest;
}

std::string hex(const Digest& digest) {
  std::string text(digest.size() * 2 + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), digest.data(), digest.size());
  text.pop_back();
  return text;
}

bool same_digest(const Digest& a, const Digest& b) {
  return sodium_memcmp(a.data(), b.data(), a.size()) == 0;
}

std::string random_key() {
  if (sodium_init() < 0) throw std::runtime_error("The system's random source cannot be used.");
  std::array<unsigned char, 24> secret{};
  randombytes_buf(secret.data(), secret.size());
  constexpr int kVariant = sodium_base64_VARIANT_URLSAFE_NO_PADDING;
  std::string key(sodium_base64_encoded_len(secret.size(), kVariant), '\0');
  sodium_bin2base64(key.data(), key.size(), secret.data(), secret.size(), kVariant);
  key.pop_back();
  return key;
}

}  // namespace trowelbell::collector
