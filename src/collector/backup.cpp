#include "backup.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

namespace trowelbell::collector {
namespace {

namespace fs = std::filesystem;

BackupError taken(const fs::path& file) {
  return BackupError(file.string() + " is there already. Choose another name for the backup.");
}

void flush(const fs::path& path) {
  const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC);
  const bool flushed = descriptor >= 0 && fsync(descriptor) == 0;
  if (descriptor >= 0) close(descriptor);
  if (!flushed) throw BackupError("Cannot flush " + path.string() + ": " + std::strerror(errno));
}

// The file while it is made: goes again unless it gets its name.
class Part {
 public:
  explicit Part(const fs::path& to) : to_(to), path_(to.string() + ".part") {
    if (fs::exists(to)) throw taken(to);
    const int descriptor = open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    if (descriptor < 0 && errno == EEXIST)
      throw BackupError(path_.string() +
                        " is there: another backup is under way, or one was cut off. If none "
                        "runs, delete it and try again.");
    if (descriptor < 0)
      throw BackupError("Cannot make " + path_.string() + ": " + std::strerror(errno) +
                        ". Name a file in a folder that can be written.");
    close(descriptor);
  }
  Part(const Part&) = delete;
  Part& operator=(const Part&) = delete;
  ~Part() {
    if (!named_) unlink(path_.c_str());
  }
  const fs::path& path() const { return path_; }

  void give_name() {
    flush(path_);
    if (renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, to_.c_str(), RENAME_NOREPLACE) != 0)
      throw errno == EEXIST
          ? taken(to_)
          : BackupError("Cannot name " + to_.string() + ": " + std::strerror(errno));
    named_ = true;
    flush(to_.has_parent_path() ? to_.parent_path() : ".");
  }

 private:
  fs::path to_, path_;
  bool named_ = false;
};

// In one step, so under one read transaction: the collector's writing neither changes the copy nor
// makes it start anew.
void copy(Database& from, Database& to) {
  sqlite3_backup* backup = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
  if (backup != nullptr) sqlite3_backup_step(backup, -1);
  if (backup == nullptr || sqlite3_backup_finish(backup) != SQLITE_OK)
    throw DatabaseError(sqlite3_errmsg(to.handle()));
}

std::int64_t count_reports(const Database& database) {
  Statement query(database, "SELECT count(*) FROM reports");
  Rows rows = query.start();
  return rows.next() ? rows.whole(0) : -1;
}

Content copy_and_check(const fs::path& from, const fs::path& to) {
  Database source = Database::for_reading(from);
  const Transaction one_moment(source, "BEGIN");
  const std::int64_t reports = count_reports(source);
  Database target = Database::for_copying(to);
  copy(source, target);
  target.execute("PRAGMA journal_mode = DELETE");  // a copy of a log-keeping file wants one, too
  const Content content = check_everything(target);
  if (content.reports != reports) throw DamagedError("reports are missing from the copy");
  return content;
}

}  // namespace

Content make_backup(const fs::path& from, const fs::path& to) {
  if (!fs::exists(from))
    throw BackupError("There is no database " + from.string() +
                      ". Name the collector's folder with --data.");
  Part part(to);
  try {
    const Content content = copy_and_check(from, part.path());
    part.give_name();
    return content;
  } catch (const DamagedError& error) {
    throw BackupError("No backup was made: " + from.string() + " is damaged (" + error.what() +
                      "). Keep it and the backups there are, and bring back the newest of them.");
  } catch (const DatabaseError& error) {
    throw BackupError("No backup was made of " + from.string() + " (" + error.what() +
                      "). Check that the disk has room for a second copy and that the data folder "
                      "can be read and written.");
  }
}

}  // namespace trowelbell::collector
