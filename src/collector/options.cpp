#include "options.h"

#include <CLI/CLI.hpp>

namespace trowelbell::collector {
namespace {

constexpr const char* kAbout =
    "Keeps the visit reports that phones send, serves them the app, and shows the coordinator what "
    "is "
    "in and what is missing.";

constexpr const char* kExamples = R"(
Examples:
  Try it on this computer, on any free port:
    trowelbell-collector --data /tmp/reports --web build/web --port 0

  Take in the briefs of this month and serve the app beside them. Briefs that are already known
  change nothing, so the whole folder can be named at every start:
    trowelbell-collector --data /var/lib/trowelbell --web build/web --briefs briefs/

  Let the whole network in. Keys travel in the open over plain HTTP: do this only behind a
  proxy that speaks HTTPS.
    trowelbell-collector --data /var/lib/trowelbell --web build/web --address 0.0.0.0

  Back up, while the collector runs or not: a new file, checked before it has its name.
    trowelbell-collector --data /var/lib/trowelbell --backup backups/monday.db

  Bring a backup back: keep the old folder, and start with a new one that holds the backup as
  collector.db. Phones keep every report; what came in after the backup can be sent again there.
    mkdir restored && cp backups/monday.db restored/collector.db
    trowelbell-collector --data restored --web build/web --briefs briefs/

It prints its address and the coordinator's link, and runs until it is told to stop (Ctrl-C, or
SIGTERM): then it ends the requests under way and leaves with status 0. Status 1: it could not start,
and says why. Status 2: the call is wrong.
)";

}  // namespace

std::optional<Options> parse_options(int argc, const char* const* argv, int& status) {
  Options options;
  CLI::App app(kAbout, "trowelbell-collector");
  app.footer(kExamples);
  app.add_option("--data", options.data, "Folder of the database; made where there is none")
      ->required()
      ->type_name("DIR");
  app.add_option("--web", options.web, "Folder of the app's page, as the build leaves it")
      ->type_name("DIR");
  app.add_option("--briefs", options.briefs, "Briefs, or folders of *.brief.json, to take in")
      ->type_name("FILE_OR_DIR...");
  app.add_option("--port", options.port, "Port to listen on; 0 picks a free one")
      ->type_name("N")
      ->capture_default_str();
  app.add_option("--address", options.address, "Address to listen on")
      ->type_name("ADDRESS")
      ->check(CLI::ValidIPV4 | CLI::Validator(
                                   [](std::string& text) {
                                     return text.find(':') == std::string::npos
                                                ? "not an IP address"
                                                : "";
                                   },
                                   ""))
      ->capture_default_str();
  app.add_option("--coordinator-key-file", options.coordinator_key_file,
                 "The coordinator's key; made with a random one where there is none "
                 "(coordinator.key in the data folder)")
      ->type_name("FILE");
  app.add_flag("--log", options.log,
               "One line a request on standard error: method, kind of address, status");
  CLI::Option* backup =
      app.add_option("--backup", options.backup,
                     "Copy the database to this new file, check the copy, and end")
          ->type_name("FILE");
  for (const char* serving : {"--web", "--briefs", "--port", "--address", "--log"})
    backup->excludes(app.get_option(serving));
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    status = app.exit(error) == 0 ? 0 : 2;
    return std::nullopt;
  }
  if (options.coordinator_key_file.empty())
    options.coordinator_key_file = options.data / "coordinator.key";
  return options;
}

}  // namespace trowelbell::collector
