#include "journal.h"

#include <algorithm>
#include <tuple>

namespace trowelbell {
namespace {

// Above what rounding and slewing make of two clocks, below the shortest sleep worth noticing.
constexpr std::int64_t kDisagreement = 1000;

auto key(const Event& event) {
  return std::tie(event.at, event.device, event.seq);
}

// Where an event of this key is, or would be.
auto locate(auto& events, const std::tuple<std::int64_t, std::string, std::int64_t>& wanted) {
  return std::lower_bound(
      events.begin(), events.end(), wanted,
      [](const Event& event, const auto& sought) { return key(event) < sought; });
}

// The event an undo names, as (device, seq); seq 0 for anything that is not an undo.
std::pair<std::string, std::int64_t> undo_target(const Event& event) {
  if (event.kind != "undo") return {};
  Problems problems;
  const Reader data(event.data, problems);
  std::string device = data.id("device");
  const std::int64_t seq = data.whole("seq", 1, INT64_MAX);
  if (!data.ok()) return {};
  return {std::move(device), seq};
}

}  // namespace

std::int64_t SteadyClock::now(std::int64_t wall_ms, std::int64_t monotonic_ms) {
  if (!started_) {
    started_ = true;
    now_ = std::max(now_, wall_ms);
    anchor_ = now_;
    wall_ = wall_ms;
    monotonic_ = monotonic_ms;
    return now_;
  }
  const std::int64_t by_wall = wall_ms - wall_;
  const std::int64_t by_monotonic = monotonic_ms - monotonic_;
  now_ = std::max({now_, anchor_ + by_wall, anchor_ + by_monotonic});
  if (std::abs(by_wall - by_monotonic) > kDisagreement) {
    anchor_ = now_;
    wall_ = wall_ms;
    monotonic_ = monotonic_ms;
  }
  return now_;
}

void SteadyClock::not_before(std::int64_t at) {
  const std::int64_t ahead = std::max<std::int64_t>(at + 1 - now_, 0);
  now_ += ahead;
  anchor_ += ahead;
}

Event Journal::append(std::int64_t now, std::string_view kind, Json data) {
  Event event{device_, next_seq_, std::max(now, last_at() + 1), std::string(kind), std::move(data)};
  merge(event);
  return event;
}

bool Journal::merge(const Event& event) {
  const auto [known, is_new] = known_.try_emplace({event.device, event.seq}, event.at);
  if (!is_new) {
    const auto rival = locate(events_, {known->second, event.device, event.seq});
    if (*rival <= event) return false;
    events_.erase(rival);
    known->second = event.at;
  }
  events_.insert(std::upper_bound(events_.begin(), events_.end(), event), event);
  if (event.device == device_) next_seq_ = std::max(next_seq_, event.seq + 1);
  return true;
}

const Event* Journal::undoable() const {
  const auto counting = effective(events_);
  for (auto each = counting.rbegin(); each != counting.rend(); ++each) {
    const Event& event = **each;
    const bool can_be =
        event.kind != "report" && (event.kind != "start" || each == counting.rbegin());
    if (event.device == device_ && can_be) return &event;
  }
  return nullptr;
}

const Event* Journal::find(std::string_view device, std::int64_t seq) const {
  const auto known = known_.find({std::string(device), seq});
  if (known == known_.end()) return nullptr;
  return &*locate(events_, {known->second, known->first.first, seq});
}

std::vector<const Event*> effective(std::span<const Event> events) {
  std::map<std::pair<std::string_view, std::int64_t>, std::size_t> position;
  for (std::size_t i = 0; i < events.size(); ++i) {
    position.try_emplace({events[i].device, events[i].seq}, i);
  }
  // From the newest back: whether an undo counts is settled before what it takes back is looked at.
  std::vector<bool> undone(events.size(), false);
  for (std::size_t i = events.size(); i-- > 0;) {
    const auto [device, seq] = undo_target(events[i]);
    if (seq == 0 || undone[i]) continue;
    const auto target = position.find({device, seq});
    if (target != position.end() && target->second < i) undone[target->second] = true;
  }
  std::vector<const Event*> counting;
  for (std::size_t i = 0; i < events.size(); ++i) {
    if (!undone[i] && events[i].kind != "undo") counting.push_back(&events[i]);
  }
  return counting;
}

}  // namespace trowelbell
