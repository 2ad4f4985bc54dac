#include "simulated_phone.h"

#include "core/luck.h"
#include "tests/collector/support.h"

namespace trowelbell::fault {

Phone::Phone(std::string device, Brief brief, std::uint64_t seed)
    : device_(std::move(device)), brief_(std::move(brief)), seed_(seed) {
  open();
}

Phone::~Phone() = default;

// As the app does: what is stored is read, and what waits is tried at once.
void Phone::open() {
  ++opening_;
  writes_.clear();
  acknowledgements_.clear();
  clock_ = SteadyClock();
  const Write write = [this](const std::string& stream, const std::string& record,
                             std::function<void(bool)> then) {
    const std::int64_t token = next_token_++;
    writes_[token] = std::move(then);
    append(stream, record, token);
  };
  visit_ = std::make_shared<Visit>(brief_, device_, write);
  visit_->load(store_.records(visit_->stream()), true);
  clock_.not_before(visit_->journal().last_at());
  sender_ = std::make_unique<Sender>(*this, write);
  sender_->load(store_.records(Sender::kStream));
  sender_->hurry();
}

void Phone::reopen() {
  monotonic_ = 0;
  open();
}

void Phone::restore_backup() {
  store_ = backup_;
  rewound_ = true;
  reopen();
  for (Made& made : made_) {
    const OutboxEntry* entry = outbox().find(brief_.visit, made.revision);
    made.may_be_gone = entry == nullptr || entry->body != made.body;
  }
}

void Phone::send_report() {
  const std::int64_t revision = visit_->record(now(), "report");
  Json report = collector::testing::report(brief_.visit, device_, revision);
  report["note"] = "Report " + std::to_string(made_.size() + 1) + " of this phone.";
  std::string body = dump_json(report);
  sender_->enqueue(brief_.visit, brief_.key, device_, revision, body, now());
  made_.push_back({revision, std::move(body), store_.fails});
  rewound_ |= store_.fails;  // its number will be given again after the next opening
}

void Phone::pass(std::int64_t ms) {
  wall_ += ms;
  monotonic_ += ms;
}

void Phone::acknowledge() {
  while (!acknowledgements_.empty()) {
    const auto [token, ok] = acknowledgements_.front();
    acknowledgements_.pop_front();
    const auto then = writes_.extract(token);
    if (!then.empty()) then.mapped()(ok);
  }
}

bool Phone::answer(int opening, const SendResult& result) {
  if (opening != opening_) return false;
  sender_->sent(result, now());
  return true;
}

void Phone::step() {
  sender_->step(now());
}

std::int64_t Phone::idle_for() {
  const std::int64_t due = sender_->due();
  return due < 0 ? -1 : std::max<std::int64_t>(due - now(), 0);
}

std::string Phone::random_hex(std::size_t digits) {
  std::string hex;
  while (hex.size() < digits) hex += "0123456789abcdef"[draw(seed_, drawn_++) % 16];
  return hex;
}

void Phone::append(std::string_view stream, std::string_view record, std::int64_t token) {
  acknowledgements_.emplace_back(token, store_.append(stream, record));
}

void Phone::send(std::string_view path, std::string_view bearer, std::string_view body) {
  network({std::string(path), std::string(bearer), std::string(body), opening_});
}

}  // namespace trowelbell::fault
