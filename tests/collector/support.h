// A collector without sockets: a real database in a folder of its own, and the requests of a phone.
#pragma once

#include <filesystem>
#include <string>

#include "collector/handlers.h"
#include "collector/writer.h"
#include "core/json.h"

namespace trowelbell::collector::testing {

inline constexpr const char* kKey = "a-key-of-the-first-visit";
inline constexpr const char* kOtherKey = "another-key-of-the-second";
inline constexpr const char* kCoordinatorKey = "the-coordinator-has-this";
inline constexpr const char* kDevice = "00112233445566ff";

// An empty folder that goes with its contents.
class TempFolder {
 public:
  TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  ~TempFolder();
  const std::filesystem::path& path() const { return path_; }
  // Writes a file, with the folders it needs.
  std::filesystem::path write(const std::string& name, std::string_view text) const;

 private:
  std::filesystem::path path_;
};

Json brief(const std::string& visit, const std::string& key,
           const std::string& date = "2027-03-08");
Json report(const std::string& visit, const std::string& device = kDevice,
            std::int64_t revision = 1);
std::string report_path(const std::string& visit, const std::string& device = kDevice,
                        std::int64_t revision = 1);
Request put(const std::string& target, std::string body, const std::string& key = kKey);
Request get(const std::string& target, const std::string& key = "");
Json body_of(const Response& response);

// Visits "fern-k1" (kKey) and "tansy-k2" (kOtherKey); the clock stands at 1,000,000 ms.
class House {
 public:
  explicit House(std::size_t most_queued = 1024, Site site = {});
  Response ask(const Request& request);
  std::filesystem::path file() const { return folder.path() / "collector.db"; }

  TempFolder folder;
  Site site;
  std::int64_t now = 1'000'000;
  std::unique_ptr<Writer> writer;
  std::unique_ptr<Archive> archive;
  std::unique_ptr<Service> service;
};

// What the writer makes of one report.
Outcome keep(Writer& writer, const NewReport& report);

}  // namespace trowelbell::collector::testing
