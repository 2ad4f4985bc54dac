// Durable reports a second, over HTTP on loopback, beside bare SQLite in the same run on the same
// disk: the same rows into one table, as many in a transaction as the collector's writer had on the
// average. Rounds of the two alternate; the medians are compared. Ends with status 1 below half.
// Loader and collector share the machine's cores, so the figures are floors.
//   collector_reports_bench [CONNECTIONS (64)] [SECONDS A ROUND (3)]
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "collector/http_server.h"
#include "collector/schema.h"
#include "collector/visit_book.h"

using namespace trowelbell;
using namespace trowelbell::collector;
using Clock = std::chrono::steady_clock;

namespace {

constexpr int kRounds = 5;
constexpr int kVisits = 1000;
const std::string kKey = "the-key-of-every-visit";

struct Row {
  std::string visit, device, body;
  std::int64_t revision = 0;
};

// The n-th report, about 4 KB: a real one's members, and its steps repeated.
Row make_row(std::int64_t n) {
  static const std::string steps = [] {
    std::string text;
    for (int i = 0; i < 45; ++i)
      text += std::string(i > 0 ? "," : "") + R"({"actual_seconds":150,"id":"step-)" +
              std::to_string(i) + R"(","outcome":"done","planned_seconds":120})";
    return text;
  }();
  Row row{"visit-" + std::to_string(n % kVisits), "00112233445566ff", "", n / kVisits + 1};
  row.body =
      R"({"adult_minutes":180,"adults":4,"began_at":1800000000000,"bell_at":1800002700000,)"
      R"("children":{"absent":2,"late":2,"left_early":1,"places":20,"present":15,"unknown":0},)"
      R"("date":"2027-03-08","device":")" +
      row.device +
      R"(","ended_at":1800002700000,"events":42,"format":"trowelbell.report",)"
      R"("handover":{"sheet":true},"holds":[],"kits":{"brought":24,"given":18,"spare":3,)"
      R"("spoiled":1,"unaccounted":0,"with_teacher":2},"lesson":"window-garden",)"
      R"("mishaps":{"spill":2},"note":"Warm sill.","pages":[30,40],"ready":{"water":true},)"
      R"("revision":)" +
      std::to_string(row.revision) +
      R"(,"room":"K1","school":"Fern Hollow School","sponsor":"Quiet Kettle Tea Company",)"
      R"("steps":[)" +
      steps + R"(],"taken_by":"teacher","version":1,"visit":")" + row.visit + R"("})";
  return row;
}

double seconds_since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

// One table, one statement, no HTTP, no checks, no digest.
class BareTable {
 public:
  explicit BareTable(const std::filesystem::path& file) : database_(Database::for_writing(file)) {
    database_.execute(
        "CREATE TABLE reports (visit TEXT, device TEXT, revision INTEGER, body TEXT, "
        "PRIMARY KEY (visit, device, revision)) STRICT");
  }
  double rows_a_second(std::size_t batch, double seconds) {
    Statement insert(database_, "INSERT INTO reports VALUES (?1, ?2, ?3, ?4)");
    const std::int64_t first = next_;
    const auto start = Clock::now();
    while (seconds_since(start) < seconds) {
      Transaction transaction(database_);
      for (std::size_t i = 0; i < batch; ++i) {
        const Row row = make_row(next_++);
        insert.run(row.visit, row.device, row.revision, row.body);
      }
      transaction.commit();
    }
    return static_cast<double>(next_ - first) / seconds_since(start);
  }

 private:
  Database database_;
  std::int64_t next_ = 0;
};

struct Phone {
  int socket = -1;
  std::string answer;
  Clock::time_point sent;
};

