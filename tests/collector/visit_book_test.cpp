#include "collector/visit_book.h"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include "collector/authority.h"
#include "collector/schema.h"
#include "support.h"

namespace trowelbell::collector {
namespace {

using namespace testing;

std::string refusal(const std::vector<std::filesystem::path>& paths) {
  try {
    read_briefs(paths);
  } catch (const BriefError& error) {
    return error.what();
  }
  return "";
}

}  // namespace

TEST_CASE("briefs come from files and folders, and again change nothing") {
  const TempFolder folder;
  folder.write("briefs/a.brief.json", brief("a", kKey).dump());
  folder.write("briefs/b.brief.json", brief("b", kOtherKey).dump(2));
  folder.write("briefs/notes.txt", "not a brief");
  const auto single = folder.write("c.json", brief("c", kKey).dump());
  Database database = Database::for_writing(folder.path() / "collector.db");
  prepare_schema(database);

  const auto import = [&] {
    return import_visits(database, read_briefs({folder.path() / "briefs", single}));
  };
  ImportCount count = import();
  CHECK(count.added == 3);
  count = import();
  CHECK(count.as_before == 3);
  CHECK(count.added + count.changed == 0);

  folder.write("briefs/b.brief.json", brief("b", kOtherKey, "2027-05-05").dump());
  count = import();
  CHECK(count.changed == 1);
  CHECK(count.as_before == 2);
  Statement query(database, "SELECT date FROM visits WHERE visit = 'b'");
  Rows rows = query.start();
  REQUIRE(rows.next());
  CHECK(rows.bytes(0) == "2027-05-05");
}

TEST_CASE("a changed brief keeps the visit's reports and its place among those reported") {
  House house;
  REQUIRE(house.ask(put(report_path("fern-k1"), dump_json(report("fern-k1")))).status == 201);
  Database database = Database::for_writing(house.file());
  const auto file = house.folder.write("new.brief.json", brief("fern-k1", kOtherKey).dump());
  CHECK(import_visits(database, read_briefs({file})).changed == 1);
  CHECK(house.ask(put(report_path("fern-k1"), dump_json(report("fern-k1")))).status == 401);
  CHECK(house.ask(put(report_path("fern-k1"), dump_json(report("fern-k1")), kOtherKey)).status ==
        200);
  const Json answer = body_of(house.ask(get("/v1/visits?show=in", kCoordinatorKey)));
  CHECK(answer["visits"].size() == 1);
}

TEST_CASE("a brief out of order is named, with its place") {
  const TempFolder folder;
  Json bad = brief("a", kKey);
  bad["children"] = 0;
  const auto file = folder.write("bad.brief.json", bad.dump());
  CHECK(refusal({file}).find("bad.brief.json") != std::string::npos);
  CHECK(refusal({file}).find("/children") != std::string::npos);
  CHECK(refusal({folder.write("no.brief.json", "{")}).find("no.brief.json") != std::string::npos);
  CHECK_FALSE(refusal({folder.path() / "missing"}).empty());
  CHECK_FALSE(refusal({folder.write("long.brief.json", std::string(70'000, ' '))}).empty());

  const auto one = folder.write("1.json", brief("a", kKey).dump());
  const auto two = folder.write("2.json", brief("a", kOtherKey).dump());
  CHECK(refusal({one, two}).find("Two different briefs") != std::string::npos);
  CHECK(refusal({one, one}).empty());
}

TEST_CASE("a database of a newer collector is left alone") {
  const TempFolder folder;
  Database database = Database::for_writing(folder.path() / "collector.db");
  prepare_schema(database);
  prepare_schema(database);  // again: nothing to do
  database.execute("PRAGMA user_version = 99");
  CHECK_THROWS_AS(prepare_schema(database), DatabaseError);
}

TEST_CASE("the coordinator's key is made once, for its owner's eyes only") {
  const TempFolder folder;
  const auto file = folder.path() / "key";
  const std::string key = coordinator_key(file);
  CHECK(key.size() == 32);
  CHECK(coordinator_key(file) == key);
  struct stat status {};
  REQUIRE(stat(file.c_str(), &status) == 0);
  CHECK((status.st_mode & 0777) == 0600);
  folder.write("short", "abc\n");
  CHECK_THROWS(coordinator_key(folder.path() / "short"));
  CHECK_THROWS(coordinator_key(folder.path() / "none/key"));
}

}  // namespace trowelbell::collector
