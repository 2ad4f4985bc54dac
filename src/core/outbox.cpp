#include "outbox.h"

#include <algorithm>

#include "report.h"
#include "utf8.h"

namespace trowelbell {
namespace {

constexpr std::int64_t kFirstDelay = 2'000;
constexpr std::int64_t kLongestDelay = 300'000;
constexpr std::int64_t kLongestRetryAfter = 3600;  // seconds
constexpr std::size_t kMostDetail = 300;           // bytes
constexpr JsonLimits kAnswerLimits{16 * 1024, 8};
constexpr std::string_view kProblem = "urn:trowelbell:problem:";

struct Address {
  std::string visit, device;
  std::int64_t revision = 0;
  explicit Address(const Reader& from)
      : visit(from.id("visit")),
        device(from.id("device")),
        revision(from.whole("revision", 1, kLargestExact)) {}
};

bool is_digest(std::string_view text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

// One line of at most kMostDetail bytes, not cut within a character, controls (also C1, two bytes)
// made spaces: such as Reader::text takes again.
std::string short_line(std::string_view text) {
  std::string line(text.substr(0, kMostDetail));
  line.resize(utf8_prefix(line));
  for (std::size_t i = 0; i < line.size(); ++i) {
    const auto byte = static_cast<unsigned char>(line[i]);
    if (byte < 0x20 || byte == 0x7F) {
      line[i] = ' ';
    } else if (byte == 0xC2 && static_cast<unsigned char>(line[i + 1]) < 0xA0) {
      line.replace(i, 2, "  ");
    }
  }
  return line;
}

// 0 where the answer does not confirm this very report.
std::int64_t confirmed_at(const OutboxEntry& entry, const SendResult& result) {
  Problems problems;
  const auto answer = parse_json(result.body, kAnswerLimits, problems);
  if (!answer) return 0;
  const Reader reader(*answer, problems);
  const Address address(reader);
  const std::string digest = reader.text("digest", 64);
  const std::int64_t at = reader.whole("received_at", 1, kLargestExact);
  const bool ours = reader.ok() && address.visit == entry.visit && address.device == entry.device &&
                    address.revision == entry.revision && digest == result.sent_digest;
  return ours ? at : 0;
}

// What the collector's problem document (RFC 9457) says, its title where it has no detail. Nothing
// where the answer is not the collector's: a school's filter or a captive portal says 403 or 404 to
// whatever it does not know, and the report may well pass from another place.
std::optional<std::string> refusal_text(const SendResult& result) {
  Problems problems;
  const auto answer = parse_json(result.body, kAnswerLimits, problems);
  if (!answer) return std::nullopt;
  const Reader reader(*answer, problems);
  if (!reader.text_or("type", kMostDetail, "").starts_with(kProblem)) return std::nullopt;
  for (const char* name : {"detail", "title"}) {
    const auto found = answer->find(name);
    const auto* text = found == answer->end() ? nullptr : found->get_ptr<const std::string*>();
    if (text != nullptr && !text->empty()) return short_line(*text);
  }
  return "HTTP " + std::to_string(result.status);
}

bool is_refusal(int status) {
  return status >= 400 && status < 500 && status != 408 && status != 425 && status != 429;
}

std::int64_t backoff(std::int64_t attempts, std::int64_t jitter_permille) {
  std::int64_t delay = kFirstDelay;
  for (std::int64_t i = 1; i < attempts && delay < kLongestDelay; ++i) delay *= 2;
  return std::min(delay, kLongestDelay) *
         (1500 + std::clamp<std::int64_t>(jitter_permille, 0, 999)) / 2000;
}

}  // namespace

Json Outbox::enqueue_record(std::string_view visit, std::string_view key, std::string_view device,
                            std::int64_t revision, std::string_view body, std::int64_t at) {
  return {{"queued",
           {{"visit", visit},
            {"device", device},
            {"key", key},
            {"revision", revision},
            {"body", body},
            {"at", at}}}};
}

OutboxEntry* Outbox::find(std::string_view visit, std::string_view device, std::int64_t revision) {
  const auto found = std::find_if(entries_.begin(), entries_.end(), [&](const OutboxEntry& entry) {
    return entry.visit == visit && entry.device == device && entry.revision == revision;
  });
  return found == entries_.end() ? nullptr : &*found;
}

bool Outbox::apply(const Json& record) {
  Problems problems;
  const Reader whole(record, problems);
  const std::string kind = whole.has("queued")     ? "queued"
                           : whole.has("received") ? "received"
                                                   : "refused";
  const Reader reader = whole.object(kind);
  const Address address(reader);
  OutboxEntry* entry = find(address.visit, address.device, address.revision);

  if (kind == "queued") {
    OutboxEntry queued;
    queued.visit = address.visit;
    queued.device = address.device;
    queued.revision = address.revision;
    queued.key = reader.text("key", 64);
    queued.body = reader.text("body", kReportLimits.bytes, true);
    queued.queued_at = reader.whole("at", 0, kLargestExact);
    if (!reader.ok()) return false;
    if (entry != nullptr) return entry->body == queued.body;
    entries_.push_back(std::move(queued));
    return true;
  }
  if (kind == "received") {
    const std::string digest = reader.text("digest", 64);
    const std::int64_t at = reader.whole("received_at", 1, kLargestExact);
    if (!reader.ok() || !is_digest(digest) || entry == nullptr) return false;
    if (entry->delivery == Delivery::received) return true;
    entry->delivery = Delivery::received;
    entry->digest = digest;
    entry->received_at = at;
    entry->refusal.clear();
    return true;
  }
  reader.whole("status", 400, 499);
  std::string detail = reader.text("detail", kMostDetail);
  if (!reader.ok() || entry == nullptr) return false;
  if (entry->delivery == Delivery::received || entry->delivery == Delivery::refused) return true;
  entry->delivery = Delivery::refused;
  entry->refusal = std::move(detail);
  return true;
}

std::vector<const OutboxEntry*> Outbox::entries() const {
  std::vector<const OutboxEntry*> all;
  for (const OutboxEntry& entry : entries_) all.push_back(&entry);
  return all;
}

const OutboxEntry* Outbox::find(std::string_view visit, std::int64_t revision) const {
  const auto found = std::find_if(
      entries_.rbegin(), entries_.rend(),
      [&](const OutboxEntry& entry) { return entry.visit == visit && entry.revision == revision; });
  return found == entries_.rend() ? nullptr : &*found;
}

const OutboxEntry* Outbox::next(std::int64_t now) {
  if (under_way_) return nullptr;
  const auto found = std::find_if(entries_.begin(), entries_.end(), [&](const OutboxEntry& entry) {
    return entry.delivery == Delivery::waiting && entry.not_before <= now;
  });
  if (found == entries_.end()) return nullptr;
  under_way_ = static_cast<std::size_t>(found - entries_.begin());
  found->delivery = Delivery::sending;
  return &*found;
}

std::int64_t Outbox::due() const {
  std::int64_t earliest = -1;
  for (const OutboxEntry& entry : entries_) {
    if (entry.delivery == Delivery::waiting && (earliest < 0 || entry.not_before < earliest)) {
      earliest = entry.not_before;
    }
  }
  return under_way_ ? -1 : earliest;
}

void Outbox::hurry() {
  for (OutboxEntry& entry : entries_) entry.not_before = entry.asked_until;
}

Json Outbox::finish(const SendResult& result, std::int64_t now, std::int64_t jitter_permille) {
  if (!under_way_) return nullptr;
  OutboxEntry& entry = entries_[*under_way_];
  under_way_.reset();
  // A record that came in meanwhile (from the other copy of the store) has settled it.
  if (entry.delivery != Delivery::sending) return nullptr;
  entry.delivery = Delivery::waiting;
  ++entry.attempts;
  entry.not_before = now + backoff(entry.attempts, jitter_permille);

  const Json address = {
      {"visit", entry.visit}, {"device", entry.device}, {"revision", entry.revision}};
  if (result.status == 200 || result.status == 201) {
    if (const std::int64_t at = confirmed_at(entry, result); at > 0) {
      Json received = address;
      received["digest"] = result.sent_digest;
      received["received_at"] = at;
      return {{"received", received}};
    }
  } else if (is_refusal(result.status)) {
    if (const auto text = refusal_text(result)) {
      Json refused = address;
      refused["status"] = result.status;
      refused["detail"] = *text;
      return {{"refused", refused}};
    }
  }
  if (result.retry_after_seconds > 0) {
    entry.asked_until = now + std::min(result.retry_after_seconds, kLongestRetryAfter) * 1000;
    entry.not_before = std::max(entry.not_before, entry.asked_until);
  }
  return nullptr;
}

std::string report_path(const OutboxEntry& entry) {
  return "/v1/visits/" + entry.visit + "/reports/" + entry.device + "/" +
         std::to_string(entry.revision);
}

}  // namespace trowelbell
