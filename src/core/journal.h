// All events of one visit, from one or more devices, in their one order; and the clock that stamps
// new ones.
#pragma once

#include <map>
#include <utility>

#include "event.h"

namespace trowelbell {

// Time on one phone that never runs backwards: it goes on by whichever of the wall clock and the
// monotonic clock moved more (the wall clock alone sees a phone's sleep; the monotonic one alone
// sees a clock set back). Both are measured from a common anchor, not from look to look, so that
// their rounding does not add up; the anchor is set anew whenever they disagree by more than a
// second. A clock set forward cannot be told from sleep and counts as time gone by.
class SteadyClock {
 public:
  // Both in ms; the wall clock since 1970 UTC. Returns ms since 1970 UTC.
  std::int64_t now(std::int64_t wall_ms, std::int64_t monotonic_ms);
  // An event made earlier is known: never give a time at or before it, and go on from there.
  void not_before(std::int64_t at);

 private:
  std::int64_t now_ = 0;
  std::int64_t anchor_ = 0;  // what `now` was when the clocks stood at these two
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

  // A new event of this device, stamped max(now, last_at + 1), added and returned. Its seq follows
  // the highest known of this device.
  Event append(std::int64_t now, std::string_view kind, Json data);
  // Union with events from a store or another phone. False (and nothing changed) for an event
  // already known. Should two different events claim one (device, seq), the lesser in Event's order
  // stays, whichever came first: any order of arrival gives the same journal. How many events may
  // come in is for the reader of a file to bound (kMostEvents).
  bool merge(const Event& event);

  // The newest event of this device that undo would take back, if any: not undone, no undo and no
  // report; the start only while nothing that counts came after it on any device. Valid until the
  // journal changes.
  const Event* undoable() const;
  const Event* find(std::string_view device, std::int64_t seq) const;

 private:
  std::string device_;
  std::int64_t next_seq_ = 1;
  std::vector<Event> events_;
  std::map<std::pair<std::string, std::int64_t>, std::int64_t> known_;  // (device, seq) -> at
};

// The events that count: those not taken back by an undo that itself counts; undo events left out.
// `events` in their one order; an undo reaches only what stands before it there, on any device, so
// undos of undos always end.
std::vector<const Event*> effective(std::span<const Event> events);

}  // namespace trowelbell
