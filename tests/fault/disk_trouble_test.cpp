// A disk that is full, read-only, broken or damaged: the collector says so, goes on showing what it
// has, and goes on taking in reports as soon as it can.
#include <doctest/doctest.h>
#include <sched.h>
#include <sys/mount.h>

#include <algorithm>
#include <csignal>
#include <fstream>

#include "collector/database_check.h"
#include "data_folder.h"
#include "luck.h"
#include "simulated_collector.h"
#include "tests/collector/client.h"
#include "tests/collector/program.h"

namespace trowelbell::fault {
namespace {

using namespace collector::testing;
using collector::Response;

constexpr const char* kVisit = "visit-0";

std::string body_of_revision(std::int64_t revision) {
  return dump_json(report(kVisit, kDevice, revision));
}

std::string target(std::int64_t revision) {
  return collector::testing::report_path(kVisit, kDevice, revision);
}

// RFC 9110, 10.2.3 and 15.6.4; RFC 9457.
void check_unavailable(int status, const std::string& type, const std::string& retry_after) {
  CHECK(status == 503);
  CHECK(type == "application/problem+json");
  CHECK_FALSE(retry_after.empty());
}

// A small file system of its own, seen by this process and its children only, gone with the object.
// Only root can make one.
class SmallDisk {
 public:
  explicit SmallDisk(const char* size) {
    mounted_ = unshare(CLONE_NEWNS) == 0 &&
               mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
               mount("tmpfs", folder_.path().c_str(), "tmpfs", 0, size) == 0;
  }
  ~SmallDisk() {
    if (mounted_) umount2(folder_.path().c_str(), MNT_DETACH);
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  bool there() const { return mounted_; }
  const std::filesystem::path& path() const { return folder_.path(); }
  bool set_read_only(bool read_only) const {
    const unsigned long flags = read_only ? MS_REMOUNT | MS_RDONLY : MS_REMOUNT;
    return mount("tmpfs", path().c_str(), "tmpfs", flags, nullptr) == 0;
  }

 private:
  TempFolder folder_;
  bool mounted_ = false;
};

std::string field(const Answer& answer, const std::string& name) {
  const auto found = answer.fields.find(name);
  return found == answer.fields.end() ? "" : found->second;
}

bool one_line(const std::string& text) {
  return std::ranges::count(text, '\n') == 1 && text.back() == '\n';
}

// A start that must fail: status 1, one line, nothing on standard output.
std::string refusal(const std::vector<std::string>& arguments) {
  Program program(arguments);
  CHECK(program.wait() == 1);
  CHECK(program.output().empty());
  CHECK(one_line(program.messages()));
  return program.messages();
}

// Fills what is left of a disk, down to the last page.
void fill(const std::filesystem::path& file) {
  std::ofstream stream(file, std::ios::binary);
  const std::string block(64 * 1024, 'x');
  while (stream.write(block.data(), static_cast<std::streamsize>(block.size()))) {
  }
}

// `reports` reports in a closed database without a log beside it.
void make_database(const DataFolder& home, int reports) {
  Program program(home.arguments());
  const unsigned short port = program.port();
  REQUIRE(port != 0);
  Connection connection(port);
  for (int revision = 1; revision <= reports; ++revision)
    REQUIRE(connection.ask(put_text(target(revision), kKey, body_of_revision(revision)))->status ==
            201);
  program.signal(SIGTERM);
  REQUIRE(program.wait() == 0);
  REQUIRE_FALSE(std::filesystem::exists(home.database().string() + "-wal"));
}

}  // namespace

TEST_CASE("whatever the disk refuses: 503 with Retry-After, reads go on, and it recovers") {
  for (const Trouble trouble : {Trouble::full, Trouble::read_only, Trouble::no_flush}) {
    CAPTURE(static_cast<int>(trouble));
    FaultyDisk disk;
    SimulatedCollector collector(disk);
    collector.know(kVisit, kKey);
    CHECK(collector.put(target(1), body_of_revision(1), kKey).status == 201);

    disk.set(trouble);
    // A full disk may have some room left in what the log has taken already.
    std::int64_t revision = 1;
    int status = 201;
    while (status == 201 && revision < 3000) {
      ++revision;
      const Response answer = collector.put(target(revision), body_of_revision(revision), kKey);
      status = answer.status;
      if (status == 201) continue;
      check_unavailable(answer.status, std::string(answer.field("Content-Type")),
                        std::string(answer.field("Retry-After")));
    }
    CHECK(status == 503);
    CHECK(collector.latest(kVisit) == body_of_revision(revision - 1));
    CHECK(collector.ask(get("/v1/health")).status == 200);
    CHECK(collector.ask(get("/v1/visits", kCoordinatorKey)).status == 200);
    CHECK(static_cast<std::int64_t>(collector.rows(kVisit).size()) == revision - 1);

    disk.set(Trouble::none);
    CHECK(collector.put(target(revision), body_of_revision(revision), kKey).status == 201);
    CHECK(collector.latest(kVisit) == body_of_revision(revision));
    collector.lose_power(1);
    CHECK(static_cast<std::int64_t>(collector.rows(kVisit).size()) == revision);
  }
}

TEST_CASE("a full file system beneath the running collector") {
  const SmallDisk disk("size=2m");
  if (!disk.there()) {
    MESSAGE("not run: only root can make a small file system");
    return;
  }
  const DataFolder home;
  Program program(home.arguments(disk.path()));
  const unsigned short port = program.port();
  REQUIRE(port != 0);
  const std::string output = program.output();
  const std::string key = output.substr(output.find("#key=") + 5, 32);
  Connection connection(port);
  const auto ask = [&](std::int64_t revision) {
    const auto answer =
        connection.ask(put_text(target(revision), kKey, body_of_revision(revision)));
    REQUIRE(answer);
    return *answer;
  };
  CHECK(ask(1).status == 201);
  fill(disk.path() / "filler");
  std::int64_t revision = 2;
  Answer answer = ask(revision);
  while (answer.status == 201 && revision < 1000) answer = ask(++revision);
  check_unavailable(answer.status, field(answer, "content-type"), field(answer, "retry-after"));
  CHECK(ask(revision).status == 503);
  CHECK(one_line(program.messages()));  // told once, not for each phone that comes back
  CHECK(program.messages().find("full") != std::string::npos);

  const auto list = connection.ask(get_text("/v1/visits", "Authorization: Bearer " + key + "\r\n"));
  REQUIRE(list);
  CHECK(list->status == 200);
  const auto latest = connection.ask(
      get_text("/v1/visits/visit-0/reports/latest", "Authorization: Bearer " + key + "\r\n"));
  REQUIRE(latest);
  CHECK(latest->body == body_of_revision(revision - 1));

  std::filesystem::remove(disk.path() / "filler");
  CHECK(ask(revision).status == 201);
  CHECK(ask(1).status == 200);
  program.signal(SIGKILL);
  CHECK(program.wait() == -1);
  CHECK(static_cast<std::int64_t>(rows_of(disk.path() / "collector.db").size()) == revision);
}

TEST_CASE("a read-only file system: no start, and nothing is lost by it") {
  const SmallDisk disk("size=2m");
  if (!disk.there()) {
    MESSAGE("not run: only root can make a small file system");
    return;
  }
  const DataFolder home;
  {
    Program program(home.arguments(disk.path()));
    const unsigned short port = program.port();
    REQUIRE(port != 0);
    Connection connection(port);
    CHECK(connection.ask(put_text(target(1), kKey, body_of_revision(1)))->status == 201);
    program.signal(SIGKILL);
    CHECK(program.wait() == -1);
  }
  REQUIRE(disk.set_read_only(true));
  const std::string why = refusal(home.arguments(disk.path()));
  CHECK(why.find("--data") != std::string::npos);
  CHECK(why.find("can be written") != std::string::npos);
  REQUIRE(disk.set_read_only(false));
  Program program(home.arguments(disk.path()));
  const unsigned short port = program.port();
  REQUIRE(port != 0);
  Connection connection(port);
  CHECK(connection.ask(put_text(target(1), kKey, body_of_revision(1)))->status == 200);
}

TEST_CASE("a damaged page: no start, and a sentence that says to bring back a backup") {
  const DataFolder home;
  make_database(home, 40);
  const std::string good = [&] {
    std::ifstream stream(home.database(), std::ios::binary);
    return std::string{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  }();
  // SQLite's file format, "B-tree Pages": a page begins with its kind (2, 5, 10 or 13), then where
  // its free blocks, cells and cell area begin. Every page that is such a page loses that.
  constexpr std::size_t kPage = 4096;
  int pages = 0;
  for (std::size_t at = kPage; at < good.size(); at += kPage) {
    const char kind = good[at];
    if (kind != 2 && kind != 5 && kind != 10 && kind != 13) continue;
    ++pages;
    CAPTURE(at / kPage);
    std::string bad = good;
    std::fill_n(bad.begin() + static_cast<std::ptrdiff_t>(at), 8, '\xFF');
    std::ofstream(home.database(), std::ios::binary) << bad;
    const std::string why = refusal(home.arguments());
    CHECK(why.find("damaged") != std::string::npos);
    CHECK(why.find("backup") != std::string::npos);
  }
  CHECK(pages > 5);
  std::ofstream(home.database(), std::ios::binary) << good.substr(0, good.size() / 2);
  CHECK(refusal(home.arguments()).find("damaged") != std::string::npos);
  std::ofstream(home.database(), std::ios::binary) << good;
  Program program(home.arguments());
  CHECK(program.port() != 0);
}

TEST_CASE("a report whose bytes have changed on the disk is not shown") {
  FaultyDisk disk;
  SimulatedCollector collector(disk);
  collector.know(kVisit, kKey);
  CHECK(collector.put(target(1), body_of_revision(1), kKey).status == 201);
  collector.spoil("UPDATE reports SET body = replace(body, 'Warm', 'Cold')");
  CHECK_THROWS_AS(collector.latest(kVisit), collector::DamagedError);
}

TEST_CASE("the check at the start is bounded in time, and complete when it has the time") {
  const TempFolder folder;
  collector::Database database = collector::Database::for_writing(folder.path() / "large.db");
  database.execute(
      "CREATE TABLE t (x TEXT) STRICT; WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 "
      "FROM n WHERE i < 300000) INSERT INTO t SELECT printf('%0200d', i) FROM n");
  CHECK_FALSE(check_structure(database, std::chrono::milliseconds(0)));
  CHECK(check_structure(database, std::chrono::minutes(10)));
}

}  // namespace trowelbell::fault
