#include "writer.h"

#include <cstdio>

namespace trowelbell::collector {
namespace {

// A phone sends a handful of revisions a visit; far above that, something is wrong with it.
constexpr std::int64_t kMostReportsOfVisit = 2000;

}  // namespace

// The prepared statements of one report's way into the tables.
class Writer::Tables {
 public:
  explicit Tables(const Database& database)
      : find_(database,
              "SELECT digest, received_at FROM reports "
              "WHERE visit = ?1 AND device = ?2 AND revision = ?3"),
        insert_(database,
                "INSERT INTO reports (visit, device, revision, digest, received_at, facts, body) "
                "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)"),
        newest_(database, "SELECT reports, revision FROM latest WHERE visit = ?1"),
        count_(database, "UPDATE latest SET reports = reports + 1 WHERE visit = ?1"),
        replace_(database,
                 "INSERT OR REPLACE INTO latest (visit, device, revision, reports, came, present, "
                 "absent, kits_given, mishaps, adult_minutes) "
                 "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)"),
        mark_(database, "UPDATE visits SET reported = 1 WHERE visit = ?1") {}

  Outcome keep(const NewReport& report) {
    {
      Rows rows = find_.start(report.visit, report.device, report.revision);
      if (rows.next()) {
        const bool same = rows.bytes(0) == report.digest && !report.only_if_absent;
        return {same ? Kept::already : Kept::conflict, rows.whole(1)};
      }
    }
    std::int64_t reports = 0;
    std::int64_t newest = 0;
    {
      Rows rows = newest_.start(report.visit);
      if (rows.next()) {
        reports = rows.whole(0);
        newest = rows.whole(1);
      }
    }
    if (reports >= kMostReportsOfVisit) return {Kept::visit_full, 0};
    insert_.run(report.visit, report.device, report.revision, report.digest, report.received_at,
                report.facts, report.body);
    // Of two phones' reports with one revision, the one that came last counts.
    if (reports == 0 || report.revision >= newest) {
      const Sums& sums = report.sums;
      replace_.run(report.visit, report.device, report.revision, reports + 1, sums.came,
                   sums.present, sums.absent, sums.kits_given, sums.mishaps, sums.adult_minutes);
    } else {
      count_.run(report.visit);
    }
    if (reports == 0) mark_.run(report.visit);
    return {Kept::created, report.received_at};
  }

 private:
  Statement find_, insert_, newest_, count_, replace_, mark_;
};

Writer::Writer(Database database, std::size_t most_queued)
    : database_(std::move(database)),
      tables_(std::make_unique<Tables>(database_)),
      most_queued_(most_queued) {
  {
    Statement query(database_, "SELECT count(*) FROM reports");
    Rows rows = query.start();
    if (rows.next()) reports_ = rows.whole(0);
  }
  thread_ = std::thread([this] { work(); });
}

Writer::~Writer() {
  stop();
}

bool Writer::submit(const NewReport& report, Done done) {
  {
    const std::lock_guard lock(mutex_);
    if (stopping_ || queue_.size() >= most_queued_) return false;
    queue_.push_back({&report, std::move(done)});
  }
  queued_.notify_one();
  return true;
}

void Writer::stop() {
  {
    const std::lock_guard lock(mutex_);
    stopping_ = true;
  }
  queued_.notify_one();
  if (thread_.joinable()) thread_.join();
}

void Writer::work() {
  std::vector<Job> batch;
  for (;;) {
    {
      std::unique_lock lock(mutex_);
      queued_.wait(lock, [this] { return stopping_ || !queue_.empty(); });
      if (queue_.empty()) return;
      batch.swap(queue_);
    }
    write(batch);
    batch.clear();
  }
}

void Writer::write(const std::vector<Job>& batch) {
  std::vector<Outcome> outcomes(batch.size());
  std::string trouble;
  try {
    Transaction transaction(database_);
    std::int64_t created = 0;
    for (std::size_t i = 0; i < batch.size(); ++i) {
      outcomes[i] = tables_->keep(*batch[i].report);
      created += outcomes[i].kept == Kept::created ? 1 : 0;
    }
    transaction.commit();
    reports_ += created;
    ++commits_;
  } catch (const DatabaseError& error) {
    outcomes.assign(batch.size(), Outcome{});
    trouble = error.what();
  }
  tell(trouble);
  for (std::size_t i = 0; i < batch.size(); ++i) batch[i].done(outcomes[i]);
}

// Once for each change: phones come back for hours, and the log may be on the same full disk.
void Writer::tell(const std::string& trouble) {
  if (trouble == trouble_) return;
  trouble_ = trouble;
  std::fprintf(
      stderr, "trowelbell-collector: %s%s\n",
      trouble.empty() ? "reports are stored again" : "nothing was stored: ", trouble.c_str());
}

}  // namespace trowelbell::collector
