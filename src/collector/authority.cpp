#include "authority.h"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <stdexcept>

namespace trowelbell::collector {
namespace {

bool is_key(std::string_view text) {
  const auto allowed = [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_';
  };
  return text.size() >= 16 && text.size() <= 64 && std::ranges::all_of(text, allowed);
}

// Owner only from its first moment on; another process that makes it at the same time wins.
void make_key_file(const std::filesystem::path& file) {
  const int descriptor = open(file.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (descriptor < 0) {
    if (errno == EEXIST) return;
    throw std::runtime_error("Cannot make the coordinator's key file " + file.string() + ": " +
                             std::strerror(errno) +
                             ". Name a place for it with --coordinator-key-file.");
  }
  const std::string line = random_key() + "\n";
  const bool written =
      write(descriptor, line.data(), line.size()) == static_cast<ssize_t>(line.size()) &&
      fsync(descriptor) == 0;
  close(descriptor);
  if (written) return;
  unlink(file.c_str());  // a half-written key would be refused at every later start
  throw std::runtime_error("Cannot write the coordinator's key file " + file.string() +
                           ". Is the disk full?");
}

}  // namespace

bool bearer_matches(std::string_view authorization, const Digest& key_digest) {
  constexpr std::string_view kScheme = "bearer ";
  if (authorization.size() <= kScheme.size()) return false;
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  if (!std::ranges::equal(authorization.substr(0, kScheme.size()), kScheme, {}, lower))
    return false;
  authorization.remove_prefix(kScheme.size());
  return same_digest(sha256(authorization), key_digest);
}

std::string coordinator_key(const std::filesystem::path& file) {
  if (!std::filesystem::exists(file)) make_key_file(file);
  std::ifstream stream(file);
  std::string key;
  stream >> key;
  if (!is_key(key))
    throw std::runtime_error(
        file.string() +
        " holds no key of 16 to 64 letters, digits, - and _. Delete it, and the "
        "next start makes a new one.");
  return key;
}

}  // namespace trowelbell::collector
