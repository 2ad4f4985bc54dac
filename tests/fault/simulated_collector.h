// The collector's own handlers, writer and archive over a database on a faulty disk, without a
// socket: asked by function call, stopped and started again, robbed of its power.
#pragma once

#include "collector/handlers.h"
#include "collector/visit_book.h"
#include "collector/writer.h"
#include "faulty_disk.h"
#include "tests/collector/support.h"

namespace trowelbell::fault {

struct Row {
  std::string visit, device;
  std::int64_t revision = 0;
  std::string digest, body;
  std::int64_t received_at = 0;
};

class SimulatedCollector {
 public:
  // The disk must outlive it.
  explicit SimulatedCollector(FaultyDisk& disk);
  ~SimulatedCollector();
  SimulatedCollector(const SimulatedCollector&) = delete;
  SimulatedCollector& operator=(const SimulatedCollector&) = delete;

  // Takes in a visit, as a start with its brief does.
  void know(const std::string& visit, const std::string& key);
  collector::Response ask(const collector::Request& request);
  collector::Response put(const std::string& target, const std::string& body,
                          const std::string& key);

  void restart();
  void lose_power(std::uint64_t seed);

  // In the order they were written.
  std::vector<Row> rows(const std::string& visit) const;
  // The body that the coordinator is shown, "" for none.
  std::string latest(const std::string& visit);

  // Changes what is stored behind the collector's back.
  void spoil(const char* sql);
  std::filesystem::path file() const { return home_ / "collector.db"; }

  std::int64_t now = 1'800'000'000'000;

 private:
  void open();
  void close();

  FaultyDisk& disk_;
  collector::testing::TempFolder folder_;
  std::filesystem::path home_;
  int homes_ = 0;
  collector::Site site_;
  std::unique_ptr<collector::Archive> archive_;
  std::unique_ptr<collector::Writer> writer_;
  std::unique_ptr<collector::Service> service_;
};

// Every report in a collector's file, of one visit or ("") of all.
std::vector<Row> rows_of(const std::filesystem::path& file, const std::string& visit = "");

}  // namespace trowelbell::fault
