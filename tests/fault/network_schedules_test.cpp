// Exactly once: whatever the network, the phones and the collector do, every report that
// was sent is stored once with its bytes, and the phone believes so if and only if it is.
#include <doctest/doctest.h>

#include <cstdio>

#include "long_run.h"
#include "schedule.h"

using namespace trowelbell::fault;

namespace {

// A fresh database now and then, so that a power cut has little to copy.
constexpr std::int64_t kSchedulesOfDatabase = 25;

void print(const Tally& t) {
  const std::pair<const char*, std::int64_t> counts[] = {
      {"network schedules", t.schedules},
      {"reports sent", t.reports},
      {"of these again, because their address was taken", t.sent_again},
      {"received", t.received},
      {"refused, their address taken before the phone was set back", t.refused},
      {"gone with a phone's store", t.gone},
      {"requests", t.requests},
      {"no signal", t.offline},
      {"dropped", t.dropped},
      {"cut on the way", t.cut_requests},
      {"delayed", t.delayed},
      {"doubled", t.twice},
      {"arrived after the phone gave up", t.late},
      {"answered by a stranger", t.strangers},
      {"429 with Retry-After", t.too_many},
      {"answer lost", t.lost_answers},
      {"answer cut", t.cut_answers},
      {"answer replaced by 502", t.errors_after},
      {"answer with a wrong digest", t.wrong_digests},
      {"another report's answer", t.others_answers},
      {"collector started anew", t.collector_restarts},
      {"collector's power cut", t.power_cuts},
      {"phone's app opened anew", t.phone_restarts},
      {"phone set back to an old state", t.rewinds},
      {"phone's clock set", t.clock_jumps},
      {"phone's store failed", t.store_failures},
      {"losses", t.losses},
      {"doubles", t.doubles},
      {"tries before Retry-After was over", t.too_early}};
  for (const auto& [name, count] : counts)
    std::printf("%10lld  %s\n", static_cast<long long>(count), name);
}

}  // namespace

TEST_CASE("seeded network schedules: every report once, with its bytes, and both sides agree") {
  const std::int64_t schedules = long_run("TROWELBELL_SCHEDULES", 300);
  FaultyDisk disk;
  std::unique_ptr<SimulatedCollector> collector;
  Tally tally;
  for (std::int64_t seed = 0; seed < schedules; ++seed) {
    if (seed % kSchedulesOfDatabase == 0) collector = std::make_unique<SimulatedCollector>(disk);
    const auto wrong = run_schedule(static_cast<std::uint64_t>(seed), *collector, tally);
    for (const std::string& what : wrong) FAIL_CHECK(what);
  }
  print(tally);
  CHECK(tally.losses == 0);
  CHECK(tally.doubles == 0);
  CHECK(tally.too_early == 0);
  CHECK(tally.received + tally.refused + tally.gone == tally.reports);
  // Each fault did happen.
  for (const std::int64_t count :
       {tally.offline, tally.dropped, tally.cut_requests, tally.delayed, tally.twice, tally.late,
        tally.strangers, tally.too_many, tally.lost_answers, tally.cut_answers, tally.errors_after,
        tally.wrong_digests, tally.others_answers, tally.collector_restarts, tally.power_cuts,
        tally.phone_restarts, tally.rewinds, tally.clock_jumps, tally.store_failures})
    CHECK(count > 0);
}
