// What every screen has around it: notices at the top, tabs at the bottom, the head of a panel; and
// the opening screen.
#include <imgui.h>

#include <algorithm>
#include <array>

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
constexpr int kTabCount = 5;
constexpr float kTabGap = 8;
constexpr float kRail = 84;  // width of the tabs where they stand one below the other

// Side by side each has what its label needs, and a share of what is left.
std::array<Rect, kTabCount> tab_places(const AppState& app, Rect bar) {
  std::array<Rect, kTabCount> places;
  std::array<float, kTabCount> widths;
  float all = 0;
  for (std::size_t i = 0; i < kTabCount; ++i)
    all += widths[i] = std::max(app.ui.tab_width(app.say(kTabs[i].key)), kTarget);
  const float room = bar.width - kTabGap * (kTabCount - 1);
  const float least = kTarget * kTabCount;
  const float share = all > room ? (room - least) / (all - least) : 1.0f;
  float x = bar.x;
  for (std::size_t i = 0; i < kTabCount; ++i) {
    const float width = kTarget + (widths[i] - kTarget) * share + std::max(0.0f, room - all) / 5;
    places[i] = {x, bar.y, width, bar.height};
    x += width + kTabGap;
  }
  return places;
}

}  // namespace

void draw_tabs(AppState& app) {
  Ui& ui = app.ui;
  const Palette& colors = ui.colors();
  const bool rail = ui.sideways();
  const Rect bar = rail ? ui.rail(kRail) : ui.bottom(72);
  // Its ground reaches to the edges of the page.
  const Rect page{0, 0, ui.viewport().width, ui.viewport().height};
  const Rect beside = ui.handed({0, 0, ui.handed(bar, page).right(), page.height}, page);
  const Rect ground = rail ? beside : Rect{0, bar.y, page.width, page.height - bar.y};
  const float inner = ground.x > 0 ? ground.x : ground.right();
  ui.draw().AddRectFilled({ground.x, ground.y}, {ground.right(), ground.bottom()}, colors.card);
  ui.draw().AddLine({rail ? inner : 0, ground.y}, {inner, rail ? ground.bottom() : ground.y},
                    colors.line, 1.0f);
  ui.emit({.id = "tabs", .role = Role::group, .name = app.say("tab.all")}, bar);
  const auto places = tab_places(app, bar.inset(2, 4));
  for (int i = 0; i < kTabCount; ++i) {
    const Tab& tab = kTabs[i];
    const bool selected = app.screen == tab.screen;
    const Color color = tab.screen == Screen::care ? colors.brick : colors.ink;
    const Rect place =
        rail ? bar.inset(2, 4).row(i, kTabCount, kTabGap) : places[static_cast<std::size_t>(i)];
    if (ui.tab(tab.id, place, app.say(tab.key), tab.icon, selected, color)) {
      app.go(tab.screen);
    }
  }
  ui.emit({.id = "tabs.end", .role = Role::group_end}, bar);
}

void draw_elsewhere(AppState& app) {
  Ui& ui = app.ui;
  const bool here = go_bar(ui, "elsewhere.here", {app.say("elsewhere.here"), "", "check"});
  draw_panel_head(app, app.say("elsewhere.title"));
  ui.begin_body("elsewhere");
  ui.paragraph("elsewhere.words", Type::body, ui.colors().ink, app.say("elsewhere.words"));
  ui.end_body();
  if (here) app.host.write_here();
}

void draw_notices(AppState& app) {
  Ui& ui = app.ui;
  if (app.elsewhere && !app.practice) {
    const ButtonText here{app.say("elsewhere.here"), "", ""};
    ui.begin_card();
    ui.begin_beside(here);
    ui.marked("elsewhere.now", "care", ui.colors().water, Type::small, app.say("elsewhere.now"));
    if (ui.end_beside("elsewhere.go", here)) app.host.write_here();
    ui.end_card();
  }
  if (app.practice) {
    const ButtonText end{app.say("practice.end"), "", ""};
    ui.begin_card();
    ui.begin_beside(end);
    ui.marked("practice.now", "sprout", ui.colors().water, Type::small, app.say("practice.now"));
    if (ui.end_beside("practice.end", end)) app.after_frame = [&app] { end_practice(app); };
    ui.end_card();
  }
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

void draw_practice_entry(AppState& app, std::string_view id) {
  if (app.ui.wide_button(id, {app.say("practice.begin"), app.say("practice.begin.words"), "sprout"},
                         ButtonLook::plain))
    app.after_frame = [&app] { begin_practice(app); };
}

bool go_bar(Ui& ui, std::string_view id, const ButtonText& text, bool enabled) {
  const float height = std::max(ui.button_height(text, ui.bar_width()), 68.0f);
  return ui.button(id, ui.bottom(height + 8).inset(kMargin, 4), text, ButtonLook::go, enabled);
}

ToolBar tool_bar(Ui& ui, const ButtonText& left, const ButtonText& right) {
  const ButtonText both[] = {left, right};
  const float height = std::max(ui.row_height(both, ui.bar_width()), 60.0f);
  const Rect row = ui.bottom(height + 8).inset(kMargin, 4);
  return {ui.handed(row.column(0, 2), row), ui.handed(row.column(1, 2), row)};
}

bool draw_panel_head(AppState& app, std::string_view title) {
  Ui& ui = app.ui;
  const std::string label = app.say("panel.back");
  const float width = ui.top_width();
  // The arrow alone where the title would not fit beside its word.
  float side = std::max(120.0f, ui.text_width(Type::strong, label) + 76);
  const bool arrow = width - side - 12 < ui.text_width(Type::large, title) * 0.8f;
  if (arrow) side = 56;
  const float height = ui.text_height(Type::large, title, width - side - 12, Fit::shrink);
  const Rect head = ui.top(std::max(60.0f, height + 8)).inset(kMargin, 4);
  const bool back = ui.button("panel.back", {head.x, head.y, side, head.height},
                              {arrow ? "" : label, "", "back"}, ButtonLook::plain);
  ui.name_last(label);
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
    if (!app.library.first_lesson().empty()) draw_practice_entry(app, "opening.practice");
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
