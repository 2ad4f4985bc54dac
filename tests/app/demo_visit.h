// The demo lesson on a phone without a GPU: what every test of the screens starts from.
#pragma once

#include "core/brief.h"
#include "host/headless/headless_screen.h"

namespace trowelbell {

// Invented; a Monday far from any break.
inline Brief demo_brief() {
  Brief brief;
  brief.visit = "demo-room";
  brief.key = "abcdefghijklmnopqrstuv";
  brief.lesson = "window-garden";
  brief.school = "Quillback School";
  brief.room = "Room 9";
  brief.sponsor = "Lantern Works";
  brief.date = *parse_date("2027-03-08");
  brief.start_minutes = 9 * 60 + 5;
  brief.bell_minutes = 9 * 60 + 50;
  brief.utc_offset_minutes = -420;
  brief.children = 24;
  brief.adults = 4;
  brief.tables = 4;
  brief.kits = 27;
  brief.school_asks = {"Sign in at the office."};
  brief.extra = Json::object();
  return brief;
}

struct DemoPhone {
  explicit DemoPhone(MemoryStore& phone_store, float width = 390, float height = 844,
                     std::string language = "en-US")
      : host(TROWELBELL_CONTENT_DIR, phone_store),
        screen(host, TROWELBELL_FONT_DIR, width, height),
        app(host) {
    host.language_preferred = std::move(language);
    host.set_wall(demo_brief().start_ms());
    host.listen(&app);
  }
  // As a link from the coordinator, or "" for the visit that was open.
  void open(const std::string& fragment = "#" + brief_fragment(demo_brief())) {
    app.open(fragment);
    screen.pump(app, 6);
  }
  bool tap(std::string_view id) { return screen.tap(app, id); }
  void type(std::string_view id, std::string_view text) {
    app.type(id, text);
    screen.pump(app);
  }
  std::string name(std::string_view id) const {
    const auto node = screen.find_id(id);
    return node ? node->name : "";
  }
  void pass(std::int64_t ms) {
    host.pass(ms);
    screen.pump(app);
  }

  HeadlessHost host;
  HeadlessScreen screen;
  App app;
};

}  // namespace trowelbell
