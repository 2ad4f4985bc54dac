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
  const auto n = [](std::int64_t value) { return static_cast<long long>(value); };
  std::printf(
      "network schedules: %lld, reports sent: %lld (of these again after a rewind: %lld), "
      "received: "
      "%lld\n"
      "  requests: %lld; offline %lld, dropped %lld, cut %lld, delayed %lld, doubled %lld, late "
      "%lld,\n"
      "  answered by strangers %lld, 429 %lld; answers lost %lld, cut %lld, replaced by 502 %lld,\n"
      "  wrong digest %lld, another report's %lld\n"
      "  collector: restarts %lld, power cuts %lld; phones: restarts %lld, rewound %lld, clock "
      "jumps %lld,\n"
      "  store failures %lld, reports gone with a phone's store %lld\n"
      "  losses: %lld, doubles: %lld\n",
      n(t.schedules), n(t.reports), n(t.resent_after_rewind), n(t.received), n(t.requests),
      n(t.offline), n(t.dropped), n(t.cut_requests), n(t.delayed), n(t.twice), n(t.late),
      n(t.strangers), n(t.too_many), n(t.lost_answers), n(t.cut_answers), n(t.errors_after),
      n(t.wrong_digests), n(t.others_answers), n(t.collector_restarts), n(t.power_cuts),
      n(t.phone_restarts), n(t.rewinds), n(t.clock_jumps), n(t.store_failures), n(t.gone),
      n(t.losses), n(t.doubles));
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
  // Each fault did happen.
  for (const std::int64_t count :
       {tally.offline, tally.dropped, tally.cut_requests, tally.delayed, tally.twice, tally.late,
        tally.strangers, tally.too_many, tally.lost_answers, tally.cut_answers, tally.errors_after,
        tally.wrong_digests, tally.others_answers, tally.collector_restarts, tally.power_cuts,
        tally.phone_restarts, tally.rewinds, tally.clock_jumps, tally.store_failures})
    CHECK(count > 0);
}
