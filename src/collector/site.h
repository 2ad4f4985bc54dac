// The files the collector serves, read once at the start: a request is a look-up by exact name, so
// no address can reach anything else on the disk.
#pragma once

#include <filesystem>
#include <map>
#include <stdexcept>

#include "message.h"

namespace trowelbell::collector {

struct SiteError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

class Site {
 public:
  Site() = default;  // empty: every address is "not found"
  // Reads the whole tree. Files "name.br" and "name.gz" beside "name" are its compressed forms.
  // Hidden files and symbolic links are left out. Throws SiteError, also above 64 MB.
  static Site load(const std::filesystem::path& folder);

  std::size_t size() const { return files_.size(); }

  // GET for a decoded path. "/" is index.html; "/name" is name.html where there is no file "name".
  Response answer(std::string_view path, const Request& request) const;

 private:
  struct Form {
    std::string bytes;
    std::string etag;  // strong, quoted; "" where there is no such form
  };
  struct File {
    std::string type;
    std::string cache;
    Form plain, br, gz;
  };

  const File* find(std::string_view path) const;

  std::map<std::string, File, std::less<>> files_;  // by path, with the leading '/'
};

}  // namespace trowelbell::collector
