#include "simulated_collector.h"

#include <doctest/doctest.h>

#include <fstream>

#include "collector/schema.h"

namespace trowelbell::fault {

using namespace collector;

SimulatedCollector::SimulatedCollector(FaultyDisk& disk) : disk_(disk), home_(folder_.path()) {
  open();
}

SimulatedCollector::~SimulatedCollector() {
  close();
  disk_.forget_folder(home_);
}

void SimulatedCollector::open() {
  Database database = Database::for_writing(file());
  prepare_schema(database);
  archive_ = std::make_unique<Archive>(file(), 1);
  writer_ = std::make_unique<Writer>(std::move(database));
  service_ = std::make_unique<Service>(Service{site_, *archive_, sha256(testing::kCoordinatorKey),
                                               [this] { return now; },
                                               [this] { return writer_->reports(); }});
}

void SimulatedCollector::close() {
  service_.reset();
  archive_.reset();
  writer_.reset();
}

void SimulatedCollector::know(const std::string& visit, const std::string& key) {
  Database database = Database::for_writing(file());
  import_visits(database, {{visit, sha256(key), "2027-03-08", "{}"}});
}

Response SimulatedCollector::ask(const Request& request) {
  Decision decision = decide(request, find_route(request.target), *service_);
  if (auto* response = std::get_if<Response>(&decision)) return std::move(*response);
  const NewReport& report = std::get<NewReport>(decision);
  return report_answer(report, testing::keep(*writer_, report));
}

Response SimulatedCollector::put(const std::string& target, const std::string& body,
                                 const std::string& key) {
  return ask(testing::put(target, body, key));
}

void SimulatedCollector::restart() {
  close();
  open();
}

void SimulatedCollector::lose_power(std::uint64_t seed) {
  const FaultyDisk::Files left = disk_.after_power_cut(home_, seed);
  close();
  disk_.forget_folder(home_);
  home_ = folder_.path() / std::to_string(++homes_);
  std::filesystem::create_directories(home_);
  for (const auto& [name, content] : left) std::ofstream(home_ / name, std::ios::binary) << content;
  open();
}

void SimulatedCollector::spoil(const char* sql) {
  Database::for_writing(file()).execute(sql);
}

std::vector<Row> SimulatedCollector::rows(const std::string& visit) const {
  return rows_of(file(), visit);
}

std::string SimulatedCollector::latest(const std::string& visit) {
  const auto report = archive_->latest(visit);
  return report ? report->body : "";
}

std::vector<Row> rows_of(const std::filesystem::path& file, const std::string& visit) {
  const Database database = Database::for_reading(file);
  Statement query(database,
                  "SELECT visit, device, revision, digest, body, received_at FROM reports "
                  "WHERE ?1 = '' OR visit = ?1 ORDER BY rowid");
  std::vector<Row> all;
  Rows rows = query.start(visit);
  while (rows.next())
    all.push_back(
        {rows.text(0), rows.text(1), rows.whole(2), rows.text(3), rows.text(4), rows.whole(5)});
  return all;
}

}  // namespace trowelbell::fault
