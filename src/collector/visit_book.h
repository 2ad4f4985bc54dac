// The briefs a collector knows: read from files, checked, and written into its visits.
#pragma once

#include <filesystem>
#include <vector>

#include "database.h"
#include "digest.h"

namespace trowelbell::collector {

// A brief that cannot be taken in; the text names the file, what is wrong, and what is allowed.
struct BriefError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct VisitEntry {
  std::string visit;
  Digest key_digest{};
  std::string date;
  std::string facts;  // JSON
};

// Every path is a brief or a folder of *.brief.json. Throws BriefError for the first that is not in
// order, and for two different briefs of one visit.
std::vector<VisitEntry> read_briefs(const std::vector<std::filesystem::path>& paths);

struct ImportCount {
  int added = 0;
  int changed = 0;
  int as_before = 0;
};
// All or nothing, in one transaction.
ImportCount import_visits(Database& database, const std::vector<VisitEntry>& entries);

}  // namespace trowelbell::collector
