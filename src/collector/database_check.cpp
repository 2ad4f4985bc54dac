#include "database_check.h"

#include <condition_variable>
#include <mutex>
#include <thread>

#include "digest.h"

namespace trowelbell::collector {
namespace {

// Stops what runs on a connection when the time is up, and again in case it had not begun.
class Deadline {
 public:
  Deadline(Database& database, std::chrono::milliseconds patience)
      : thread_([connection = database.handle(), patience](const std::stop_token& stop) {
          std::mutex mutex;
          std::unique_lock lock(mutex);
          std::condition_variable_any never;
          never.wait_for(lock, stop, patience, [] { return false; });
          while (!stop.stop_requested()) {
            sqlite3_interrupt(connection);
            never.wait_for(lock, stop, std::chrono::milliseconds(5), [] { return false; });
          }
        }) {}

 private:
  std::jthread thread_;
};

void check(Database& database, const char* pragma) {
  Statement query(database, pragma);
  Rows rows = query.start();
  if (!rows.next()) throw DamagedError("the check gave no answer");
  if (rows.bytes(0) == "ok") return;
  // The finding stands behind a heading on a line of its own.
  const std::string_view text = rows.bytes(0);
  throw DamagedError(std::string(text.substr(text.rfind('\n') + 1)));
}

}  // namespace

bool check_structure(Database& database, std::chrono::milliseconds patience) {
  const Deadline deadline(database, patience);
  try {
    check(database, "PRAGMA quick_check(1)");
    return true;
  } catch (const DamagedError&) {
    throw;
  } catch (const DatabaseError&) {
    if (sqlite3_errcode(database.handle()) != SQLITE_INTERRUPT) throw;
    return false;
  }
}

Content check_everything(Database& database) {
  check(database, "PRAGMA integrity_check(1)");
  Content content;
  Statement visits(database, "SELECT count(*) FROM visits");
  Rows count = visits.start();
  if (count.next()) content.visits = count.whole(0);
  Statement reports(database, "SELECT digest, body FROM reports");
  for (Rows rows = reports.start(); rows.next(); ++content.reports)
    if (hex(sha256(rows.bytes(1))) != rows.bytes(0))
      throw DamagedError("a stored report is not what was received");
  return content;
}

}  // namespace trowelbell::collector
