// Reading what has been stored, beside the writer and from several threads at once.
#pragma once

#include <condition_variable>
#include <mutex>

#include "database.h"
#include "digest.h"
#include "records.h"

namespace trowelbell::collector {

class Archive {
 public:
  // `connections`: as many calls as may run at once; one more waits.
  Archive(const std::filesystem::path& file, int connections);
  ~Archive();
  Archive(const Archive&) = delete;
  Archive& operator=(const Archive&) = delete;

  // The digest of the visit's key, or nothing for a visit that no brief named.
  std::optional<Digest> key_digest(std::string_view visit);
  // Throws DamagedError where its bytes are no longer those that were confirmed.
  std::optional<StoredReport> latest(std::string_view visit);
  // The page and the totals are of one moment.
  VisitPage visits(const VisitQuery& query);

 private:
  struct Desk;   // one connection with its prepared statements
  class Borrow;  // a desk, given back when it goes

  std::mutex mutex_;
  std::condition_variable returned_;
  std::vector<std::unique_ptr<Desk>> free_;
};

}  // namespace trowelbell::collector
