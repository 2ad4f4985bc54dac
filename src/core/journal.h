// All events of one visit, from one or more devices, in their one order; and the clock that stamps new ones.
#pragma once

#include "event.h"

namespace trowelbell {

// Time on one phone that never runs backwards: it goes on by whichever of the wall clock and the monotonic clock moved
// more since the last look (the wall clock alone sees a phone's sleep; the monotonic one alone sees a clock set back).
class SteadyClock {
 public:
  // Both in ms; the wall clock since 1970 UTC. Returns ms since 1970 UTC.
  std::int64_t now(std::int64_t wall_ms, std::int64_t monotonic_ms);
  // An event made earlier is known: never give a time at or before it.
  void not_before(std::int64_t at);

 private:
  std::int64_t now_ = 0;
  std::int64_t wall_ = 0;
  std::int64_t monotonic_ = 0;
  bool started_ = false;
};

class Journal {
 public:
  explicit Journal(std::string device) : device_(std::move(device)) {}

  const std::string& device() const { return device_; }
  std::span<const Event> events() const { return events_; }
  std::int64_t last_at() const { return events_.empty() ? 0 : events_.back().at; }

  // A new event of this device, stamped max(now, last_at + 1), added and returned.
  Event append(std::int64_t now, std::string_view kind, Json data);
  // Union with events from a store or another phone. False (and nothing changed) for an event already known.
  bool merge(const Event& event);

  // The newest event of this device that undo would take back, if any: not undone, and of a kind that can be.
  const Event* undoable() const;
  const Event* find(std::string_view device, std::int64_t seq) const;

 private:
  std::string device_;
  std::int64_t next_seq_ = 1;
  std::vector<Event> events_;
};

// The events that count: those not taken back by an undo that itself counts; undo events left out.
std::vector<const Event*> effective(std::span<const Event> events);

}  // namespace trowelbell
