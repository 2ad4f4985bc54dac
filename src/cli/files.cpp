#include "cli/files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>

namespace trowelbell {

namespace {

void add(Problems& problems, std::string what) {
  add_problems(problems, {{"", std::move(what)}});
}

std::string reason() {
  return std::strerror(errno);
}

bool write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(file, text.data(), text.size());
    if (written < 0 && errno != EINTR) {
      return false;
    }
    text.remove_prefix(written < 0 ? 0 : static_cast<std::size_t>(written));
  }
  return ::fsync(file) == 0;
}

}  // namespace

std::optional<std::string> read_text(const std::string& name, std::size_t most, std::istream& in,
                                     Problems& problems) {
  std::ifstream file;
  if (name != "-") {
    std::error_code error;
    if (std::filesystem::is_directory(name, error)) {
      add(problems, "is a folder; a file is needed");
      return std::nullopt;
    }
    errno = 0;
    file.open(name, std::ios::binary);
    if (!file) {
      add(problems, "cannot be opened (" + reason() + "); check its name");
      return std::nullopt;
    }
  }
  std::istream& source = name == "-" ? in : file;
  std::string text;
  char block[64 * 1024];
  while (text.size() <= most && (source.read(block, sizeof block), source.gcount() > 0)) {
    text.append(block, static_cast<std::size_t>(source.gcount()));
  }
  if (text.size() > most) {
    add(problems, "is too long; at most " + std::to_string(most) + " bytes are read");
    return std::nullopt;
  }
  if (source.bad()) {
    add(problems, "cannot be read (" + reason() + ")");
    return std::nullopt;
  }
  return text;
}

std::vector<std::string> files_below(const std::filesystem::path& folder, std::string_view ending) {
  std::vector<std::string> files;
  std::error_code error;
  for (std::filesystem::recursive_directory_iterator at(folder, error), end; !error && at != end;
       at.increment(error)) {
    std::string name = at->path().string();
    if (at->is_regular_file(error) && name.size() >= ending.size() &&
        name.compare(name.size() - ending.size(), ending.size(), ending) == 0) {
      files.push_back(std::move(name));
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

bool write_text(const std::filesystem::path& file, std::string_view text, Readers readers,
                Problems& problems) {
  const std::string temporary = file.string() + ".new";
  const mode_t mode = readers == Readers::owner_only ? 0600 : 0644;
  const int descriptor =
      ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, mode);
  if (descriptor < 0) {
    add(problems, "cannot be written (" + reason() + "); check the folder");
    return false;
  }
  const bool written = (readers == Readers::everyone || ::fchmod(descriptor, mode) == 0) &&
                       write_all(descriptor, text);
  const bool closed = ::close(descriptor) == 0;
  if (!written || !closed || std::rename(temporary.c_str(), file.c_str()) != 0) {
    add(problems, "cannot be written (" + reason() + "); nothing was changed");
    ::unlink(temporary.c_str());
    return false;
  }
  return true;
}

}  // namespace trowelbell
