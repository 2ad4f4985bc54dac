// The collector over a socket: connections, limits and deadlines.
#include <doctest/doctest.h>

#include <latch>
#include <thread>

#include "client.h"
#include "collector/answers.h"
#include "collector/http_server.h"
#include "support.h"

namespace trowelbell::collector {
namespace {

using namespace testing;
using std::chrono::milliseconds;

Site small_site() {
  const TempFolder folder;
  folder.write("index.html", "<p>page</p>");
  folder.write("big.txt", std::string(3'000'000, 'b'));
  return Site::load(folder.path());
}

struct OpenHouse : House {
  explicit OpenHouse(HttpLimits limits = {})
      : House(1024, small_site()), server("127.0.0.1", 0, *service, *writer, limits) {
    server.start(2);
  }
  HttpServer server;
};

std::string good_put(std::int64_t revision = 1, const std::string& more_fields = "") {
  return put_text(report_path("fern-k1", kDevice, revision), kKey,
                  dump_json(report("fern-k1", kDevice, revision)), more_fields);
}

}  // namespace

TEST_CASE("one connection serves many requests, also sent ahead") {
  OpenHouse house;
  Connection connection(house.server.port());
  for (int revision = 1; revision <= 5; ++revision) {
    const auto answer = connection.ask(good_put(revision));
    REQUIRE(answer);
    CHECK(answer->status == 201);
  }
  REQUIRE(connection.send(good_put(6) + get_text("/v1/health") + get_text("/")));
  CHECK(connection.receive()->status == 201);
  CHECK(connection.receive()->body == "{\"reports\":6,\"status\":\"ok\"}");
  CHECK(connection.receive()->body == "<p>page</p>");
}

TEST_CASE("every answer tells the browser what it may do") {
  OpenHouse house;
  const std::string requests[] = {
      get_text("/"),
      get_text("/nothing"),
      get_text("/v1/health"),
      get_text("/v1/visits"),
      get_text("/", "If-None-Match: *\r\n"),
      good_put(),
      "OPTIONS / HTTP/1.1\r\nHost: here\r\n\r\n",
      "OPTIONS * HTTP/1.1\r\nHost: here\r\n\r\n",
      "GET / HTTP/1.1\r\n\r\n",
      "nonsense\r\n\r\n",
  };
  for (const std::string& request : requests) {
    CAPTURE(request);
    Connection connection(house.server.port());
    const auto answer = connection.ask(request);
    REQUIRE(answer);
    for (const Field& field : security_fields()) {
      std::string name = field.name;
      for (char& c : name) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
      CHECK(answer->fields.at(name) == field.value);
    }
    CHECK(answer->fields.count("date") == 1);
    CHECK(answer->fields.count("access-control-allow-origin") == 0);
    CHECK(answer->fields.at("content-security-policy").find("unsafe-inline") == std::string::npos);
  }
}

TEST_CASE("HEAD says how long the answer is and sends none of it") {
  OpenHouse house;
  Connection connection(house.server.port());
  const auto answer = connection.ask("HEAD /big.txt HTTP/1.1\r\nHost: here\r\n\r\n", true);
  REQUIRE(answer);
  CHECK(answer->status == 200);
  CHECK(answer->fields.at("content-length") == "3000000");
  CHECK(connection.ask(get_text("/"))->body == "<p>page</p>");  // nothing of it in between
  CHECK(connection.ask(get_text("/big.txt"))->body.size() == 3'000'000);
}

TEST_CASE("an HTTP/1.0 client, and one that says close, are let go") {
  OpenHouse house;
  for (const std::string request :
       {"GET / HTTP/1.0\r\n\r\n", "GET / HTTP/1.1\r\nHost: here\r\nConnection: close\r\n\r\n"}) {
    Connection connection(house.server.port());
    CHECK(connection.ask(request)->status == 200);
    CHECK(connection.ends_within(milliseconds(1500)));
  }
}

TEST_CASE("what is not HTTP in order is refused") {
  // RFC 9112, 3.2 (Host) and 6.1 (both lengths: a way to smuggle a request).
  OpenHouse house;
  const std::string requests[] = {
      "GET / HTTP/1.1\r\n\r\n",
      "GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
      "GET /\r\n\r\n",
      "\x16\x03\x01\x02\r\n\r\n",
      std::string("PUT / HTTP/1.1\r\nHost: a\r\nContent-Length: 3\r\n") +
          "Transfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
      "PUT / HTTP/1.1\r\nHost: a\r\nContent-Length: -3\r\n\r\nabc",
  };
  for (const std::string& request : requests) {
    CAPTURE(request);
    Connection connection(house.server.port());
    const auto answer = connection.ask(request);
    REQUIRE(answer);
    CHECK(answer->status == 400);
    CHECK(answer->fields.at("content-type") == "application/problem+json");
    CHECK(answer->fields.at("connection") == "close");
  }
}

TEST_CASE("only the coordinator may send a picture, which is longer") {
  OpenHouse house;
  const std::string pixels(1'000'000, '\xC0');
  const auto ask = [&](const std::string& target, const std::string& key,
                       const std::string& pixels_sent) {
    Connection connection(house.server.port());
    return connection.ask("POST " + target + " HTTP/1.1\r\nHost: a\r\nAuthorization: Bearer " +
                          key + "\r\nContent-Type: application/octet-stream\r\nContent-Length: " +
                          std::to_string(pixels_sent.size()) + "\r\n\r\n" + pixels_sent);
  };
  const std::string picture = "/v1/picture?width=1000&height=1000";
  const auto read = ask(picture, kCoordinatorKey, pixels);
  REQUIRE(read);
  CHECK(read->status == 200);
  CHECK(read->body == "{\"texts\":[]}");
  CHECK(ask(picture, kKey, pixels)->status == 413);
  CHECK(ask("/v1/reports", kCoordinatorKey, pixels)->status == 413);
  CHECK(ask(picture, kCoordinatorKey, std::string(5'000'000, 'x'))->status == 413);
}

TEST_CASE("a body over 64 KiB gets its 413, however it comes") {
  OpenHouse house;
  const std::string head = "PUT " + report_path("fern-k1") + " HTTP/1.1\r\nHost: here\r\n";
  const auto check = [](const std::optional<Answer>& answer) {
    REQUIRE(answer);
    CHECK(answer->status == 413);
    CHECK(answer->fields.at("content-type") == "application/problem+json");
  };
  SUBCASE("announced, and nothing sent") {
    Connection connection(house.server.port());
    check(connection.ask(head + "Content-Length: 65537\r\n\r\n"));
    CHECK(connection.ends_within(milliseconds(4000)));
  }
  SUBCASE("announced and sent to the end") {
    Connection connection(house.server.port());
    const std::string body(5'000'000, 'x');
    REQUIRE(connection.send(head + "Content-Length: 5000000\r\n\r\n" + body));
    check(connection.receive());
  }
  SUBCASE("in chunks, without a length") {
    Connection connection(house.server.port());
    const std::string chunk = "4000\r\n" + std::string(0x4000, 'x') + "\r\n";
    REQUIRE(connection.send(head + "Transfer-Encoding: chunked\r\n\r\n" + chunk + chunk + chunk +
                            chunk + chunk));
    check(connection.receive());
  }
  SUBCASE("64 KiB to the byte is read") {
    Json document = report("fern-k1");
    document["extra"] = "";
    document["extra"] = std::string(65536 - dump_json(document).size(), 'x');
    const std::string body = dump_json(document);
    REQUIRE(body.size() == 65536);
    Connection connection(house.server.port());
    CHECK(connection.ask(put_text(report_path("fern-k1"), kKey, body))->status == 201);
  }
}

TEST_CASE("a header over 8 KiB is refused") {
  OpenHouse house;
  Connection connection(house.server.port());
  const auto answer = connection.ask(get_text("/", "X-Long: " + std::string(9000, 'x') + "\r\n"));
  REQUIRE(answer);
  CHECK(answer->status == 431);  // RFC 6585, 5
}

TEST_CASE("a client that asks before it sends is told to go on") {
  // RFC 9110, 10.1.1.
  OpenHouse house;
  Connection connection(house.server.port());
  const std::string whole = good_put(1, "Expect: 100-continue\r\n");
  const std::size_t body = whole.find("\r\n\r\n") + 4;
  REQUIRE(connection.send(whole.substr(0, body)));
  CHECK(connection.receive()->status == 100);
  CHECK(connection.ask(whole.substr(body))->status == 201);
}

TEST_CASE("a dripping client is cut off at the deadline while others are served") {
  HttpLimits limits;
  limits.request = milliseconds(400);
  OpenHouse house(limits);
  Connection slow(house.server.port());
  const std::string request = good_put();
  const auto start = std::chrono::steady_clock::now();
  std::size_t sent = 0;
  while (sent < request.size() && slow.send(request.substr(sent, 1)) &&
         !slow.ends_within(milliseconds(20)))
    ++sent;
  const auto lasted = std::chrono::steady_clock::now() - start;
  CHECK(sent < request.size());
  CHECK(lasted >= milliseconds(350));
  CHECK(lasted < milliseconds(3000));
  CHECK(house.writer->reports() == 0);
  Connection healthy(house.server.port());
  CHECK(healthy.ask(request)->status == 201);
}

TEST_CASE("a full house says so, and has room again when somebody leaves") {
  HttpLimits limits;
  limits.connections = 3;
  OpenHouse house(limits);
  {
    Connection first(house.server.port());
    Connection second(house.server.port());
    Connection third(house.server.port());
    CHECK(first.ask(get_text("/v1/health"))->status == 200);
    CHECK(third.ask(get_text("/v1/health"))->status == 200);
    Connection fourth(house.server.port());
    const auto answer = fourth.receive();
    REQUIRE(answer);
    CHECK(answer->status == 503);
    CHECK(answer->fields.at("retry-after") == "2");
    CHECK(second.ask(get_text("/v1/health"))->status == 200);
  }
  bool served = false;
  for (int i = 0; i < 100 && !served; ++i) {
    Connection again(house.server.port());
    const auto answer = again.ask(get_text("/v1/health"));
    served = answer && answer->status == 200;
    if (!served) std::this_thread::sleep_for(milliseconds(20));
  }
  CHECK(served);
}

TEST_CASE("stopping lets idle connections go at once and a request under way finish") {
  OpenHouse house;
  Connection idle(house.server.port());
  CHECK(idle.ask(get_text("/v1/health"))->status == 200);
  Connection fresh(house.server.port());
  Connection half(house.server.port());
  const std::string request = good_put();
  REQUIRE(half.send(request.substr(0, 100)));
  std::this_thread::sleep_for(milliseconds(100));
  std::thread stopper([&] { house.server.stop(); });
  CHECK(idle.ends_within(milliseconds(1000)));
  CHECK(fresh.ends_within(milliseconds(1000)));
  const auto answer = half.ask(request.substr(100));
  REQUIRE(answer);
  CHECK(answer->status == 201);
  CHECK(answer->fields.at("connection") == "close");
  stopper.join();
  CHECK(house.writer->reports() == 1);
}

TEST_CASE("stopping writes what still queues behind a slow disk") {
  HttpLimits limits;
  limits.farewell = milliseconds(50);
  OpenHouse house(limits);
  std::latch busy(1);
  std::latch disk(1);
  const NewReport first{"fern-k1", kDevice, 9, "{}", "digest", 1, "{}", {}, false};
  REQUIRE(house.writer->submit(first, [&](const Outcome&) {
    busy.count_down();
    disk.wait();
  }));
  busy.wait();
  Connection connection(house.server.port());
  REQUIRE(connection.send(good_put()));
  std::this_thread::sleep_for(milliseconds(200));
  std::thread slow([&] {
    std::this_thread::sleep_for(milliseconds(1200));
    disk.count_down();
  });
  house.server.stop();
  CHECK(house.writer->reports() == 2);
  slow.join();
}

TEST_CASE("stopping does not wait for those who never finish") {
  HttpLimits limits;
  limits.farewell = milliseconds(300);
  OpenHouse house(limits);
  Connection half(house.server.port());
  REQUIRE(half.send("PUT /v1/"));
  Connection deaf(house.server.port());
  REQUIRE(deaf.send(get_text("/big.txt") + get_text("/big.txt")));
  std::this_thread::sleep_for(milliseconds(100));
  const auto start = std::chrono::steady_clock::now();
  house.server.stop();
  CHECK(std::chrono::steady_clock::now() - start < milliseconds(2000));
}

}  // namespace trowelbell::collector
