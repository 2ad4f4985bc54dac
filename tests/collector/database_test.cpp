#include "collector/database.h"

#include <doctest/doctest.h>

#include "support.h"

namespace trowelbell::collector {
namespace {

using testing::TempFolder;

std::string answer(Database& database, const char* sql) {
  Statement query(database, sql);
  Rows rows = query.start();
  REQUIRE(rows.next());
  return rows.text(0);
}

}  // namespace

TEST_CASE("a commit is on the disk before it returns, and the log is written ahead") {
  // SQLite's documentation, "PRAGMA synchronous": 2 is FULL; "PRAGMA journal_mode": wal.
  const TempFolder folder;
  Database database = Database::for_writing(folder.path() / "a.db");
  CHECK(answer(database, "PRAGMA synchronous") == "2");
  CHECK(answer(database, "PRAGMA journal_mode") == "wal");
  CHECK(answer(database, "PRAGMA foreign_keys") == "1");
}

TEST_CASE("a transaction that is not committed leaves nothing") {
  const TempFolder folder;
  Database database = Database::for_writing(folder.path() / "a.db");
  database.execute("CREATE TABLE t (x TEXT) STRICT");
  {
    const Transaction dropped(database);
    database.execute("INSERT INTO t VALUES ('dropped')");
  }
  Transaction kept(database);
  database.execute("INSERT INTO t VALUES ('kept')");
  kept.commit();
  CHECK(answer(database, "SELECT count(*) FROM t") == "1");
}

TEST_CASE("bytes go in and come out as they are") {
  const TempFolder folder;
  Database database = Database::for_writing(folder.path() / "a.db");
  database.execute("CREATE TABLE t (n INTEGER, x TEXT, b BLOB) STRICT");
  Statement insert(database, "INSERT INTO t VALUES (?1, ?2, ?3)");
  const std::string text = "ñandú';--";
  const std::string_view bytes("\0\x01\xff", 3);
  insert.run(std::int64_t{-9'007'199'254'740'991}, text, Blob{bytes});
  insert.run(std::int64_t{0}, std::string_view(), Blob{bytes});
  Statement query(database, "SELECT n, x, b FROM t ORDER BY n");
  Rows rows = query.start();
  REQUIRE(rows.next());
  CHECK(rows.whole(0) == -9'007'199'254'740'991);
  CHECK(rows.bytes(1) == text);
  CHECK(rows.bytes(2) == bytes);
  REQUIRE(rows.next());
  CHECK_FALSE(rows.is_null(1));  // an empty text is no NULL
  CHECK_FALSE(rows.next());
}

TEST_CASE("what SQLite refuses is an error that names it") {
  const TempFolder folder;
  CHECK_THROWS_AS(Database::for_reading(folder.path() / "none.db"), DatabaseError);
  Database database = Database::for_writing(folder.path() / "a.db");
  CHECK_THROWS_AS(Statement(database, "SELECT x FROM nowhere"), DatabaseError);
  CHECK_THROWS_AS(database.execute("INSERT INTO nowhere VALUES (1)"), DatabaseError);
}

}  // namespace trowelbell::collector
