#include "host/headless/memory_store.h"

#include <algorithm>

namespace trowelbell {

bool MemoryStore::append(std::string_view stream, std::string_view record) {
  if (fails || (!file && !copy)) return false;
  Stream& log = streams_[std::string(stream)];
  log.records.emplace_back(record);
  log.witness = std::max(log.witness, log.records.size());
  return true;
}

std::vector<std::string> MemoryStore::records(std::string_view stream) const {
  const auto found = streams_.find(stream);
  return found == streams_.end() ? std::vector<std::string>{} : found->second.records;
}

std::size_t MemoryStore::acknowledged() const {
  std::size_t all = 0;
  for (const auto& [name, stream] : streams_) all += stream.witness;
  return all;
}

StreamHealth MemoryStore::health(std::string_view stream) const {
  StreamHealth health{.file = file, .copy = copy, .lost = 0};
  const auto found = streams_.find(stream);
  if (found != streams_.end()) {
    health.lost = static_cast<std::int64_t>(found->second.witness - found->second.records.size());
  }
  return health;
}

void MemoryStore::lose(std::string_view stream, std::size_t count) {
  const auto found = streams_.find(stream);
  if (found == streams_.end()) return;
  auto& records = found->second.records;
  records.resize(records.size() - std::min(count, records.size()));
}

}  // namespace trowelbell
