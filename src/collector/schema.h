// The collector's tables, and how an older file is brought up to them.
#pragma once

#include "database.h"

namespace trowelbell::collector {

inline constexpr int kSchemaVersion = 1;

// Makes the tables in a new file. Refuses a file that a newer collector made, unchanged.
void prepare_schema(Database& database);

}  // namespace trowelbell::collector
