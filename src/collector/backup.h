// A copy of the database, made while a collector goes on writing.
#pragma once

#include "database_check.h"

namespace trowelbell::collector {

// A backup that was not made; the text says why and what to do. No file is left behind.
struct BackupError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// Copies the database `from` as it is at one moment into the new file `to`, for its owner alone,
// and gives what the copy holds. The file has its name only once the copy is checked to the last
// report and flushed; until then it is `to` with ".part" behind. Throws BackupError.
Content make_backup(const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace trowelbell::collector
