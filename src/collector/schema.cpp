#include "schema.h"

namespace trowelbell::collector {
namespace {

// visits: what the briefs say; the key only as its SHA-256.
// reports: every body as it came. `facts` stands before `body` so that a list never reads bodies.
// latest: one narrow row a visit, from its newest report; totals are sums over it.
constexpr const char* kTables = R"sql(
CREATE TABLE visits (
  visit TEXT PRIMARY KEY,
  key_digest BLOB NOT NULL,
  date TEXT NOT NULL,
  facts TEXT NOT NULL,
  reported INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE INDEX visits_by_date ON visits (date, visit);
CREATE INDEX visits_by_state ON visits (reported, date, visit);

CREATE TABLE reports (
  visit TEXT NOT NULL REFERENCES visits (visit),
  device TEXT NOT NULL,
  revision INTEGER NOT NULL,
  digest TEXT NOT NULL,
  received_at INTEGER NOT NULL,
  facts TEXT NOT NULL,
  body TEXT NOT NULL,
  PRIMARY KEY (visit, device, revision)
) STRICT;

CREATE TABLE latest (
  visit TEXT PRIMARY KEY REFERENCES visits (visit),
  device TEXT NOT NULL,
  revision INTEGER NOT NULL,
  reports INTEGER NOT NULL,
  came INTEGER NOT NULL,
  present INTEGER NOT NULL,
  absent INTEGER NOT NULL,
  kits_given INTEGER NOT NULL,
  mishaps INTEGER NOT NULL,
  adult_minutes INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
)sql";

}  // namespace

void prepare_schema(Database& database) {
  Transaction transaction(database);
  std::int64_t version = 0;
  {
    Statement query(database, "PRAGMA user_version");
    Rows rows = query.start();
    if (rows.next()) version = rows.whole(0);
  }
  if (version > kSchemaVersion)
    throw DatabaseError("a newer trowelbell-collector made it; update this one");
  if (version == 0) {
    database.execute(kTables);
    database.execute(("PRAGMA user_version = " + std::to_string(kSchemaVersion)).c_str());
  }
  transaction.commit();
}

}  // namespace trowelbell::collector
