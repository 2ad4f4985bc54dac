// All that the app asks of its platform. Two implementations: the web page (src/host/web with
// wasm/*.js) and the headless one of the tests (src/host/headless). Nothing here waits: answers
// come through HostListener.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/outbox.h"
#include "host/node.h"

namespace trowelbell {

// How a stream came back from the phone's store at opening.
struct StreamHealth {
  bool file = true;       // the private file could be used
  bool copy = true;       // the second copy could be used
  std::int64_t lost = 0;  // records that the witness remembers and neither copy has
};

// What the phone says about the space this app takes.
struct StorageUse {
  std::int64_t bytes = -1;  // -1: it does not tell
  bool persistent = false;  // it has promised not to clear it by itself
};

enum class Buzz { step_end, five_minutes, two_minutes };

class HostListener {
 public:
  virtual ~HostListener() = default;
  // Records of a stream in the order they were appended (union of both copies). Comes again, with
  // all of them, when another page has written or this one takes over from it.
  virtual void stream_opened(std::string_view stream, std::vector<std::string> records,
                             StreamHealth health) = 0;
  // Whether this page writes to the phone's store. Another one may have it open: then what it
  // records comes as further stream_opened, and nothing is appended here.
  virtual void writes_here(bool here) = 0;
  // The record is on disk (ok), or could not be written anywhere (the visit goes on in memory).
  virtual void appended(std::int64_t token, bool ok) = 0;
  // The text last kept with keep_names; "" for none.
  virtual void names_opened(std::string text) = 0;
  virtual void storage_told(StorageUse use) = 0;
  // A file of the app (content); `ok` false: could not be had.
  virtual void fetched(std::string_view path, bool ok, std::string text) = 0;
  virtual void sent(const SendResult& result) = 0;
  // A file that the person picked or dropped.
  virtual void file_opened(std::string text) = 0;
};

class Host {
 public:
  virtual ~Host() = default;

  virtual std::int64_t wall_ms() = 0;       // since 1970 UTC
  virtual std::int64_t monotonic_ms() = 0;  // since any moment
  virtual std::string random_hex(std::size_t digits) = 0;

  // The store: append-only streams of records (text without newlines, at most 64 KiB), durable
  // before `appended`.
  virtual void open_stream(std::string_view stream) = 0;
  virtual void append(std::string_view stream, std::string_view record, std::int64_t token) = 0;

  // The one file for first names: no stream, no second copy, gone when `text` is empty.
  virtual void open_names() = 0;
  virtual void keep_names(std::string_view text) = 0;
  // Answered by storage_told.
  virtual void ask_storage() = 0;
  // Writes to the store from now on, in place of the page that does. Answered by writes_here and,
  // for each open stream, by stream_opened.
  virtual void write_here() = 0;

  virtual void fetch(std::string_view path) = 0;
  // One PUT to the collector this page came from. Answered by sent(), always.
  virtual void send(std::string_view path, std::string_view bearer, std::string_view body) = 0;

  // The nodes of the frame just drawn, in reading order. `language`: of their texts.
  virtual void show_nodes(std::span<const Node> nodes, std::string_view language) = 0;
  virtual void announce(std::string_view text, bool urgent) = 0;
  // Title of the page, its language, and which theme colours the page around the canvas.
  virtual void set_page(std::string_view title, std::string_view language, bool dark) = 0;
  virtual bool prefers_dark() = 0;
  virtual bool prefers_still() = 0;              // reduced motion
  virtual std::string preferred_language() = 0;  // "en", "es-MX", ...

  virtual void save_file(std::string_view name, std::string_view media_type,
                         std::string_view text) = 0;
  virtual void pick_file() = 0;
  virtual void print_text(std::string_view title, std::string_view text) = 0;
  virtual void keep_awake(bool awake) = 0;
  virtual void buzz(Buzz kind) = 0;
  // Marks a place in the page's history, so that the back gesture comes to App::back.
  virtual void push_history() = 0;
};

}  // namespace trowelbell
