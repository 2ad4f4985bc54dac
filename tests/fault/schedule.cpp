#include "schedule.h"

#include <algorithm>

#include "host/headless/headless_host.h"
#include "simulated_network.h"

namespace trowelbell::fault {
namespace {

constexpr std::int64_t kMinute = 60'000;
constexpr std::int64_t kStorm = 360 * kMinute;
constexpr std::int64_t kCalm = 60 * 24 * 60 * kMinute;  // after it all must have settled
constexpr std::size_t kMostReports = 40;                // of one phone
constexpr std::int64_t kDay = 24 * 60 * kMinute;

Brief brief_of(const std::string& visit) {
  Brief brief;
  brief.visit = visit;
  brief.key = collector::testing::kKey;
  brief.extra = Json::object();
  return brief;
}

class World {
 public:
  World(std::uint64_t seed, SimulatedCollector& collector, Tally& tally)
      : seed_(seed),
        luck_(seed),
        collector_(collector),
        tally_(tally),
        visit_("visit-" + std::to_string(seed)),
        network_(timeline_, collector, luck_, tally) {
    collector.know(visit_, collector::testing::kKey);
    for (const char* device : {"aaaaaaaaaaaaaaaa", "bbbbbbbbbbbbbbbb"}) {
      phones_.push_back(std::make_unique<Phone>(device, brief_of(visit_), luck_.next()));
      Phone& phone = *phones_.back();
      phone.network = [this, &phone](const Sending& sending) { network_.carry(phone, sending); };
    }
  }

  void run() {
    ++tally_.schedules;
    network_.bad = luck_.below(91);
    for (const auto& phone : phones_) plan(*phone);
    for (std::int64_t i = luck_.below(3); i > 0; --i) plan_collector();
    pass_until(kStorm);
    network_.bad = 0;
    for (const auto& phone : phones_) {
      phone->store_fails(false);
      if (luck_.percent(50)) phone->reopen();
    }
    pass_until(kStorm + kCalm);
  }

  std::vector<std::string> balance() {
    const std::vector<Row> rows = collector_.rows(visit_);
    for (const auto& phone : phones_) balance(*phone, rows);
    balance(rows);
    return std::move(wrong_);
  }

 private:
  void any_time(const std::function<void()>& what) { timeline_.after(luck_.below(kStorm), what); }

  void plan(Phone& phone) {
    for (std::int64_t i = luck_.between(1, 4); i > 0; --i)
      any_time([this, &phone] { send_report(phone); });
    for (std::int64_t i = luck_.below(4); i > 0; --i)
      any_time([this, &phone] {
        ++tally_.phone_restarts;
        phone.reopen();
      });
    for (std::int64_t i = luck_.below(6); i > 0; --i) any_time([&phone] { phone.come_online(); });
    for (std::int64_t i = luck_.below(4); i > 0; --i)
      any_time([this, &phone] {
        ++tally_.clock_jumps;
        phone.set_wall(1'800'000'000'000 + luck_.between(-400 * kDay, 400 * kDay));
      });
    if (luck_.percent(20))
      any_time([this, &phone] {
        ++tally_.store_failures;
        phone.store_fails(true);
        timeline_.after(luck_.below(30 * kMinute), [&phone] { phone.store_fails(false); });
      });
    if (luck_.percent(20))
      any_time([this, &phone] {
        phone.back_up();
        timeline_.after(luck_.below(240 * kMinute), [this, &phone] {
          if (timeline_.now >= kStorm) return;
          ++tally_.rewinds;
          phone.restore_backup();
        });
      });
  }

  void plan_collector() {
    const bool power = luck_.percent(50);
    any_time([this, power] {
      if (power) {
        ++tally_.power_cuts;
        collector_.lose_power(luck_.next());
      } else {
        ++tally_.collector_restarts;
        collector_.restart();
      }
    });
    any_time([this] { collector_.now += luck_.between(-400 * kDay, 400 * kDay); });
  }

  void send_report(Phone& phone) {
    ++tally_.reports;
    phone.send_report();
  }

