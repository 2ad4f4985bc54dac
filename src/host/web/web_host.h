// The web page as a platform. C++ and JavaScript meet only in the functions of this table; all of
// them live in web_host.cpp (C++ to JavaScript) and main.cpp (JavaScript to C++), and on the other
// side in wasm/host.js.
//
// clang-format off
// C++ asks Module['host'] (wasm/host.js)      | answered by / what for
// --------------------------------------------+------------------------------------------------------
// open_stream(stream)                         | page_stream_opened            wasm/ahead.js
// append(stream, record, token)               | page_appended                 wasm/store.js
// open_names(), keep_names(text)              | page_names_opened             wasm/names-file.js
// ask_storage()                               | page_storage_told
// write_here()                                | page_writes_here              wasm/store.js
// fetch(path)                                 | page_fetched                  wasm/load.js
// send(path, bearer, body)                    | page_sent                     wasm/net.js
// show_nodes(json, language)                  | the mirror                    node_text.h, wasm/mirror.js
// announce(text, urgent)                      | the live regions              wasm/announcer.js
// set_page(title, language, dark)             | title, lang, colours round the canvas
// prefers_dark(), prefers_still()             | 1 or 0
// preferred_language(), random_hex(digits)    | a string
// monotonic_ms()                              | ms, sleep included
// save_file(name, type, text), pick_file()    | page_file_opened              wasm/device.js
// print_text(title, text), keep_awake(on)     |                               wasm/device.js
// buzz(kind)                                  | 0 step end, 1 five, 2 two minutes
// push_history()                              | page_back, when it is left
// request_frame(), set_timer(ms or -1)        | page_frame, page_timer
// font_bytes(i), font(i)                      | the faces: 0 regular, 1 bold
//
// JavaScript calls (texts: UTF-8 in memory that the caller frees)
// --------------------------------------------+------------------------------------------------------
// page_open(fragment)                         | once; 0: this browser cannot draw (no WebGL 2)
// page_frame(), page_timer()                  | draw now (1: drawn); the timer has run out
// page_released()                             | a finger or mouse button was lifted: take the tap now
// page_viewport(top, right, bottom, left,     | safe-area insets and what a soft keyboard hides,
//               covered)                      |   CSS px
// page_activate(node), page_focus(node),      | from the mirror
//   page_type(node, text)                     |
// page_back(), page_shown(visible),           |
//   page_online(), page_open_link(fragment)   |
// page_phone_changed()                        | it prefers another language, other colors or motion
// page_stream_opened(stream, records, count,  | records joined by "\n"
//                    file, copy, lost)        |
// page_writes_here(here)                      |
// page_appended(token, ok)                    |
// page_fetched(path, ok, text)                |
// page_names_opened(text)                     |
// page_storage_told(bytes or -1, persistent)  |
// page_sent(status, body, digest,             |
//           retry_after_seconds)              |
// page_file_opened(text)                      |
// clang-format on
#pragma once

#include "host/host.h"

namespace trowelbell {

class WebHost final : public Host {
 public:
  std::int64_t wall_ms() override;
  std::int64_t monotonic_ms() override;
  std::string random_hex(std::size_t digits) override;
  void open_stream(std::string_view stream) override;
  void append(std::string_view stream, std::string_view record, std::int64_t token) override;
  void open_names() override;
  void keep_names(std::string_view text) override;
  void ask_storage() override;
  void write_here() override;
  void fetch(std::string_view path) override;
  void send(std::string_view path, std::string_view bearer, std::string_view body) override;
  void show_nodes(std::span<const Node> nodes, std::string_view language) override;
  void announce(std::string_view text, bool urgent) override;
  void set_page(std::string_view title, std::string_view language, bool dark) override;
  bool prefers_dark() override;
  bool prefers_still() override;
  std::string preferred_language() override;
  void save_file(std::string_view name, std::string_view media_type,
                 std::string_view text) override;
  void pick_file() override;
  void print_text(std::string_view title, std::string_view text) override;
  void keep_awake(bool awake) override;
  void buzz(Buzz kind) override;
  void push_history() override;

  bool dark() const { return dark_; }  // as last set by set_page

 private:
  std::string shown_;  // what the mirror has
  bool dark_ = false;
};

// For FramePacing.
void request_frame();
void set_timer(std::int64_t ms);

// The bytes of a face, allocated with ImGui::MemAlloc (the atlas frees them), and how many there
// are.
void* font_bytes(int face, int& size);

}  // namespace trowelbell
