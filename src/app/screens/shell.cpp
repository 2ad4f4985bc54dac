// What every screen has around it: notices at the top, tabs at the bottom, the head of a panel; and
// the opening screen.
#include <imgui.h>

#include <algorithm>

#include "app/screens/screens.h"

namespace trowelbell {
namespace {

struct Tab {
  Screen screen;
  std::string_view id, key, icon;
};
constexpr Tab kTabs[] = {{Screen::lesson, "tab.lesson", "tab.lesson", "lesson"},
                         {Screen::room, "tab.room", "tab.room", "room"},
                         {Screen::care, "tab.care", "tab.care", "care"},
                         {Screen::handover, "tab.handover", "tab.handover", "handover"},
                         {Screen::report, "tab.report", "tab.report", "report"}};

}  // namespace

void draw_tabs(AppState& app) {
  Ui& ui = app.ui;
  const Palette& colors = ui.colors();
  const Rect bar = ui.bottom(72);
  const float below = ui.viewport().height - bar.y;
  ui.draw().AddRectFilled({0, bar.y}, {ui.viewport().width, bar.y + below}, colors.card);
  ui.draw().AddLine({0, bar.y}, {ui.viewport().width, bar.y}, colors.line, 1.0f);
  ui.emit({.id = "tabs", .role = Role::group, .name = app.say("tab.all")}, bar);
  const float side = bar.width > 640 ? (bar.width - 640) / 2 : 2;
  for (int i = 0; i < 5; ++i) {
    const Tab& tab = kTabs[i];
    const bool selected = app.screen == tab.screen;
    const Color color = tab.screen == Screen::care ? colors.brick : colors.ink;
    if (ui.tab(tab.id, bar.inset(side, 0).column(i, 5, 0), app.say(tab.key), tab.icon, selected,
               color)) {
      app.go(tab.screen);
    }
  }
  ui.emit({.id = "tabs.end", .role = Role::group_end}, bar);
}

void draw_notices(AppState& app) {
  Ui& ui = app.ui;
  for (std::size_t i = 0; i < app.notices.size(); ++i) {
    const Notice& notice = app.notices[i];
    std::string text = app.say(notice.key, {{"detail", notice.detail}});
    const float width = ui.body_width() - 76;
    const Rect strip = ui.strip(std::max(64.0f, ui.text_height(Type::small, text, width) + 20));
    ui.draw().AddRectFilled({strip.x, strip.y}, {strip.right(), strip.bottom()}, ui.colors().card,
                            12);
    ui.draw().AddRect({strip.x, strip.y}, {strip.right(), strip.bottom()}, ui.colors().brick, 12, 0,
                      2);
    const std::string id = "notice." + notice.key;
    ui.words(id, {strip.x + 12, strip.y, width, strip.height}, Type::small, ui.colors().ink,
             Align::left, text, Speech::alert);
    const Rect close{strip.right() - 56, strip.y + (strip.height - 52) / 2, 52, 52};
    const bool closed = ui.button(id + ".close", close, {"", "", "cross"}, ButtonLook::quiet);
    ui.name_last(app.say("notice.close"));
    if (closed) {
      app.notices.erase(app.notices.begin() + static_cast<std::ptrdiff_t>(i));
      break;
    }
    ui.gap(8);
  }
}

bool draw_panel_head(AppState& app, std::string_view title) {
  Ui& ui = app.ui;
  const Rect head = ui.top(std::max(60.0f, 52 * ui.scale())).inset(kMargin, 4);
  const float side = 120 * std::min(ui.scale(), 1.4f);
  const bool back = ui.button("panel.back", {head.x, head.y, side, head.height},
                              {app.say("panel.back"), "", "back"}, ButtonLook::plain);
  const Rect words{head.x + side + 12, head.y, head.width - side - 12, head.height};
  ui.paint_words(words, Type::large, ui.colors().ink, Align::left, title);
  ui.emit({.id = "panel.title", .role = Role::heading, .name = std::string(title), .level = 1},
          words);
  if (back) app.close_panel();
  return back;
}

void draw_opening(AppState& app) {
  Ui& ui = app.ui;
  ui.begin_body("opening");
  draw_notices(app);
  ui.gap(40);
  ui.picture("opening.picture", "sprout", "", 160);
  ui.name_last(app.say("opening.picture"));
  if (!app.library.trouble().empty()) {
    ui.heading("opening.title", 1, app.say("opening.trouble"));
    ui.paragraph("opening.words", Type::body, ui.colors().ink, app.say("opening.trouble.words"),
                 Speech::alert);
    ui.gap();
    ui.paragraph("opening.detail", Type::small, ui.colors().ink_soft, app.library.trouble());
    ui.gap();
    if (ui.wide_button("opening.retry", {app.say("opening.retry"), "", ""}, ButtonLook::go))
      app.library.retry();
  } else if (app.settings_loaded && !app.visit && !app.words().tag().empty()) {
    ui.heading("opening.title", 1, app.say("opening.empty"));
    ui.paragraph("opening.words", Type::body, ui.colors().ink, app.say("opening.empty.words"));
    ui.gap();
    if (ui.wide_button("opening.file", {app.say("opening.file"), "", "file"}, ButtonLook::go))
      app.host.pick_file();
  } else if (app.visit && app.library.lesson_unknown(app.visit->brief().lesson)) {
    ui.heading("opening.title", 1, app.say("opening.no_lesson"));
    ui.paragraph("opening.words", Type::body, ui.colors().ink,
                 app.say("opening.no_lesson.words", {{"lesson", app.visit->brief().lesson}}),
                 Speech::alert);
  } else if (!app.words().tag().empty()) {
    ui.heading("opening.title", 1, app.say("opening.wait"));
  }
  ui.end_body();
}

}  // namespace trowelbell
