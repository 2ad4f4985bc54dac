// The platform of native tests: clocks that the test sets, a store in memory, content from a
// folder, a network that is a function. Everything the app asked for is kept for the test to look
// at. Answers wait until `deliver`.
#pragma once

#include <deque>
#include <filesystem>
#include <functional>
#include <random>
#include <set>

#include "host/headless/memory_store.h"

namespace trowelbell {

struct Announcement {
  std::string text;
  bool urgent = false;
};

struct SavedFile {
  std::string name, media_type, text;
};

struct PrintedText {
  std::string title, text;
};

struct PageState {
  std::string title, language;
  bool dark = false;
};

// Answers one PUT as a collector would. A `sent_digest` left empty is filled in with that of the
// body.
using Network = std::function<SendResult(std::string_view path, std::string_view bearer,
                                         std::string_view body)>;

// SHA-256 in hex digits (libsodium).
std::string sha256_hex(std::string_view bytes);

class HeadlessHost final : public Host {
 public:
  // `content`: the folder that fetch() reads as "content/...". `store` must outlive the host.
  HeadlessHost(std::filesystem::path content, MemoryStore& store);

  // Whom answers go to. They are dropped, as with a closed page, while there is nobody.
  void listen(HostListener* listener) { listener_ = listener; }
  // Hands over every answer that waits, and those that come of it.
  void deliver();
  // Every open stream is handed over once more, as when another page has written to the store.
  void refresh();
  // Time goes by: both clocks.
  void pass(std::int64_t ms);
  // Someone sets the phone's clock; the monotonic one goes on.
  void set_wall(std::int64_t ms) { wall_ = ms; }

  // What a test sets.
  Network network;                     // none: no signal
  bool hold_acknowledgements = false;  // records get written, but the app is not told (yet)
  bool dark_preferred = false;
  bool still_preferred = false;
  std::string language_preferred = "en-US";
  StorageUse storage{1'234'567, true};
  std::string picked_file;  // what the person picks; empty: nothing

  // What the app asked for. `nodes`: of the last frame that was drawn.
  std::vector<Node> nodes;
  std::string nodes_language;
  std::vector<Announcement> announcements;
  std::vector<SavedFile> saved;
  std::vector<PrintedText> printed;
  std::vector<Buzz> buzzes;
  std::vector<std::string> sent_bodies;
  PageState page;
  bool awake = false;
  int history = 0;  // places marked

  std::int64_t wall_ms() override { return wall_; }
  std::int64_t monotonic_ms() override { return monotonic_; }
  std::string random_hex(std::size_t digits) override;
  void open_stream(std::string_view stream) override;
  void append(std::string_view stream, std::string_view record, std::int64_t token) override;
  void open_names() override;
  void keep_names(std::string_view text) override { store_.names = text; }
  void ask_storage() override;
  void write_here() override;
  void fetch(std::string_view path) override;
  void send(std::string_view path, std::string_view bearer, std::string_view body) override;
  void show_nodes(std::span<const Node> shown, std::string_view language) override;
  void announce(std::string_view text, bool urgent) override;
  void set_page(std::string_view title, std::string_view language, bool dark) override;
  bool prefers_dark() override { return dark_preferred; }
  bool prefers_still() override { return still_preferred; }
  std::string preferred_language() override { return language_preferred; }
  void save_file(std::string_view name, std::string_view media_type,
                 std::string_view text) override;
  void pick_file() override;
  void print_text(std::string_view title, std::string_view text) override;
  void keep_awake(bool keep) override { awake = keep; }
  void buzz(Buzz kind) override { buzzes.push_back(kind); }
  void push_history() override { ++history; }

 private:
  using Answer = std::function<void(HostListener&)>;
  std::filesystem::path content_;
  MemoryStore& store_;
  HostListener* listener_ = nullptr;
  std::set<std::string, std::less<>> opened_;
  std::deque<Answer> answers_;
  std::deque<Answer> held_;
  std::int64_t wall_ = 1'760'000'000'000;
  std::int64_t monotonic_ = 0;
  std::mt19937_64 random_{1};  // the same digits in every run
};

}  // namespace trowelbell
