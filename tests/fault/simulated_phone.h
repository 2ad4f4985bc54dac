// A phone without a screen: the app's own sender, visit and clocks over a platform of its own.
#pragma once

#include <deque>
#include <map>

#include "app/sender.h"
#include "host/headless/memory_store.h"

namespace trowelbell::fault {

// One PUT that left the phone. `opening`: which opening of the app waits for its answer.
struct Sending {
  std::string path, bearer, body;
  int opening = 0;
};

// A report that somebody sent from this phone.
struct Made {
  std::int64_t revision = 0;
  std::string body;
  bool may_be_gone = false;  // its record was lost with the phone's store, or never written
};

class Phone final : public Host {
 public:
  Phone(std::string device, Brief brief, std::uint64_t seed);
  Phone(const Phone&) = delete;
  Phone& operator=(const Phone&) = delete;
  ~Phone() override;

  std::function<void(const Sending&)> network;

  // The volunteer taps; the page comes to the front; the app is killed and opened again.
  void send_report();
  void come_online() { sender_->hurry(); }
  void reopen();

  // Time goes by; somebody sets the phone's clock.
  void pass(std::int64_t ms);
  void set_wall(std::int64_t ms) { wall_ = ms; }
  // What the store has to say so far.
  void acknowledge();
  bool waits_for_store() const { return !acknowledgements_.empty(); }
  // False where that opening of the app is gone: nobody hears it.
  bool answer(int opening, const SendResult& result);
  void step();
  // In how many ms it has something to send; -1: never by itself.
  std::int64_t idle_for();

  // The store fails from now on, or works again. While it fails the app tells the volunteer.
  void store_fails(bool fails) { store_.fails = fails; }
  // A backup of the whole phone, and its return.
  void back_up() { backup_ = store_; }
  void restore_backup();

  std::int64_t now() { return clock_.now(wall_, monotonic_); }
  const std::string& device() const { return device_; }
  const Outbox& outbox() const { return sender_->outbox(); }
  const std::vector<Made>& made() const { return made_; }
  bool rewound() const { return rewound_; }

 private:
  void open();

  std::int64_t wall_ms() override { return wall_; }
  std::int64_t monotonic_ms() override { return monotonic_; }
  std::string random_hex(std::size_t digits) override;
  void open_stream(std::string_view) override {}
  void append(std::string_view stream, std::string_view record, std::int64_t token) override;
  void open_names() override {}
  void keep_names(std::string_view) override {}
  void ask_storage() override {}
  void write_here() override {}
  void fetch(std::string_view) override {}
  void send(std::string_view path, std::string_view bearer, std::string_view body) override;
  void show_nodes(std::span<const Node>, std::string_view) override {}
  void announce(std::string_view, bool) override {}
  void set_page(std::string_view, std::string_view, bool) override {}
  bool prefers_dark() override { return false; }
  bool prefers_still() override { return false; }
  std::string preferred_language() override { return "en"; }
  void save_file(std::string_view, std::string_view, std::string_view) override {}
  void pick_file() override {}
  void print_text(std::string_view, std::string_view) override {}
  void keep_awake(bool) override {}
  void buzz(Buzz) override {}
  void push_history() override {}

  std::string device_;
  Brief brief_;
  std::uint64_t seed_;
  std::uint64_t drawn_ = 0;
  MemoryStore store_;   // the phone's disk: outlives an opening
  MemoryStore backup_;  // empty until back_up()
  std::int64_t wall_ = 1'800'000'000'000;
  std::int64_t monotonic_ = 0;
  std::vector<Made> made_;
  bool rewound_ = false;

  // Of one opening of the app.
  int opening_ = 0;
  std::map<std::int64_t, std::function<void(bool)>> writes_;
  std::int64_t next_token_ = 1;
  std::deque<std::pair<std::int64_t, bool>> acknowledgements_;
  SteadyClock clock_;
  std::shared_ptr<Visit> visit_;
  std::unique_ptr<Sender> sender_;
};

}  // namespace trowelbell::fault
