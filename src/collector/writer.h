// The one thread that writes reports. Whatever has queued while it was at the disk goes into the
// next transaction, so one flush serves many phones; nobody is told "received" before that flush.
#pragma once

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

#include "database.h"
#include "records.h"

namespace trowelbell::collector {

class Writer {
 public:
  using Done = std::function<void(const Outcome&)>;

  // Takes over a prepared database. `most_queued`: reports that may wait; more are turned away.
  explicit Writer(Database database, std::size_t most_queued = 1024);
  ~Writer();
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;

  // Queues a report; `done` is called once on the writer's thread after the flush, and must be
  // quick. False, and nothing called: the queue is full or the writer has stopped. `report` must
  // stay unchanged until `done`.
  bool submit(const NewReport& report, Done done);

  // Writes everything queued, then ends the thread. Later reports are turned away.
  void stop();

  std::int64_t reports() const { return reports_; }  // in the database
  std::int64_t commits() const { return commits_; }  // since the start

 private:
  struct Job {
    const NewReport* report;
    Done done;
  };
  class Tables;

  void work();
  void write(const std::vector<Job>& batch);
  void tell(const std::string& trouble);

  Database database_;
  std::unique_ptr<Tables> tables_;
  const std::size_t most_queued_;
  std::atomic<std::int64_t> reports_{0};
  std::atomic<std::int64_t> commits_{0};
  std::mutex mutex_;
  std::condition_variable queued_;
  std::vector<Job> queue_;
  std::string trouble_;  // why the last commit failed; "" when it did not
  bool stopping_ = false;
  std::thread thread_;
};

}  // namespace trowelbell::collector
