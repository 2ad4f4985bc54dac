// Backups made while reports come in, and what a collector makes of them.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <algorithm>
#include <csignal>
#include <fstream>
#include <map>
#include <thread>

#include "collector/backup.h"
#include "data_folder.h"
#include "simulated_collector.h"
#include "tests/collector/load.h"
#include "tests/collector/program.h"

namespace trowelbell::fault {
namespace {

using namespace collector::testing;
namespace fs = std::filesystem;

struct Ended {
  int status;
  std::string output, messages;
};

Ended back_up(const fs::path& data, const fs::path& to) {
  Program program({"--data", data, "--backup", to});
  const int status = program.wait(std::chrono::seconds(60));
  return {status, program.output(), program.messages()};
}

std::string read_all(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

void wait_for(const Phones& phones, int confirmed) {
  const auto patience = std::chrono::steady_clock::now() + std::chrono::seconds(20);
  while (phones.confirmed() < confirmed && std::chrono::steady_clock::now() < patience)
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
}

}  // namespace

TEST_CASE("backups under load: each holds all that was confirmed before it, and can be started") {
  const DataFolder home;
  Program program(home.arguments());
  const unsigned short port = program.port();
  REQUIRE(port != 0);
  Phones phones(port, DataFolder::visit(0), 4, 0);
  std::map<fs::path, int> confirmed_before;
  for (int i = 1; i <= 3; ++i) {
    wait_for(phones, phones.confirmed() + 50);
    const fs::path file = home.folder.path() / ("backup-" + std::to_string(i) + ".db");
    confirmed_before[file] = phones.confirmed();
    const Ended ended = back_up(home.data(), file);
    CHECK_MESSAGE(ended.status == 0, ended.messages);
    CHECK(ended.output.find("1 visits, ") != std::string::npos);
    const std::size_t there = rows_of(file).size();
    CHECK(ended.output.find(std::to_string(there) + " reports, checked") != std::string::npos);
    CHECK(there >= static_cast<std::size_t>(confirmed_before[file]));
  }
  const int before = phones.confirmed();
  wait_for(phones, before + 20);
  CHECK(phones.confirmed() > before);  // the backups held nobody up for good
  const std::vector<Sent> sent = phones.end();
  program.signal(SIGKILL);
  CHECK(program.wait() == -1);

  for (const auto& [file, confirmed] : confirmed_before) {
    // Restored as the help says, and the phones send again what they have: nothing is missing.
    const fs::path folder = home.folder.path() / ("from-" + file.stem().string());
    fs::create_directories(folder);
    fs::copy_file(file, folder / "collector.db");
    const std::vector<Row> rows = rows_of(file);
    Program restored(home.arguments(folder));
    const unsigned short new_port = restored.port();
    REQUIRE_MESSAGE(new_port != 0, restored.messages());
    std::vector<Sent> in_backup;
    for (const Sent& one : sent)
      if (std::ranges::any_of(rows, [&](const Row& row) { return row.body == one.body; }))
        in_backup.push_back(one);
    CHECK(in_backup.size() == rows.size());
    CHECK(count_lost(new_port, in_backup) == 0);
    Phones more(new_port, DataFolder::visit(0), 2, 1);
    wait_for(more, 10);
    CHECK(more.end().size() >= 10);
  }
}

TEST_CASE("a backup is a whole file for its owner alone, with nothing beside it") {
  FaultyDisk disk;  // it only makes the collector easy to start here
  SimulatedCollector collector(disk);
  collector.know("visit-0", kKey);
  collector.put(report_path("visit-0"), dump_json(report("visit-0")), kKey);
  const TempFolder folder;
  const fs::path file = folder.path() / "monday.db";
  const collector::Content content = collector::make_backup(collector.file(), file);
  CHECK(content.visits == 1);
  CHECK(content.reports == 1);
  struct stat about {};
  REQUIRE(stat(file.c_str(), &about) == 0);
  CHECK((about.st_mode & 0777) == 0600);
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()) == 1);
  CHECK(rows_of(file).front().body == dump_json(report("visit-0")));
}

TEST_CASE("a backup never overwrites, and one that fails leaves no file") {
  const DataFolder home;
  const fs::path file = home.folder.path() / "backup.db";
  CHECK(back_up(home.data(), file).status == 1);  // there is no database yet
  CHECK_FALSE(fs::exists(file));
  {
    Program program(home.arguments());
    REQUIRE(program.port() != 0);
    program.signal(SIGTERM);
    CHECK(program.wait() == 0);
  }
  home.folder.write("backup.db", "somebody's");
  const Ended taken = back_up(home.data(), file);
  CHECK(taken.status == 1);
  CHECK(taken.messages.find("Choose another name") != std::string::npos);
  CHECK(read_all(file) == "somebody's");
  CHECK(back_up(home.data(), home.folder.path() / "none" / "backup.db").status == 1);
  CHECK_FALSE(fs::exists(home.folder.path() / "none"));

  home.folder.write("other.db.part", "cut off");
  const Ended cut_off = back_up(home.data(), home.folder.path() / "other.db");
  CHECK(cut_off.status == 1);
  CHECK(cut_off.messages.find("delete it") != std::string::npos);
}

TEST_CASE("a damaged database makes no backup") {
  FaultyDisk disk;
  SimulatedCollector collector(disk);
  collector.know("visit-0", kKey);
  collector.put(report_path("visit-0"), dump_json(report("visit-0")), kKey);
  collector.spoil("UPDATE reports SET body = replace(body, 'Warm', 'Cold')");
  const TempFolder folder;
  CHECK_THROWS_AS(collector::make_backup(collector.file(), folder.path() / "b.db"),
                  collector::BackupError);
  CHECK(fs::is_empty(folder.path()));
}

}  // namespace trowelbell::fault
