// Runs the command line inside the test, with files in a folder of its own.
#pragma once

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "cli/program.h"
#include "core/json.h"

namespace trowelbell::cli_test {

struct Result {
  int status;
  std::string out;
  std::string err;
};

inline Result run(std::vector<std::string> arguments, const std::string& input = "") {
  std::istringstream in(input);
  std::ostringstream out, err;
  const int status = run_program(std::move(arguments), {in, out, err});
  return {status, out.str(), err.str()};
}

inline Json json_of(const std::string& text) {
  Problems problems;
  const auto document = parse_json(text, {}, problems);
  REQUIRE_MESSAGE(document.has_value(), text);
  return *document;
}

inline bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

inline std::string file_text(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

// Gone again at the end of the test.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "trowelbell-test-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~Folder() {
    std::error_code error;
    std::filesystem::remove_all(path_, error);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  std::string at(const std::string& name) const { return (path_ / name).string(); }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
    return at(name);
  }
  std::string write(const std::string& name, const Json& document) const {
    return write(name, dump_json(document));
  }

 private:
  std::filesystem::path path_;
};

inline const std::string kContent = TROWELBELL_CONTENT_DIR;
inline const std::string kCounty = kContent + "/demo/county.json";
inline const std::string kVisit = "fern-hollow-room-4";

// The brief of one visit of the demo county, on a Tuesday, 9:05 to 9:50.
inline Json demo_brief() {
  const Result made = run(
      {"brief", kCounty, "--visit", kVisit, "--date", "2027-03-09", "--start", "09:05", "--json"});
  REQUIRE(made.status == 0);
  return json_of(made.out)["briefs"][0]["brief"];
}

// Milliseconds since 1970 of a clock time on that day at UTC-7: 2027-03-09 00:00 there is
// 1804575600 (GNU date).
inline std::int64_t moment(std::int64_t hour, std::int64_t minute, std::int64_t second = 0) {
  return (1804575600 + hour * 3600 + minute * 60 + second) * 1000;
}

inline Json event(std::int64_t seq, std::int64_t at, const char* kind, Json data = Json::object()) {
  return {{"device", "0123456789abcdef"},
          {"seq", seq},
          {"at", at},
          {"kind", kind},
          {"data", std::move(data)}};
}

inline Json journal(Json events) {
  return {{"format", "trowelbell.journal"},
          {"version", 1},
          {"visit", kVisit},
          {"events", std::move(events)}};
}

}  // namespace trowelbell::cli_test
