#include "collector/writer.h"

#include <doctest/doctest.h>

#include <future>
#include <latch>
#include <map>

#include "collector/schema.h"
#include "support.h"

namespace trowelbell::collector {
namespace {

using namespace testing;

NewReport row(std::int64_t revision, std::string body = "{}") {
  const std::string digest = hex(sha256(body));
  return {"fern-k1", kDevice, revision, std::move(body), digest, 5, "{}", {}, false};
}

std::int64_t count_rows(const std::filesystem::path& file) {
  const Database database = Database::for_reading(file);
  Statement query(database, "SELECT count(*) FROM reports");
  Rows rows = query.start();
  REQUIRE(rows.next());
  return rows.whole(0);
}

}  // namespace

TEST_CASE("of many senders of one report at once, one creates it and all are confirmed") {
  House house;
  constexpr int kSenders = 8;
  constexpr int kReports = 25;
  std::latch ready(kSenders);
  std::vector<std::future<std::map<Kept, int>>> senders;
  for (int i = 0; i < kSenders; ++i) {
    senders.push_back(std::async(std::launch::async, [&] {
      std::map<Kept, int> seen;
      ready.arrive_and_wait();
      for (int revision = 1; revision <= kReports; ++revision)
        ++seen[keep(*house.writer, row(revision)).kept];
      return seen;
    }));
  }
  std::map<Kept, int> seen;
  for (auto& sender : senders)
    for (const auto& [kept, times] : sender.get()) seen[kept] += times;
  CHECK(seen[Kept::created] == kReports);
  CHECK(seen[Kept::already] == (kSenders - 1) * kReports);
  CHECK(count_rows(house.file()) == kReports);
}

TEST_CASE("of different bodies at one address at once, exactly one is kept") {
  House house;
  constexpr int kSenders = 8;
  std::latch ready(kSenders);
  std::vector<std::future<Kept>> senders;
  for (int i = 0; i < kSenders; ++i) {
    senders.push_back(std::async(std::launch::async, [&, i] {
      const NewReport report = row(1, "{\"sender\":" + std::to_string(i) + "}");
      ready.arrive_and_wait();
      return keep(*house.writer, report).kept;
    }));
  }
  std::map<Kept, int> seen;
  for (auto& sender : senders) ++seen[sender.get()];
  CHECK(seen[Kept::created] == 1);
  CHECK(seen[Kept::conflict] == kSenders - 1);
}

TEST_CASE("what queues behind the disk shares a commit, and a full queue turns away") {
  House house(3);
  std::latch busy(1);
  std::latch release(1);
  const NewReport first = row(1);
  REQUIRE(house.writer->submit(first, [&](const Outcome&) {
    busy.count_down();
    release.wait();
  }));
  busy.wait();  // the writer stands in the callback, and the queue is empty
  std::vector<NewReport> waiting;
  for (int revision = 2; revision <= 5; ++revision) waiting.push_back(row(revision));
  std::latch done(3);
  const auto count = [&](const Outcome& outcome) {
    CHECK(outcome.kept == Kept::created);
    done.count_down();
  };
  CHECK(house.writer->submit(waiting[0], count));
  CHECK(house.writer->submit(waiting[1], count));
  CHECK(house.writer->submit(waiting[2], count));
  CHECK_FALSE(house.writer->submit(waiting[3], count));
  release.count_down();
  done.wait();
  CHECK(house.writer->commits() == 2);
  CHECK(count_rows(house.file()) == 4);
}

TEST_CASE("stopping writes what is queued and takes no more") {
  House house;
  std::vector<NewReport> reports;
  for (int revision = 1; revision <= 500; ++revision) reports.push_back(row(revision));
  std::atomic<int> created = 0;
  for (const NewReport& report : reports)
    REQUIRE(house.writer->submit(
        report, [&](const Outcome& outcome) { created += outcome.kept == Kept::created; }));
  house.writer->stop();
  CHECK(created == 500);
  CHECK(count_rows(house.file()) == 500);
  CHECK_FALSE(house.writer->submit(reports[0], [](const Outcome&) {}));
}

TEST_CASE("a full disk fails the whole commit, loses nothing and is survived") {
  const TempFolder folder;
  const auto file = folder.path() / "collector.db";
  Database database = Database::for_writing(file);
  prepare_schema(database);
  database.execute(
      "INSERT INTO visits (visit, key_digest, date, facts) VALUES ('fern-k1', x'00', "
      "'2027-03-08', '{}'); PRAGMA max_page_count = 40;");
  Writer writer(std::move(database));
  std::int64_t created = 0;
  bool failed = false;
  std::int64_t revision = 0;
  while (!failed && revision < 100) {
    const Outcome outcome =
        keep(writer, row(++revision, "{\"x\":\"" + std::string(3000, 'x') + "\"}"));
    failed = outcome.kept == Kept::failed;
    created += outcome.kept == Kept::created;
  }
  CHECK(failed);
  CHECK(created > 0);
  CHECK(writer.reports() == created);
  CHECK(count_rows(file) == created);
  CHECK(keep(writer, row(1, "{\"x\":\"" + std::string(3000, 'x') + "\"}")).kept == Kept::already);

  const Response answer = report_answer(row(revision), Outcome{});
  CHECK(answer.status == 503);
  CHECK_FALSE(answer.field("Retry-After").empty());
}

TEST_CASE("the newest revision is the latest, whenever it came") {
  House house;
  const auto latest_note = [&] {
    Problems problems;
    return (*parse_json(house.archive->latest("fern-k1")->body, JsonLimits{}, problems))["n"];
  };
  const auto send = [&](std::int64_t revision, const std::string& device, int n) {
    NewReport report = row(revision, "{\"n\":" + std::to_string(n) + "}");
    report.device = device;
    CHECK(keep(*house.writer, report).kept == Kept::created);
  };
  CHECK_FALSE(house.archive->latest("fern-k1"));
  send(2, "aaaaaaaaaaaaaaaa", 1);
  CHECK(latest_note() == 1);
  send(1, "aaaaaaaaaaaaaaaa", 2);  // an older one that was held up on its way
  CHECK(latest_note() == 1);
  send(2, "bbbbbbbbbbbbbbbb", 3);  // another phone: of equals, the one that came last
  CHECK(latest_note() == 3);
  send(3, "aaaaaaaaaaaaaaaa", 4);
  CHECK(latest_note() == 4);
}

}  // namespace trowelbell::collector
