#include "support.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <fstream>
#include <future>

#include "collector/schema.h"
#include "collector/visit_book.h"

namespace trowelbell::collector::testing {

namespace fs = std::filesystem;

TempFolder::TempFolder() {
  std::string name = (fs::temp_directory_path() / "collector-test-XXXXXX").string();
  REQUIRE(mkdtemp(name.data()) != nullptr);
  path_ = name;
}

TempFolder::~TempFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

fs::path TempFolder::write(const std::string& name, std::string_view text) const {
  const fs::path file = path_ / name;
  fs::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << text;
  return file;
}

Json brief(const std::string& visit, const std::string& key, const std::string& date) {
  return {{"format", "trowelbell.brief"},
          {"version", 1},
          {"visit", visit},
          {"key", key},
          {"lesson", "window-garden"},
          {"school", "Fern Hollow School"},
          {"room", "K1"},
          {"sponsor", "Quiet Kettle Tea Company"},
          {"sheet_language", "en"},
          {"date", date},
          {"start", "09:00"},
          {"bell", "09:45"},
          {"utc_offset_minutes", -420},
          {"children", 20},
          {"adults", 4},
          {"tables", 4},
          {"kits", 24},
          {"warmth", {{"day", 21}, {"night", 18}, {"closed", 17}}},
          {"closed", Json::array()},
          {"half_days", Json::array()},
          {"school_asks", Json::array()}};
}

Json report(const std::string& visit, const std::string& device, std::int64_t revision) {
  return {{"format", "trowelbell.report"},
          {"version", 1},
          {"visit", visit},
          {"device", device},
          {"revision", revision},
          {"lesson", "window-garden"},
          {"school", "Fern Hollow School"},
          {"room", "K1"},
          {"sponsor", "Quiet Kettle Tea Company"},
          {"date", "2027-03-08"},
          {"began_at", 1'800'000'000'000},
          {"ended_at", 1'800'002'700'000},
          {"bell_at", 1'800'002'700'000},
          {"steps",
           {{{"id", "welcome"},
             {"planned_seconds", 120},
             {"actual_seconds", 150},
             {"outcome", "done"}}}},
          {"children",
           {{"places", 20},
            {"present", 15},
            {"late", 2},
            {"absent", 2},
            {"left_early", 1},
            {"unknown", 0}}},
          {"adults", 4},
          {"adult_minutes", 180},
          {"kits",
           {{"brought", 24},
            {"given", 18},
            {"spoiled", 1},
            {"with_teacher", 2},
            {"spare", 3},
            {"unaccounted", 0}}},
          {"mishaps", {{"spill", 2}, {"soil-hands", 1}}},
          {"holds", Json::array()},
          {"pages", {30, 40}},
          {"handover", {{"sheet", true}}},
          {"ready", {{"water", true}}},
          {"taken_by", "teacher"},
          {"note", "Warm sill."},
          {"events", 42}};
}

std::string report_path(const std::string& visit, const std::string& device,
                        std::int64_t revision) {
  return "/v1/visits/" + visit + "/reports/" + device + "/" + std::to_string(revision);
}

Request put(const std::string& target, std::string body, const std::string& key) {
  Request request;
  request.method = "PUT";
  request.target = target;
  request.authorization = "Bearer " + key;
  request.content_type = "application/json";
  request.body = std::move(body);
  return request;
}

Request get(const std::string& target, const std::string& key) {
  Request request;
  request.method = "GET";
  request.target = target;
  if (!key.empty()) request.authorization = "Bearer " + key;
  return request;
}

Json body_of(const Response& response) {
  Problems problems;
  const auto json = parse_json(response.body, JsonLimits{}, problems);
  REQUIRE_MESSAGE(json, response.body);
  return *json;
}

House::House(std::size_t most_queued, Site site_in) : site(std::move(site_in)) {
  Database database = Database::for_writing(file());
  prepare_schema(database);
  const auto first = folder.write("one.brief.json", brief("fern-k1", kKey).dump());
  const auto second =
      folder.write("two.brief.json", brief("tansy-k2", kOtherKey, "2027-03-09").dump());
  const ImportCount count = import_visits(database, read_briefs({first, second}));
  REQUIRE(count.added == 2);
  archive = std::make_unique<Archive>(file(), 2);
  writer = std::make_unique<Writer>(std::move(database), most_queued);
  service = std::make_unique<Service>(Service{site, *archive, sha256(kCoordinatorKey),
                                              [this] { return now; },
                                              [this] { return writer->reports(); }});
}

Response House::ask(const Request& request) {
  Decision decision = decide(request, find_route(request.target), *service);
  if (auto* response = std::get_if<Response>(&decision)) return std::move(*response);
  const NewReport& report = std::get<NewReport>(decision);
  return report_answer(report, keep(*writer, report));
}

Outcome keep(Writer& writer, const NewReport& report) {
  std::promise<Outcome> promise;
  REQUIRE(writer.submit(report, [&](const Outcome& outcome) { promise.set_value(outcome); }));
  return promise.get_future().get();
}

}  // namespace trowelbell::collector::testing
