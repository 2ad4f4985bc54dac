// The page's program: a screen, the app, and the functions that the page's JavaScript calls
// (web_host.h has the table). main() only readies the screen; everything after it happens in the
// exported functions.
#include <emscripten.h>

#include "host/web/frame_pacing.h"
#include "host/web/screen.h"
#include "host/web/web_host.h"

namespace trowelbell {
namespace {

struct Page {
  bool has_screen = false;
  WebHost host;
  App app{host};
  Screen screen;
  Viewport viewport;
  FramePacing pacing{{request_frame, set_timer}};
};

// One page, from main() until the tab goes away; nothing is ever taken down.
Page& page() {
  static Page* const the_page = new Page;
  return *the_page;
}

bool draw() {
  Page& p = page();
  if (!p.has_screen || !p.pacing.begin_frame()) return false;
  p.screen.measure(p.viewport);
  p.screen.begin_frame();
  const std::int64_t due = p.app.frame(p.viewport, p.screen.fonts());
  p.screen.end_frame(p.host.dark());
  p.pacing.wake_after(p.screen.input_waits() ? 0 : due);
  return true;
}

// A tap must be on its way to the store at once. Dear ImGui takes the place, the press and the
// release in frames of their own: these are run now, and what they show is drawn when the page
// asks.
void take_tap() {
  constexpr int kMostFrames = 6;
  Page& p = page();
  if (!p.has_screen || p.pacing.hidden()) return;
  for (int i = 0; i == 0 || (i < kMostFrames && p.screen.input_waits()); ++i) {
    p.screen.measure(p.viewport);
    p.screen.begin_frame();
    p.app.frame(p.viewport, p.screen.fonts());
    p.screen.drop_frame();
  }
  p.pacing.wake();
}

// Records are texts without newlines, so newlines part them.
std::vector<std::string> split_records(std::string_view joined, int count) {
  std::vector<std::string> records;
  records.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    const auto end = joined.find('\n');
    records.emplace_back(joined.substr(0, end));
    joined.remove_prefix(end == std::string_view::npos ? joined.size() : end + 1);
  }
  return records;
}

}  // namespace
}  // namespace trowelbell

using trowelbell::page;

extern "C" {

EMSCRIPTEN_KEEPALIVE int page_open(const char* fragment) {
  if (!page().has_screen) return 0;
  page().app.open(fragment);
  page().pacing.wake();
  return 1;
}

EMSCRIPTEN_KEEPALIVE int page_frame() {
  return trowelbell::draw() ? 1 : 0;
}
EMSCRIPTEN_KEEPALIVE void page_make_room() {
  page().screen.make_room();
}
EMSCRIPTEN_KEEPALIVE void page_timer() {
  page().pacing.timer();
}

EMSCRIPTEN_KEEPALIVE void page_released() {
  trowelbell::take_tap();
}

EMSCRIPTEN_KEEPALIVE void page_viewport(float top, float right, float bottom, float left,
                                        float covered) {
  auto& viewport = page().viewport;
  viewport.inset_top = top;
  viewport.inset_right = right;
  viewport.inset_bottom = bottom;
  viewport.inset_left = left;
  viewport.bottom_covered = covered;
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_activate(const char* node) {
  page().app.activate(node);
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_focus(const char* node) {
  page().app.focus(node);
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_type(const char* node, const char* text) {
  page().app.type(node, text);
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_back() {
  page().app.back();
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_shown(int visible) {
  page().app.shown(visible != 0);
  page().pacing.shown(visible != 0);
}

EMSCRIPTEN_KEEPALIVE void page_phone_changed() {
  page().app.phone_changed();
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_online() {
  page().app.online();
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_open_link(const char* fragment) {
  page().app.open_link(fragment);
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_stream_opened(const char* stream, const char* records, int count,
                                             int file, int copy, double lost) {
  page().app.stream_opened(
      stream, trowelbell::split_records(records, count),
      {.file = file != 0, .copy = copy != 0, .lost = static_cast<std::int64_t>(lost)});
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_names_opened(const char* text) {
  page().app.names_opened(text);
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_storage_told(double bytes, int persistent) {
  page().app.storage_told(
      {.bytes = static_cast<std::int64_t>(bytes), .persistent = persistent != 0});
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_writes_here(int here) {
  page().app.writes_here(here != 0);
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_appended(double token, int ok) {
  page().app.appended(static_cast<std::int64_t>(token), ok != 0);
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_fetched(const char* path, int ok, const char* text) {
  page().app.fetched(path, ok != 0, text);
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_sent(int status, const char* body, const char* digest,
                                    double retry_after_seconds) {
  page().app.sent({.status = status,
                   .body = body,
                   .sent_digest = digest,
                   .retry_after_seconds = static_cast<std::int64_t>(retry_after_seconds)});
  page().pacing.wake();
}

EMSCRIPTEN_KEEPALIVE void page_file_opened(const char* text) {
  page().app.file_opened(text);
  page().pacing.wake();
}

}  // extern "C"

int main() {
  page().has_screen = page().screen.open([] { page().pacing.wake(); });
  return 0;
}
