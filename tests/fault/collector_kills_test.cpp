// The real collector, killed under load on loopback: what it confirmed is there, what it did not is
// absent or whole.
#include <doctest/doctest.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <map>

#include "data_folder.h"
#include "long_run.h"
#include "luck.h"
#include "simulated_collector.h"
#include "tests/collector/load.h"
#include "tests/collector/program.h"

namespace trowelbell::fault {
namespace {

using namespace collector::testing;

constexpr int kPhones = 8;
constexpr int kVisits = 40;  // so that none of them fills up

struct Books {
  std::int64_t confirmed = 0, unanswered = 0, unanswered_there = 0, losses = 0, broken = 0;
};

// What is in the file against what was sent.
Books compare(const std::vector<Sent>& sent, const std::vector<Row>& rows) {
  std::map<std::string, const Row*> by_target;
  for (const Row& row : rows)
    by_target[collector::testing::report_path(row.visit, row.device, row.revision)] = &row;
  Books books;
  for (const Sent& one : sent) {
    const auto found = by_target.find(one.target);
    const bool there = found != by_target.end();
    if (there && (found->second->body != one.body ||
                  found->second->digest != collector::hex(collector::sha256(one.body))))
      ++books.broken;
    if (one.answer.empty()) {
      ++books.unanswered;
      books.unanswered_there += there ? 1 : 0;
    } else {
      ++books.confirmed;
      books.losses += there ? 0 : 1;
    }
    by_target.erase(one.target);
  }
  books.broken += static_cast<std::int64_t>(by_target.size());  // what nobody sent
  return books;
}

}  // namespace

TEST_CASE("killed again and again under load, the collector has every report it confirmed") {
  const auto kills = static_cast<int>(long_run("TROWELBELL_KILLS", 8));
  const DataFolder home(kVisits);
  std::vector<Sent> sent;
  Luck luck(1);
  for (int round = 0; round < kills; ++round) {
    Program program(home.arguments());
    const unsigned short port = program.port();
    REQUIRE_MESSAGE(port != 0, program.messages());
    Phones phones(port, DataFolder::visit(round % kVisits), kPhones, round);
    const std::int64_t enough = luck.between(1, 80);
    const auto patience = std::chrono::steady_clock::now() + std::chrono::seconds(20);
    while (phones.confirmed() < enough && std::chrono::steady_clock::now() < patience)
      std::this_thread::sleep_for(std::chrono::microseconds(luck.between(50, 3000)));
    program.signal(SIGKILL);
    CHECK(program.wait() == -1);
    const std::vector<Sent> of_round = phones.end();
    sent.insert(sent.end(), of_round.begin(), of_round.end());
  }
  Program program(home.arguments());
  const unsigned short port = program.port();
  REQUIRE_MESSAGE(port != 0, program.messages());
  const Books books = compare(sent, rows_of(home.database()));
  std::printf(
      "collector kills: %d, reports confirmed: %lld, unanswered: %lld (of these stored whole: "
      "%lld), losses: %lld, broken: %lld\n",
      kills, static_cast<long long>(books.confirmed), static_cast<long long>(books.unanswered),
      static_cast<long long>(books.unanswered_there), static_cast<long long>(books.losses),
      static_cast<long long>(books.broken));
  CHECK(books.confirmed >= kills);
  CHECK(books.losses == 0);
  CHECK(books.broken == 0);
  CHECK(count_lost(port, sent) == 0);
}

}  // namespace trowelbell::fault
