// The network between simulated phones and the collector, in simulated time: drops, delays,
// doubles, reorders, cuts, answers in the collector's place, and falsifies what it carries.
#pragma once

#include <functional>
#include <map>

#include "luck.h"
#include "schedule.h"
#include "simulated_phone.h"

namespace trowelbell::fault {

// What happens when, in the order of time; of equal times, in the order planned.
class Timeline {
 public:
  std::int64_t now = 0;
  void after(std::int64_t ms, std::function<void()> what) {
    events_.emplace(now + ms, std::move(what));
  }
  // The time of the next event; -1 for none.
  std::int64_t next() const { return events_.empty() ? -1 : events_.begin()->first; }
  std::function<void()> take() { return std::move(events_.extract(events_.begin()).mapped()); }

 private:
  std::multimap<std::int64_t, std::function<void()>> events_;
};

class Network {
 public:
  Network(Timeline& timeline, SimulatedCollector& collector, Luck& luck, Tally& tally)
      : timeline_(timeline), collector_(collector), luck_(luck), tally_(tally) {}

  // Chance of a fault at each turn, in percent; 0: it works.
  std::int64_t bad = 0;
  void carry(Phone& phone, const Sending& sending);

 private:
  // Of one request; its copies share it, and the phone hears one outcome.
  struct Exchange;
  // The last Retry-After that a phone has heard: this sending not before that time on its clock.
  struct Asked {
    std::string path;
    int opening = 0;
    std::int64_t until = 0;
  };
  using Shared = std::shared_ptr<Exchange>;

  bool fault() { return luck_.percent(bad); }
  bool never_arrives(const Shared& exchange);
  void arrive(const Shared& exchange);
  void come_back(const Shared& exchange, const collector::Response& response);
  void settle(const Shared& exchange, std::int64_t after, int status, std::string body,
              std::int64_t retry_after = -1);

  Timeline& timeline_;
  SimulatedCollector& collector_;
  Luck& luck_;
  Tally& tally_;
  std::string earlier_answer_;
  std::map<const Phone*, Asked> asked_;
};

}  // namespace trowelbell::fault
