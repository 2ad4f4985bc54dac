// Whether a database still holds what was written into it.
#pragma once

#include <chrono>

#include "database.h"

namespace trowelbell::collector {

// Both throw DamagedError, which names the first thing that is wrong.

// Every page, row and index has its place (SQLite's quick check). False where `patience` ran out
// before the end: what was looked at is in order.
bool check_structure(Database& database, std::chrono::milliseconds patience);

struct Content {
  std::int64_t visits = 0;
  std::int64_t reports = 0;
};
// All of it, however long it takes: the structure (SQLite's integrity check), and every report's
// bytes against its digest.
Content check_everything(Database& database);

}  // namespace trowelbell::collector
