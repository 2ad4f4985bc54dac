// Carries reports from the outbox to the collector: one at a time, again until confirmed, across
// openings of the app.
#pragma once

#include "app/visit.h"
#include "core/outbox.h"
#include "host/host.h"

namespace trowelbell {

class Sender {
 public:
  static constexpr std::string_view kStream = "outbox";

  Sender(Host& host, Write write) : host_(host), write_(std::move(write)) {}

  void load(const std::vector<std::string>& records);
  // Puts a report in the outbox; it leaves once that is durable.
  void enqueue(std::string_view visit, std::string_view key, std::string_view device,
               std::int64_t revision, std::string_view body, std::int64_t now);
  void sent(const SendResult& result, std::int64_t now);
  // Sends what is due.
  void step(std::int64_t now);
  void hurry() { outbox_.hurry(); }
  // Another page of this phone sends.
  void pause(bool paused) { paused_ = paused; }

  const Outbox& outbox() const { return outbox_; }
  std::int64_t due() const { return paused_ ? -1 : outbox_.due(); }

 private:
  void keep(const Json& record);

  Host& host_;
  Write write_;
  Outbox outbox_;
  bool paused_ = false;
};

}  // namespace trowelbell