// Keep-alive connections from one thread; each sends its next report when the last is confirmed.
class Phones {
 public:
  Phones(unsigned short port, int count) : phones_(static_cast<std::size_t>(count)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    for (Phone& phone : phones_) {
      phone.socket = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
      if (connect(phone.socket, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0)
        fail("cannot connect");
    }
  }
  ~Phones() {
    for (const Phone& phone : phones_) close(phone.socket);
  }
  Phones(const Phones&) = delete;
  Phones& operator=(const Phones&) = delete;

  double reports_a_second(std::int64_t& next, double seconds) {
    std::vector<pollfd> ready;
    for (Phone& phone : phones_) {
      send_next(phone, next);
      ready.push_back({phone.socket, POLLIN, 0});
    }
    std::int64_t confirmed = 0;
    std::size_t waiting = phones_.size();
    const auto start = Clock::now();
    while (waiting > 0) {
      if (poll(ready.data(), ready.size(), 10'000) <= 0) fail("no answer in 10 s");
      for (std::size_t i = 0; i < phones_.size(); ++i) {
        if (ready[i].revents == 0 || !receive(phones_[i])) continue;
        ++confirmed;
        if (seconds_since(start) < seconds)
          send_next(phones_[i], next);
        else
          --waiting;
      }
    }
    return static_cast<double>(confirmed) / seconds_since(start);
  }

  double latency_ms(double share) {
    const auto place =
        static_cast<std::ptrdiff_t>(share * static_cast<double>(latencies_.size() - 1));
    std::nth_element(latencies_.begin(), latencies_.begin() + place, latencies_.end());
    return latencies_[static_cast<std::size_t>(place)];
  }

 private:
  [[noreturn]] static void fail(const char* why) {
    std::fprintf(stderr, "collector_reports_bench: %s\n", why);
    std::exit(2);
  }
  static void send_next(Phone& phone, std::int64_t& next) {
    const Row row = make_row(next++);
    const std::string request =
        "PUT /v1/visits/" + row.visit + "/reports/" + row.device + "/" +
        std::to_string(row.revision) + " HTTP/1.1\r\nHost: bench\r\nAuthorization: Bearer " + kKey +
        "\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(row.body.size()) +
        "\r\n\r\n" + row.body;
    phone.answer.clear();
    phone.sent = Clock::now();
    if (send(phone.socket, request.data(), request.size(), MSG_NOSIGNAL) !=
        static_cast<ssize_t>(request.size()))
      fail("a connection was closed");
  }
  // True once the whole answer is there; it must be 201.
  bool receive(Phone& phone) {
    char bytes[4096];
    const ssize_t size = recv(phone.socket, bytes, sizeof bytes, 0);
    if (size <= 0) fail("a connection was closed");
    phone.answer.append(bytes, static_cast<std::size_t>(size));
    if (!phone.answer.ends_with('}')) return false;
    if (!phone.answer.starts_with("HTTP/1.1 201")) fail(phone.answer.c_str());
    latencies_.push_back(seconds_since(phone.sent) * 1000);
    return true;
  }

  std::vector<Phone> phones_;
  std::vector<double> latencies_;
};

double median(std::vector<double> values) {
  std::ranges::sort(values);
  return values[values.size() / 2];
}

struct Folder {
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "collector-bench-XXXXXX").string();
    path = mkdtemp(name.data());
  }
  ~Folder() { std::filesystem::remove_all(path); }
  std::filesystem::path path;
};

}  // namespace

int main(int argc, char** argv) {
  const int connections = argc > 1 ? std::atoi(argv[1]) : 64;
  const double seconds = argc > 2 ? std::atof(argv[2]) : 3;
  if (connections < 1 || connections > 500 || seconds <= 0) {
    std::fprintf(stderr, "usage: collector_reports_bench [CONNECTIONS 1..500] [SECONDS]\n");
    return 2;
  }
  const Folder folder;
  const auto file = folder.path / "collector.db";
  Database database = Database::for_writing(file);
  prepare_schema(database);
  std::vector<VisitEntry> visits;
  for (int i = 0; i < kVisits; ++i)
    visits.push_back({"visit-" + std::to_string(i), sha256(kKey), "2027-03-08", "{}"});
  import_visits(database, visits);
  Archive archive(file, 2);
  Writer writer(std::move(database));
  const Site site;
  Service service{site, archive, Digest{}, [] { return std::int64_t{1}; },
                  [&] { return writer.reports(); }};
  HttpServer server("127.0.0.1", 0, service, writer);
  server.start(2);
  BareTable bare(folder.path / "bare.db");
  Phones phones(server.port(), connections);

  std::vector<double> collected, plain;
  std::int64_t next = 0;
  std::printf("%d connections, reports of %zu bytes\n", connections, make_row(0).body.size());
  for (int round = 0; round < kRounds; ++round) {
    const std::int64_t commits = writer.commits();
    const std::int64_t reports = writer.reports();
    collected.push_back(phones.reports_a_second(next, seconds));
    const auto batch = static_cast<std::size_t>(
        (writer.reports() - reports) / std::max<std::int64_t>(1, writer.commits() - commits));
    plain.push_back(bare.rows_a_second(std::max<std::size_t>(1, batch), seconds));
    std::printf("round %d: collector %.0f reports/s, bare SQLite %.0f rows/s, %zu a commit\n",
                round + 1, collected.back(), plain.back(), batch);
  }
  const double ratio = median(collected) / median(plain);
  std::printf("answer after: median %.1f ms, 99th percentile %.1f ms\n", phones.latency_ms(0.5),
              phones.latency_ms(0.99));
  std::printf("collector / bare SQLite: %.2f (at least 0.50)\n", ratio);
  std::printf(R"({"collector_a_second":%.1f,"bare_a_second":%.1f})"
              "\n",
              median(collected), median(plain));
  return ratio >= 0.5 ? 0 : 1;
}
