// A disk beneath SQLite that fills up, refuses, or loses its power. While one lives, every
// connection that this process opens goes through it (sqlite.org/vfs.html). Reads and writes go to
// real files; what a power cut would leave of them is kept in memory.
//
// The model of a power cut: all that was flushed is there. Of each write since the last flush of
// its file any part may be there or not, in any order, cut at a sector of 512 bytes. Not modelled:
// a disk that lies about a flush, and names of files (making and deleting one counts at once).
#pragma once

#include <sqlite3.h>

#include <filesystem>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <vector>

namespace trowelbell::fault {

enum class Trouble {
  none,
  full,       // no file can grow
  read_only,  // no write succeeds
  no_flush    // writes succeed, flushes fail
};

class FaultyDisk {
 public:
  using Files = std::map<std::filesystem::path, std::string>;  // by name in their folder

  FaultyDisk();
  ~FaultyDisk();
  FaultyDisk(const FaultyDisk&) = delete;
  FaultyDisk& operator=(const FaultyDisk&) = delete;

  void set(Trouble trouble);
  // What the database files in a folder hold when the power fails now.
  Files after_power_cut(const std::filesystem::path& folder, std::uint64_t seed);
  // None of them is open any more.
  void forget_folder(const std::filesystem::path& folder);
  // Called before each write and each flush takes effect, on the thread that does it.
  std::function<void()> on_write;

  // For the file methods below it.
  struct Change {
    sqlite3_int64 at = 0;
    std::string bytes;
    bool cut = false;  // the file now ends at `at`
  };
  struct Content {
    std::string flushed;
    std::vector<Change> since;
  };
  int open(sqlite3_filename name, sqlite3_file* file, int flags, int* flags_out);
  void forget(const char* name);
  int write(const std::string& name, sqlite3_int64 size, Change change);
  int flush(const std::string& name);
  sqlite3_vfs* base() const { return base_; }

 private:
  sqlite3_vfs* base_;
  sqlite3_vfs own_{};
  std::mutex mutex_;
  std::map<std::string, Content> contents_;
  Trouble trouble_ = Trouble::none;
};

}  // namespace trowelbell::fault
