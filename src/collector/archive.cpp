#include "archive.h"

#include <algorithm>

namespace trowelbell::collector {
namespace {

// A page of visits, newest first, with what a list shows of each one's newest report. One query for
// each choice, so that each walks its own index and stops at the limit.
std::string page_sql(const char* condition) {
  return std::string(
             "SELECT v.visit, v.date, v.facts, l.reports, r.facts FROM visits v "
             "LEFT JOIN latest l ON l.visit = v.visit "
             "LEFT JOIN reports r "
             "ON r.visit = l.visit AND r.device = l.device AND r.revision = l.revision "
             "WHERE (v.date, v.visit) < (?1, ?2) ") +
         condition + " ORDER BY v.date DESC, v.visit DESC LIMIT ?3";
}

}  // namespace

struct Archive::Desk {
  explicit Desk(const std::filesystem::path& file)
      : database(Database::for_reading(file)),
        key(database, "SELECT key_digest FROM visits WHERE visit = ?1"),
        latest(database,
               "SELECT r.body, r.digest FROM latest l JOIN reports r "
               "ON r.visit = l.visit AND r.device = l.device AND r.revision = l.revision "
               "WHERE l.visit = ?1"),
        all(database, page_sql("")),
        waiting(database, page_sql("AND v.reported = 0")),
        in(database, page_sql("AND v.reported = 1")),
        totals(database,
               "SELECT (SELECT count(*) FROM visits), count(*), sum(came), sum(present), "
               "sum(absent), sum(kits_given), sum(mishaps), sum(adult_minutes) FROM latest") {}

  Statement& page(Show show) {
    return show == Show::waiting ? waiting : show == Show::in ? in : all;
  }

  Database database;
  Statement key, latest, all, waiting, in, totals;
};

class Archive::Borrow {
 public:
  explicit Borrow(Archive& archive) : archive_(archive) {
    std::unique_lock lock(archive_.mutex_);
    archive_.returned_.wait(lock, [this] { return !archive_.free_.empty(); });
    desk_ = std::move(archive_.free_.back());
    archive_.free_.pop_back();
  }
  Borrow(const Borrow&) = delete;
  Borrow& operator=(const Borrow&) = delete;
  ~Borrow() {
    {
      const std::lock_guard lock(archive_.mutex_);
      archive_.free_.push_back(std::move(desk_));  // never grows: its place is still reserved
    }
    archive_.returned_.notify_one();
  }
  Desk* operator->() const { return desk_.get(); }

 private:
  Archive& archive_;
  std::unique_ptr<Desk> desk_;
};

Archive::Archive(const std::filesystem::path& file, int connections) {
  for (int i = 0; i < connections; ++i) free_.push_back(std::make_unique<Desk>(file));
}

Archive::~Archive() = default;

std::optional<Digest> Archive::key_digest(std::string_view visit) {
  const Borrow desk(*this);
  Rows rows = desk->key.start(visit);
  Digest digest{};
  if (!rows.next() || rows.bytes(0).size() != digest.size()) return std::nullopt;
  std::ranges::copy(rows.bytes(0), digest.begin());
  return digest;
}

std::optional<StoredReport> Archive::latest(std::string_view visit) {
  const Borrow desk(*this);
  Rows rows = desk->latest.start(visit);
  if (!rows.next()) return std::nullopt;
  StoredReport report{rows.text(0), rows.text(1)};
  if (hex(sha256(report.body)) != report.digest)
    throw DamagedError("a stored report is not what was received; bring back a backup");
  return report;
}

VisitPage Archive::visits(const VisitQuery& query) {
  const Borrow desk(*this);
  Transaction one_moment(desk->database, "BEGIN");
  VisitPage page;
  {
    Rows rows = desk->page(query.show).start(query.after_date, query.after_visit, query.most + 1);
    while (rows.next()) {
      VisitRow row{rows.text(0), rows.text(1), rows.text(2), rows.whole(3), std::nullopt};
      if (!rows.is_null(4)) row.latest = rows.text(4);
      page.visits.push_back(std::move(row));
    }
  }
  page.more = static_cast<std::int64_t>(page.visits.size()) > query.most;
  if (page.more) page.visits.pop_back();
  Rows rows = desk->totals.start();
  if (rows.next())
    page.totals = {
        rows.whole(0),
        rows.whole(1),
        {rows.whole(2), rows.whole(3), rows.whole(4), rows.whole(5), rows.whole(6), rows.whole(7)}};
  return page;
}

}  // namespace trowelbell::collector
