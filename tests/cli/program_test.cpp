#include <sys/wait.h>

#include <cstdio>

#include "command.h"

using namespace trowelbell::cli_test;

namespace {

// The built program itself, through the shell.
Result shell(const std::string& command_line) {
  std::FILE* pipe = ::popen(command_line.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string out;
  char block[4096];
  for (std::size_t size; (size = std::fread(block, 1, sizeof block, pipe)) > 0;) {
    out.append(block, size);
  }
  const int status = ::pclose(pipe);
  REQUIRE(WIFEXITED(status));
  return {WEXITSTATUS(status), out, ""};
}

const std::string kProgram = TROWELBELL_BIN;

}  // namespace

TEST_CASE("help teaches, with an example for every subcommand") {
  const Result help = run({"--help"});
  CHECK(help.status == 0);
  CHECK(help.err.empty());
  for (const char* name : {"brief", "check", "learn", "pace", "rehearse", "report", "rollup"}) {
    CHECK(has(help.out, name));
    const Result own = run({name, "--help"});
    CHECK(own.status == 0);
    CHECK(has(own.out, std::string("Example")));
    CHECK(has(own.out, std::string("  trowelbell ") + name));
  }
}

TEST_CASE("a call that is at fault has status 2 and says so on standard error only") {
  const std::vector<std::string> calls[] = {{},
                                            {"dance"},
                                            {"\x1b[31m"},
                                            {"--dance"},
                                            {"check"},
                                            {"pace", "--at", "09:00"},
                                            {"pace", "--brief", "x.json"},
                                            {"report", "--brief", "x.json"},
                                            {"brief"},
                                            {"check", "x.json", "--colour"}};
  for (const auto& call : calls) {
    CAPTURE(call.empty() ? std::string("nothing") : call.back());
    const Result result = run(call);
    CHECK(result.status == 2);
    CHECK(result.out.empty());
    CHECK_FALSE(result.err.empty());
    CHECK_FALSE(has(result.err, "\x1b"));
  }
}

TEST_CASE("the built program reads standard input and gives its status to the shell") {
  CHECK(shell(kProgram + " --help").status == 0);
  CHECK(shell(kProgram + " dance 2>&1").status == 2);
  const Result good = shell(kProgram + " brief " + kCounty + " --visit " + kVisit +
                            " --date 2027-03-09 --json 2>/dev/null");
  CHECK(good.status == 0);
  const Folder folder;
  const std::string brief = folder.write("one.json", json_of(good.out)["briefs"][0]["brief"]);
  CHECK(shell(kProgram + " check - --content " + kContent + " < " + brief).out ==
        "standard input: good (brief)\n1 file, 0 problems\n");
  CHECK(
      shell("head -c 100 " + brief + " | " + kProgram + " check - --content " + kContent).status ==
      1);
}
