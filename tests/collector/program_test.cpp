// The program: what it says, how it ends, and that no report it confirmed is ever lost.
#include <doctest/doctest.h>

#include <algorithm>
#include <csignal>
#include <thread>

#include "client.h"
#include "load.h"
#include "program.h"
#include "support.h"

namespace trowelbell::collector {
namespace {

using namespace testing;

// A data folder with one visit, and the arguments to serve it.
struct DataFolder {
  DataFolder() { folder.write("briefs/fern-k1.brief.json", brief("fern-k1", kKey).dump()); }
  std::vector<std::string> arguments(std::vector<std::string> more = {}) const {
    std::vector<std::string> all = {"--data",   folder.path() / "data",  "--port", "0",
                                    "--briefs", folder.path() / "briefs"};
    all.insert(all.end(), more.begin(), more.end());
    return all;
  }
  TempFolder folder;
};

// Runs to its end, which must come by itself; the messages must be one line.
std::string failure(const std::vector<std::string>& arguments, int status) {
  Program program(arguments);
  CHECK(program.wait() == status);
  const std::string messages = program.messages();
  CHECK(program.output().empty());
  CHECK_FALSE(messages.empty());
  return messages;
}

bool one_line(const std::string& text) {
  return std::ranges::count(text, '\n') == 1 && text.back() == '\n';
}

}  // namespace

TEST_CASE("--help teaches with examples") {
  Program program({"--help"});
  CHECK(program.wait() == 0);
  const std::string text = program.output();
  CHECK(text.find("Examples:") != std::string::npos);
  for (const char* option : {"--data", "--web", "--briefs", "--port", "--address",
                             "--coordinator-key-file", "--log", "--backup"})
    CHECK_MESSAGE(text.find(option) != std::string::npos, option);
}

TEST_CASE("a wrong call ends with status 2") {
  const TempFolder folder;
  const std::string data = folder.path();
  failure({}, 2);
  failure({"--data", data, "--prot", "1"}, 2);
  failure({"--data", data, "--port", "70000"}, 2);
  failure({"--data", data, "--port", "x"}, 2);
  failure({"--data", data, "--address", "everywhere"}, 2);
  failure({"--data"}, 2);
  failure({"--data", data, "--backup", data + "/b.db", "--port", "0"}, 2);
}

TEST_CASE("what keeps it from starting is told in one line, with status 1") {
  const DataFolder data_folder;
  const std::string file = data_folder.folder.write("file", "x");
  Program running(data_folder.arguments());
  const unsigned short port = running.port();
  REQUIRE(port != 0);

  const std::string data = data_folder.folder.path() / "data2";
  const std::string busy = failure({"--data", data, "--port", std::to_string(port)}, 1);
  CHECK(one_line(busy));
  CHECK(busy.find("--port") != std::string::npos);

  const std::string unwritable = failure({"--data", file + "/data", "--port", "0"}, 1);
  CHECK(one_line(unwritable));
  CHECK(unwritable.find("--data") != std::string::npos);
  CHECK(one_line(failure({"--data", file, "--port", "0"}, 1)));

  const std::string missing =
      failure({"--data", data, "--port", "0", "--web", data_folder.folder.path() / "no-web"}, 1);
  CHECK(one_line(missing));
  CHECK(missing.find("--web") != std::string::npos);

  data_folder.folder.write("data3/collector.db", std::string(5000, 'x'));
  CHECK(one_line(failure({"--data", data_folder.folder.path() / "data3", "--port", "0"}, 1)));
  CHECK(one_line(
      failure({"--data", data, "--port", "0", "--briefs", data_folder.folder.path() / "none"}, 1)));
  const std::string bad = data_folder.folder.write("bad.brief.json", "{}");
  CHECK(failure({"--data", data, "--port", "0", "--briefs", bad}, 1).find("bad.brief.json") !=
        std::string::npos);
}

TEST_CASE(
    "the start says how many briefs came, where it listens, and gives the coordinator's link") {
  const DataFolder data_folder;
  std::string key;
  for (const char* expected :
       {"briefs: 1 new, 0 changed, 0 as before", "briefs: 0 new, 0 changed, 1 as before"}) {
    Program program(data_folder.arguments({"--log"}));
    const unsigned short port = program.port();
    REQUIRE(port != 0);
    std::string text = program.output();
    CHECK(text.find(expected) != std::string::npos);
    const std::size_t mark = text.find("/coordinator#key=");
    REQUIRE(mark != std::string::npos);
    const std::string now = text.substr(mark + 17, 32);
    if (!key.empty()) CHECK(now == key);
    key = now;
    Connection connection(port);
    CHECK(connection.ask(get_text("/v1/visits", "Authorization: Bearer " + key + "\r\n"))->status ==
          200);
    CHECK(connection.ask(put_text(report_path("fern-k1"), kKey, dump_json(report("fern-k1"))))
                  ->status /
              100 ==
          2);
    program.signal(SIGINT);
    CHECK(program.wait() == 0);
    // No visit, key or body in the log: the kind of address is all it knows.
    const std::string log = program.messages();
    CHECK(log.find("PUT /v1/visits/{visit}/reports/{device}/{revision} 20") != std::string::npos);
    CHECK(log.find("GET /v1/visits 200") != std::string::npos);
    CHECK(log.find("fern") == std::string::npos);
    CHECK(log.find(kKey) == std::string::npos);
    CHECK(log.find(key) == std::string::npos);
  }
}

TEST_CASE(
    "SIGTERM under load and with idle connections: status 0 in 5 s, every confirmed report kept") {
  const DataFolder data_folder;
  std::vector<Sent> sent;
  {
    Program program(data_folder.arguments());
    const unsigned short port = program.port();
    REQUIRE(port != 0);
    std::vector<std::unique_ptr<Connection>> idle;
    for (int i = 0; i < 100; ++i) idle.push_back(std::make_unique<Connection>(port));
    Phones phones(port, "fern-k1", 16, 0);
    while (phones.confirmed() < 50) std::this_thread::sleep_for(std::chrono::milliseconds(5));
    program.signal(SIGTERM);
    CHECK(program.wait(std::chrono::seconds(5)) == 0);
    sent = phones.end();
    CHECK(program.messages().empty());
  }
  Program program(data_folder.arguments());
  const unsigned short port = program.port();
  REQUIRE(port != 0);
  CHECK(count_lost(port, sent) == 0);
}

}  // namespace trowelbell::collector
