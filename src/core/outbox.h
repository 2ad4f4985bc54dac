// The outbox: reports that wait until the collector has confirmed them. A fold of its own durable records.
#pragma once

#include "json.h"

namespace trowelbell {

enum class Delivery { waiting, sending, received, refused };

struct OutboxEntry {
  std::string visit, device, key;
  std::int64_t revision = 0;
  std::string body;         // the exact bytes to send
  Delivery delivery = Delivery::waiting;
  std::int64_t attempts = 0;
  std::int64_t not_before = 0;  // ms; the next try
  std::int64_t received_at = 0;  // the collector's time, ms
  std::string digest;       // sha-256 hex, confirmed
  std::string refusal;      // what the collector said
};

// What came back from one PUT. `status` 0: no answer. `sent_digest`: sha-256 hex of the bytes that were sent.
struct SendResult {
  int status = 0;
  std::string body;
  std::string sent_digest;
  std::int64_t retry_after_seconds = -1;
};

class Outbox {
 public:
  // Records to make durable, as JSON; the caller appends them to the store and feeds them to `apply` when acknowledged.
  static Json enqueue_record(std::string_view visit, std::string_view key, std::string_view device,
                             std::int64_t revision, std::string_view body);
  // Takes in one durable record (at opening, or just written). False for one that cannot be understood.
  bool apply(const Json& record);

  std::vector<const OutboxEntry*> entries() const;
  const OutboxEntry* find(std::string_view visit, std::int64_t revision) const;
  // The oldest entry due at `now`, marked as sending; nullptr when none is due or one is already under way.
  const OutboxEntry* next(std::int64_t now);
  // When `next` should be asked again (ms), or -1 when nothing waits.
  std::int64_t due() const;
  void hurry();  // back online, or the app was opened: try again at once

  // The outcome of the entry under way. Returns the record to make durable (received or refused), or null to retry later:
  // exponential backoff from 2 s to 5 min, jitter from `jitter_permille` 0..999, Retry-After obeyed.
  Json finish(const SendResult& result, std::int64_t now, std::int64_t jitter_permille);

 private:
  std::vector<OutboxEntry> entries_;
};

// "/v1/visits/{visit}/reports/{device}/{revision}"
std::string report_path(const OutboxEntry& entry);

}  // namespace trowelbell