  // Events and the phones' own wishes, in the order of time, up to `until` or until all is quiet.
  void pass_until(std::int64_t until) {
    for (;;) {
      std::int64_t next = timeline_.next();
      for (const auto& phone : phones_) {
        const std::int64_t idle = phone->waits_for_store() ? 0 : phone->idle_for();
        if (idle >= 0 && (next < 0 || timeline_.now + idle < next)) next = timeline_.now + idle;
      }
      if (next < 0 || next > until) break;
      pass(next - timeline_.now);
      if (timeline_.next() == timeline_.now) timeline_.take()();
      for (const auto& phone : phones_) look_at(*phone);
    }
    if (timeline_.now < until && network_.bad > 0) pass(until - timeline_.now);
  }

  void pass(std::int64_t ms) {
    timeline_.now += ms;
    collector_.now += ms;
    for (const auto& phone : phones_) phone->pass(ms);
  }

  void look_at(Phone& phone) {
    // The store answers at once or somewhat later; a phone can be killed in between.
    if (phone.waits_for_store() && luck_.percent(70)) phone.acknowledge();
    phone.step();
    const auto entries = phone.outbox().entries();
    if (entries.empty() || entries.back()->delivery != Delivery::refused) return;
    if (entries.size() > kMostReports) return;  // somebody gives up, and the books do not balance
    ++tally_.sent_again;  // "another report has this address": the volunteer sends again
    send_report(phone);
  }

  void wrong(const std::string& what) {
    wrong_.push_back("seed " + std::to_string(seed_) + ": " + what);
  }

  static const Row* find(const std::vector<Row>& rows, const std::string& device,
                         std::int64_t revision) {
    const auto found = std::ranges::find_if(
        rows, [&](const Row& row) { return row.device == device && row.revision == revision; });
    return found == rows.end() ? nullptr : &*found;
  }

  // What the phone believes, against what the collector has.
  void balance(const Phone& phone, const std::vector<Row>& rows) {
    for (const OutboxEntry* entry : phone.outbox().entries()) {
      const Row* row = find(rows, entry->device, entry->revision);
      const bool there = row != nullptr && row->body == entry->body;
      if (entry->delivery == Delivery::received) {
        ++tally_.received;
        if (there && row->digest == entry->digest && row->received_at == entry->received_at)
          continue;
        ++tally_.losses;
        wrong("a report that the phone calls received is not there");
      } else if (entry->delivery == Delivery::refused) {
        ++tally_.refused;
        if (!phone.rewound() || row == nullptr || there)
          wrong("a report was refused without need: " + entry->refusal);
      } else {
        wrong("a report still waits");
      }
    }
    for (const Made& made : phone.made()) {
      const OutboxEntry* entry = phone.outbox().find(visit_, made.revision);
      if (entry != nullptr && entry->body == made.body) continue;
      ++tally_.gone;
      if (made.may_be_gone) continue;
      ++tally_.losses;
      wrong("the phone forgot a report");
    }
    const auto entries = phone.outbox().entries();
    if (!entries.empty() && entries.back()->delivery != Delivery::received)
      wrong("the phone's last report was not received");
  }

  // The collector's own books: nothing that nobody sent, nothing twice, the newest on top.
  void balance(const std::vector<Row>& rows) {
    const Row* newest = nullptr;
    for (const Row& row : rows) {
      const bool sent = std::ranges::any_of(phones_, [&](const auto& phone) {
        return phone->device() == row.device &&
               std::ranges::any_of(phone->made(), [&](const Made& made) {
                 return made.revision == row.revision && made.body == row.body;
               });
      });
      if (!sent) wrong("the collector has a report that nobody sent");
      if (row.digest != sha256_hex(row.body)) wrong("a stored digest is wrong");
      if (find(rows, row.device, row.revision) != &row ||
          std::ranges::count(rows, row.body, &Row::body) != 1) {
        ++tally_.doubles;
        wrong("the collector has a report twice");
      }
      if (newest == nullptr || row.revision >= newest->revision) newest = &row;
    }
    if (collector_.latest(visit_) != (newest == nullptr ? "" : newest->body))
      wrong("the newest revision is not on top");
  }

  std::uint64_t seed_;
  Luck luck_;
  SimulatedCollector& collector_;
  Tally& tally_;
  std::string visit_;
  Timeline timeline_;
  Network network_;
  std::vector<std::unique_ptr<Phone>> phones_;
  std::vector<std::string> wrong_;
};

}  // namespace

std::vector<std::string> run_schedule(std::uint64_t seed, SimulatedCollector& collector,
                                      Tally& tally) {
  World world(seed, collector, tally);
  world.run();
  return world.balance();
}

}  // namespace trowelbell::fault
