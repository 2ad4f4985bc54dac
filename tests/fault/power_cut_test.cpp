// The power fails between any two writes: what was confirmed before is in what the disk kept.
#include <doctest/doctest.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <latch>

#include "collector/database_check.h"
#include "collector/schema.h"
#include "long_run.h"
#include "luck.h"
#include "simulated_collector.h"

namespace trowelbell::fault {
namespace {

using namespace collector;
using collector::testing::TempFolder;

constexpr int kReports = 60;  // of one run
constexpr int kPagesOfLog =
    25;  // so that each run also copies its log into the file, several times

// What stands on the disk after one cut, and how many reports had been confirmed before it.
struct Cut {
  FaultyDisk::Files files;
  int confirmed = 0;
};

NewReport make_report(int revision, Luck& luck) {
  std::string body = "{\"n\":\"" + std::string(static_cast<std::size_t>(luck.below(9000)), 'x') +
                     std::to_string(revision) + "\"}";
  const std::string digest = hex(sha256(body));
  return {"fern-k1", testing::kDevice, revision, std::move(body), digest, 5, "{}", {}, false};
}

// Writes reports through the collector's writer; cuts the power, so to say, now and then.
std::vector<Cut> write_and_cut(FaultyDisk& disk, const TempFolder& folder,
                               const std::vector<NewReport>& reports, Luck& luck) {
  const auto file = folder.path() / "collector.db";
  Database database = Database::for_writing(file);
  prepare_schema(database);
  import_visits(database, {{"fern-k1", Digest{}, "2027-03-08", "{}"}});
  database.execute(("PRAGMA wal_autocheckpoint = " + std::to_string(kPagesOfLog)).c_str());
  std::vector<Cut> cuts;
  Luck luck_of_main(luck.next());
  int confirmed = 0;  // as the writer's thread sees it, where the cuts are taken, too
  disk.on_write = [&] {
    if (luck.percent(6))
      cuts.push_back({disk.after_power_cut(folder.path(), luck.next()), confirmed});
  };
  {
    Writer writer(std::move(database));
    for (std::size_t next = 0; next < reports.size();) {  // one, or some that may share a commit
      const auto some =
          std::min(static_cast<std::size_t>(luck_of_main.between(1, 4)), reports.size() - next);
      std::latch done(static_cast<std::ptrdiff_t>(some));
      for (const std::size_t end = next + some; next < end; ++next)
        REQUIRE(writer.submit(reports[next], [&](const Outcome& outcome) {
          confirmed += outcome.kept == Kept::created ? 1 : 0;
          done.count_down();
        }));
      done.wait();
    }
    writer.stop();
    disk.on_write = nullptr;
  }
  CHECK(confirmed == kReports);
  disk.forget_folder(folder.path());
  return cuts;
}

// How many reports are there after the cut; all that are there must be whole.
std::vector<Row> rows_after(const Cut& cut) {
  const TempFolder folder;
  for (const auto& [name, content] : cut.files)
    std::ofstream(folder.path() / name, std::ios::binary) << content;
  const auto file = folder.path() / "collector.db";
  Database database = Database::for_writing(file);
  check_everything(database);  // throws where it is not whole
  return rows_of(file);
}

}  // namespace

TEST_CASE("the power cut at random writes: every confirmed report is in what was flushed") {
  const std::int64_t runs = long_run("TROWELBELL_POWER_RUNS", 6);
  std::int64_t taken = 0, mid_log = 0, more = 0, losses = 0;
  for (std::int64_t seed = 0; seed < runs; ++seed) {
    CAPTURE(seed);
    Luck luck(static_cast<std::uint64_t>(seed));
    std::vector<NewReport> reports;
    for (int revision = 1; revision <= kReports; ++revision)
      reports.push_back(make_report(revision, luck));
    std::vector<Cut> cuts;
    {
      FaultyDisk disk;
      const TempFolder folder;
      cuts = write_and_cut(disk, folder, reports, luck);
    }
    for (const Cut& cut : cuts) {
      std::vector<Row> rows;
      REQUIRE_NOTHROW(rows = rows_after(cut));
      for (int i = 0; i < cut.confirmed; ++i) {
        const bool there = std::ranges::any_of(rows, [&](const Row& row) {
          return row.revision == i + 1 && row.body == reports[static_cast<std::size_t>(i)].body;
        });
        losses += there ? 0 : 1;
      }
      ++taken;
      mid_log += cut.confirmed > 0 && cut.confirmed < kReports ? 1 : 0;
      more += static_cast<std::int64_t>(rows.size()) > cut.confirmed ? 1 : 0;
    }
  }
  std::printf(
      "power cuts: %lld (between the first and the last confirmation: %lld; with a whole report "
      "more than was confirmed: %lld), losses: %lld\n",
      static_cast<long long>(taken), static_cast<long long>(mid_log), static_cast<long long>(more),
      static_cast<long long>(losses));
  CHECK(mid_log > 0);
  CHECK(losses == 0);
}

}  // namespace trowelbell::fault
