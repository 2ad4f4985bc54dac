// One seeded schedule: two phones, a network with every fault, and the collector, in simulated
// time. The storm lasts six hours; then the weather clears, and the books must balance.
#pragma once

#include <string>
#include <vector>

#include "simulated_collector.h"

namespace trowelbell::fault {

struct Tally {
  std::int64_t schedules = 0, reports = 0, received = 0, refused = 0, sent_again = 0, gone = 0;
  std::int64_t requests = 0, offline = 0, dropped = 0, cut_requests = 0, delayed = 0, twice = 0;
  std::int64_t late = 0, strangers = 0, too_many = 0, lost_answers = 0, cut_answers = 0;
  std::int64_t errors_after = 0, wrong_digests = 0, others_answers = 0;
  std::int64_t collector_restarts = 0, power_cuts = 0, phone_restarts = 0, rewinds = 0;
  std::int64_t clock_jumps = 0, store_failures = 0;
  std::int64_t losses = 0, doubles = 0, too_early = 0;
};

// Runs it against `collector`, which may have served other seeds before. Adds to `tally`; gives one
// sentence for each thing that was wrong at the end, none where all is well.
std::vector<std::string> run_schedule(std::uint64_t seed, SimulatedCollector& collector,
                                      Tally& tally);

}  // namespace trowelbell::fault
