// trowelbell-collector: takes in visit reports, serves the app and the coordinator's page.
#include <pthread.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <exception>
#include <iostream>
#include <string>

#include "authority.h"
#include "backup.h"
#include "http_server.h"
#include "options.h"
#include "schema.h"
#include "visit_book.h"

namespace trowelbell::collector {
namespace {

constexpr int kThreads = 2;
// At about 1 GB a second, more than a county's reports of many years.
constexpr auto kCheckPatience = std::chrono::seconds(10);

struct StartError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// Signals wait for sigwait() in the main thread; every thread made later inherits this.
sigset_t block_signals() {
  sigset_t signals;
  sigemptyset(&signals);
  sigaddset(&signals, SIGINT);
  sigaddset(&signals, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);
  std::signal(SIGPIPE, SIG_IGN);
  return signals;
}

Database open_database(const std::filesystem::path& folder, const std::filesystem::path& file) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error || !std::filesystem::is_directory(folder))
    throw StartError("Cannot make the data folder " + folder.string() +
                     ". Name a folder that can be written, with --data.");
  try {
    Database database = Database::for_writing(file);
    if (!check_structure(database, kCheckPatience))
      std::fprintf(stderr,
                   "trowelbell-collector: the database is large and was not checked to its "
                   "end; --backup checks all of it\n");
    prepare_schema(database);
    return database;
  } catch (const DamagedError& problem) {
    throw StartError("The database " + file.string() + " is damaged (" + problem.what() +
                     "). Nothing is served from it. Keep it, put the newest backup in a new folder "
                     "as collector.db, and name that with --data.");
  } catch (const DatabaseError& problem) {
    throw StartError("Cannot use the database " + file.string() + " (" + problem.what() +
                     "). Check that the folder can be written and the disk has room, or name "
                     "another with --data.");
  }
}

void take_in_briefs(Database& database, const std::vector<std::filesystem::path>& paths) {
  if (paths.empty()) return;
  const ImportCount count = import_visits(database, read_briefs(paths));
  std::cout << "briefs: " << count.added << " new, " << count.changed << " changed, "
            << count.as_before << " as before\n";
}

std::int64_t now_ms() {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  return std::chrono::duration_cast<std::chrono::milliseconds>(now).count();
}

std::unique_ptr<HttpServer> listen(const Options& options, Service& service, Writer& writer) {
  try {
    return std::make_unique<HttpServer>(options.address, options.port, service, writer,
                                        HttpLimits{}, options.log);
  } catch (const boost::system::system_error& error) {
    throw StartError("Cannot listen on " + options.address + " port " +
                     std::to_string(options.port) + " (" + error.code().message() +
                     "). Stop the program that uses it, or choose another with --port (0 picks a "
                     "free one).");
  }
}

void back_up(const Options& options) {
  const Content content = make_backup(options.data / "collector.db", options.backup);
  std::cout << "backup " << options.backup.string() << ": " << content.visits << " visits, "
            << content.reports << " reports, checked\n";
}

void run(const Options& options) {
  const sigset_t signals = block_signals();
  const Site site = options.web.empty() ? Site() : Site::load(options.web);
  const std::filesystem::path file = options.data / "collector.db";
  Database database = open_database(options.data, file);
  const std::string key = coordinator_key(options.coordinator_key_file);
  take_in_briefs(database, options.briefs);
  // The writer goes last: it leaves one whole file, without a log that readers cannot clear away.
  Writer writer(std::move(database));
  Archive archive(file, kThreads);
  Service service{site, archive, sha256(key), now_ms, [&writer] { return writer.reports(); }};
  const auto server = listen(options, service, writer);

  const bool version6 = options.address.find(':') != std::string::npos;
  const std::string address = "http://" +
                              (version6 ? "[" + options.address + "]" : options.address) + ":" +
                              std::to_string(server->port());
  std::cout << "listening on " << address << "\ncoordinator " << address
            << "/coordinator#key=" << key << std::endl;
  server->start(kThreads);
  int signal = 0;
  sigwait(&signals, &signal);
  server->stop();
}

}  // namespace
}  // namespace trowelbell::collector

int main(int argc, char** argv) {
  namespace collector = trowelbell::collector;
  try {
    int status = 0;
    const auto options = collector::parse_options(argc, argv, status);
    if (!options) return status;
    if (options->backup.empty())
      collector::run(*options);
    else
      collector::back_up(*options);
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "trowelbell-collector: %s\n", error.what());
    return 1;
  }
}
