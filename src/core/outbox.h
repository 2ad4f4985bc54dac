// The outbox: reports that wait until the collector has confirmed them. A fold of its own durable
// records:
//   {"queued":   {"visit", "device", "key", "revision", "body", "at"}}
//   {"received": {"visit", "device", "revision", "digest", "received_at"}}
//   {"refused":  {"visit", "device", "revision", "status", "detail"}}
// Nothing is ever taken out of it. Times in ms since 1970 UTC.
#pragma once

#include <deque>

#include "json.h"

namespace trowelbell {

enum class Delivery { waiting, sending, received, refused };

struct OutboxEntry {
  std::string visit, device;
  std::string key;  // the visit's bearer key: a secret, for the request's header only
  std::int64_t revision = 0;
  std::string body;  // the exact bytes to send
  std::int64_t queued_at = 0;
  Delivery delivery = Delivery::waiting;
  std::int64_t attempts = 0;     // answered or failed since the app was opened
  std::int64_t not_before = 0;   // the next try
  std::int64_t asked_until = 0;  // the collector asked for no try before this
  std::int64_t received_at = 0;  // by the collector's clock
  std::string digest;            // sha-256 hex, confirmed
  // What the collector said, at most 300 bytes; "HTTP 413" where it said nothing.
  std::string refusal;
};

// What came back from one PUT. `status` 0: no answer. `sent_digest`: sha-256 hex of the bytes that
// were sent.
struct SendResult {
  int status = 0;
  std::string body;
  std::string sent_digest;
  std::int64_t retry_after_seconds = -1;
};

class Outbox {
 public:
  // Records to make durable, as JSON; the caller appends them to the store and feeds them to
  // `apply` when acknowledged. `at`: now, by the phone's SteadyClock.
  static Json enqueue_record(std::string_view visit, std::string_view key, std::string_view device,
                             std::int64_t revision, std::string_view body, std::int64_t at);
  // Takes in one durable record (at opening, or just written); once more changes nothing.
  // `received` has the last word, `refused` the next. False, and nothing changed, for one that
  // cannot be understood, is about a report never queued, or queues other bytes under an address
  // already taken.
  bool apply(const Json& record);

  // In the order queued. The pointers stay good as long as the outbox.
  std::vector<const OutboxEntry*> entries() const;
  // The newest where several devices made this revision; nullptr for none.
  const OutboxEntry* find(std::string_view visit, std::int64_t revision) const;
  // The oldest entry due at `now`, marked as sending; nullptr when none is due or one is already
  // under way.
  const OutboxEntry* next(std::int64_t now);
  // When `next` should be asked again (ms; at once where that is past), or -1 when nothing waits or
  // one is under way (then ask after `finish`).
  std::int64_t due() const;
  // Back online, or the app came to the front: try again at once, but not before a time the
  // collector asked for.
  void hurry();

  // The outcome of the entry under way. Returns the record to make durable, or null to retry later.
  // Received: 200 or 201 whose body names this visit, device, revision and the digest of what was
  // sent. Refused: 4xx but 408, 425 and 429, with a problem document (RFC 9457) of the collector,
  // whose type begins with "urn:trowelbell:problem:". Anything else is tried again (an answer that
  // is not the collector's may be a captive portal's or a school filter's): 2 s * 2^n up to 5 min,
  // -25 % to +25 % by
  // `jitter_permille` 0..999, and not before a Retry-After of up to an hour. Until its record is
  // applied the entry waits as after a failed try, so a failed write costs a second, harmless PUT.
  Json finish(const SendResult& result, std::int64_t now, std::int64_t jitter_permille);

 private:
  OutboxEntry* find(std::string_view visit, std::string_view device, std::int64_t revision);

  std::deque<OutboxEntry> entries_;  // a deque: it grows without moving what is in it
  std::optional<std::size_t> under_way_;
};

// "/v1/visits/{visit}/reports/{device}/{revision}"
std::string report_path(const OutboxEntry& entry);

}  // namespace trowelbell
