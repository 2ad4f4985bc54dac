#include "app/sender.h"

#include <charconv>

namespace trowelbell {

void Sender::load(const std::vector<std::string>& records) {
  for (const std::string& record : records) {
    Problems problems;
    if (const auto document = parse_json(record, {256 * 1024, 8}, problems))
      outbox_.apply(*document);
  }
}

void Sender::keep(const Json& record) {
  write_(std::string(kStream), dump_json(record), [this, record](bool) { outbox_.apply(record); });
}

void Sender::enqueue(std::string_view visit, std::string_view key, std::string_view device,
                     std::int64_t revision, std::string_view body, std::int64_t now) {
  keep(Outbox::enqueue_record(visit, key, device, revision, body, now));
}

void Sender::sent(const SendResult& result, std::int64_t now) {
  const std::string hex = host_.random_hex(4);
  std::int64_t jitter = 0;
  std::from_chars(hex.data(), hex.data() + hex.size(), jitter, 16);
  const Json record = outbox_.finish(result, now, jitter % 1000);
  if (!record.is_null()) keep(record);
}

void Sender::step(std::int64_t now) {
  const OutboxEntry* entry = paused_ ? nullptr : outbox_.next(now);
  if (entry != nullptr) host_.send(report_path(*entry), entry->key, entry->body);
}

}  // namespace trowelbell
