// The outbox against a collector as the wire contract has it, with faults seeded everywhere between
// them.
#include <doctest/doctest.h>

#include <map>
#include <random>

#include "core/outbox.h"

using namespace trowelbell;

namespace {

constexpr const char* kDevice = "aaaaaaaaaaaaaaaa";

std::string digest(char digit) {
  return std::string(64, digit);
}

Json queued(std::int64_t revision, std::string_view body = "{}") {
  return Outbox::enqueue_record("fern-lane", "k3y-only-for-the-header", kDevice, revision, body,
                                1000 + revision);
}

std::string answer(std::int64_t revision, std::string_view confirmed) {
  return dump_json({{"visit", "fern-lane"},
                    {"device", kDevice},
                    {"revision", revision},
                    {"digest", confirmed},
                    {"received_at", 777}});
}

SendResult result(int status, std::string body = "", std::int64_t retry_after = -1) {
  return {status, std::move(body), digest('a'), retry_after};
}

// A collector as the wire contract has it. It will not have revision 3.
struct Collector {
  std::map<std::int64_t, std::string> reports;

  SendResult put(const OutboxEntry& entry) {
    if (entry.revision == 3)
      return result(422, R"({"type":"urn:trowelbell:problem:not-a-report"})");
    const bool first = reports.try_emplace(entry.revision, entry.body).second;
    REQUIRE(reports[entry.revision] == entry.body);
    return result(first ? 201 : 200, answer(entry.revision, digest('a')));
  }
};

// A phone with its store, behind a network that loses requests and answers; the store fails, too.
class Weather {
 public:
  explicit Weather(unsigned seed) : random_(seed), bad_(draw(90)) {}

  void run() {
    for (int turn = 0; turn < 300; ++turn) {
      if (queued_ < 4 && draw(5) == 0) queue();
      if (draw(1000) < bad_) restart();
      if (draw(10) == 0) outbox_.hurry();
      send();
      now_ += draw(3) == 0 ? draw(400'000) : draw(3000);
    }
    bad_ = 0;  // it clears up
    restart();
    while (outbox_.due() >= 0) {
      now_ = std::max(now_, outbox_.due());
      send();
    }
  }

  void check() {
    REQUIRE(static_cast<std::int64_t>(outbox_.entries().size()) == queued_);
    for (const OutboxEntry* entry : outbox_.entries()) {
      const bool wanted = entry->revision != 3;
      REQUIRE(entry->delivery == (wanted ? Delivery::received : Delivery::refused));
      REQUIRE(collector_.reports.count(entry->revision) == (wanted ? 1 : 0));
      REQUIRE(settled_[entry->revision] == 1);
    }
  }

 private:
  int draw(int below) { return static_cast<int>(random_() % static_cast<unsigned>(below)); }
  bool goes_wrong() { return draw(100) < bad_; }

  void queue() {
    ++queued_;
    store_.push_back(queued(queued_, R"({"n":)" + std::to_string(queued_) + "}"));
    REQUIRE(outbox_.apply(store_.back()));
  }

  void restart() {
    outbox_ = Outbox();
    for (const Json& record : store_) REQUIRE(outbox_.apply(record));
  }

  SendResult garbage() {
    const int statuses[] = {0, 200, 201, 302, 403, 404, 408, 425, 429, 500, 503};
    return result(statuses[draw(11)], draw(2) == 0 ? "<html>" : answer(99, digest('c')),
                  draw(3) == 0 ? draw(9000) : -1);
  }

  void send() {
    const OutboxEntry* entry = outbox_.next(now_);
    if (entry == nullptr) return;
    REQUIRE(entry->delivery == Delivery::sending);
    REQUIRE(outbox_.next(now_) == nullptr);
    SendResult got = goes_wrong() ? garbage() : collector_.put(*entry);
    if (goes_wrong()) got = garbage();  // the answer was lost
    const Json record = outbox_.finish(got, now_, draw(1000));
    REQUIRE(entry->delivery == Delivery::waiting);
    REQUIRE(entry->not_before >= now_ + 1500);
    REQUIRE(entry->not_before <= now_ + 3'600'000);
    if (record.is_null() || goes_wrong()) return;  // the store failed
    store_.push_back(record);
    REQUIRE(outbox_.apply(record));
    ++settled_[entry->revision];
  }

  std::mt19937 random_;
  int bad_;  // how much goes wrong, percent
  Collector collector_;
  std::vector<Json> store_;  // durable records
  Outbox outbox_;
  std::map<std::int64_t, int> settled_;  // durable records of an end, by revision
  std::int64_t now_ = 1'800'000'000'000;
  std::int64_t queued_ = 0;
};

}  // namespace

TEST_CASE("in any weather each report ends received once or refused, also across restarts") {
  for (unsigned seed = 0; seed < 3000; ++seed) {
    CAPTURE(seed);
    Weather weather(seed);
    weather.run();
    weather.check();
  }
}
