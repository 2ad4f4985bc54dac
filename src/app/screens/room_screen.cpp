// Room: the head count by places, and where the kits went.
#include <imgui.h>

#include <algorithm>

#include "app/screens/screens.h"

namespace trowelbell {
namespace {

constexpr std::string_view kMarks[] = {"present", "absent", "late", "left_early"};

void draw_marks(AppState& app) {
  Ui& ui = app.ui;
  ui.paragraph("room.hint", Type::small, ui.colors().ink_soft, app.say("room.hint"));
  ui.gap(6);
  const float height = std::max(52.0f, 44 * ui.scale());
  ui.emit({.id = "room.marks", .role = Role::group, .name = app.say("room.marks")}, {});
  // Two by two where four do not fit side by side.
  const int columns = ui.body_width() < 340 * ui.scale() ? 2 : 4;
  for (int i = 0; i < 4; i += columns) {
    const Rect row = ui.strip(height);
    for (int c = 0; c < columns; ++c) {
      const std::string mark(kMarks[i + c]);
      const ButtonLook look = app.mark == mark ? ButtonLook::chosen : ButtonLook::choice;
      if (ui.button("room.mark." + mark, row.column(c, columns, 8),
                    {app.say("room.short." + mark), "", ""}, look)) {
        app.mark = mark;
      }
    }
    ui.gap(8);
  }
  ui.emit({.id = "room.marks.end", .role = Role::group_end}, {});
  ui.gap(4);
}

float name_height(const Ui& ui) {
  return 24 * ui.scale();
}

void draw_place(AppState& app, int number, Presence is, Rect rect) {
  Ui& ui = app.ui;
  const Palette& colors = ui.colors();
  const std::string id = "room.place." + std::to_string(number);
  const std::string_view now = kPresenceNames[static_cast<std::size_t>(is)];
  Node node{.id = id, .role = Role::button};
  const std::string child = app.practice ? "" : app.names.of(app.visit->brief().visit, number);
  node.name = app.say(child.empty() ? "room.place" : "room.place.named",
                      {{"n", std::to_string(number)},
                       {"name", child},
                       {"is", app.say("room.is." + std::string(now))}});

  const ImVec2 a{rect.x, rect.y}, b{rect.right(), rect.bottom()};
  Color words = colors.ink;
  if (is == Presence::present) {
    ui.draw().AddRectFilled(a, b, colors.leaf, 14);
    words = colors.on_leaf;
  } else if (is == Presence::late) {
    ui.draw().AddRectFilled(a, b, colors.marigold_fill, 14);
  } else {
    ui.draw().AddRectFilled(a, b, colors.card, 14);
    ui.draw().AddRect(a, b, is == Presence::unknown ? colors.line : colors.ink_soft, 14, 0,
                      is == Presence::unknown ? 1.5f : 3.0f);
    if (is != Presence::unknown) words = colors.ink_soft;
  }
  // From above: the number; the name where there is one; the mark where there is one.
  const bool marked = is != Presence::unknown;
  const float name = child.empty() ? 0 : name_height(ui);
  const float mark = marked ? (rect.height - name) * 0.44f : 0;
  ui.paint_words({rect.x, rect.y, rect.width, rect.height - name - mark},
                 ui.scale() > 1.3f ? Type::strong : Type::large, words, Align::middle,
                 std::to_string(number));
  const Rect of_name{rect.x + 3, rect.bottom() - name - mark, rect.width - 6, name};
  if (!child.empty()) ui.paint_words(of_name, Type::tiny, words, Align::middle, child);
  if (is == Presence::present) {
    ui.icon("check", rect.x + rect.width / 2, rect.bottom() - mark * 0.6f, 20, words);
  } else if (marked) {
    ui.paint_words({rect.x + 2, rect.bottom() - mark, rect.width - 4, mark - 4}, Type::tiny, words,
                   Align::middle, app.say("room.short." + std::string(now)));
  }
  if (ui.target(rect, node)) {
    // The same mark again takes it off: a slip is mended where it happened.
    app.record("place", {{"place", number}, {"is", now == app.mark ? "unknown" : app.mark}});
  }
}

void draw_places(AppState& app) {
  Ui& ui = app.ui;
  const auto& places = app.visit->state().places;
  const bool named = !app.practice && app.names.any(app.visit->brief().visit);
  const float least = named ? 88 * ui.scale() : std::max(56.0f, 50 * ui.scale());
  const int columns = std::clamp(static_cast<int>((ui.body_width() + 8) / (least + 8)), 2, 8);
  ui.emit({.id = "room.places", .role = Role::group, .name = app.say("room.places")}, {});
  const int count = static_cast<int>(places.size());
  for (int first = 0; first < count; first += columns) {
    const float side = std::min(
        (ui.body_width() - 8 * static_cast<float>(columns - 1)) / static_cast<float>(columns),
        76.0f + 24 * (ui.scale() - 1));
    const Rect row = ui.strip(named ? side + name_height(ui) : side);
    for (int c = 0; c < columns && first + c < count; ++c) {
      draw_place(app, first + c + 1,
                 places[static_cast<std::size_t>(first) + static_cast<std::size_t>(c)],
                 row.column(c, columns, 8));
    }
    ui.gap(8);
  }
  ui.emit({.id = "room.places.end", .role = Role::group_end}, {});
}

void draw_pile(AppState& app, const std::string& pile, std::int64_t count) {
  const std::string name = app.say("kits." + pile);
  const int by = app.ui.stepper("kits." + pile, name, app.say("kits.less", {{"pile", name}}),
                                app.say("kits.more", {{"pile", name}}), count, app.ui.colors().ink);
  if (by != 0) app.record("kit", {{"pile", pile}, {"by", by}});
}

}  // namespace

// Shared with Hand-over: what is known of the kits, and whether it adds up.
void draw_kit_balance(AppState& app) {
  Ui& ui = app.ui;
  const KitPiles& kits = app.visit->state().kits;
  const std::int64_t off = kits.unaccounted();
  if (off == 0) {
    ui.marked("kits.balance", "check", ui.colors().leaf, Type::strong,
              app.say("kits.balances", {{"given", std::to_string(kits.given)},
                                        {"spoiled", std::to_string(kits.spoiled)},
                                        {"teacher", std::to_string(kits.with_teacher)},
                                        {"spare", std::to_string(kits.spare)},
                                        {"brought", std::to_string(kits.brought)}}));
  } else {
    ui.marked("kits.balance", "care", ui.colors().brick, Type::strong, uneven_words(app, off));
  }
}

void draw_room(AppState& app) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const HeadCount count = state.head_count();
  draw_tabs(app);
  const ButtonText undo{app.say("undo"), "", "undo"};
  const ButtonText others{app.say("room.others"), "", ""};
  const ToolBar tools = tool_bar(ui, undo, others);
  if (ui.button("room.undo", tools.left, undo, ButtonLook::plain, app.visit->can_undo()))
    app.undo();
  if (ui.button("room.others", tools.right, others, ButtonLook::go, count.unknown > 0)) {
    app.record("others", {{"is", "present"}});
  }
  ui.begin_body("room");
  draw_notices(app);
  ui.heading("room.title", 1, app.say("room.title"));
  ui.paragraph("room.count", Type::large, ui.colors().ink,
               app.say("room.count", {{"here", std::to_string(count.present + count.late)},
                                      {"all", std::to_string(count.places)}}),
               Speech::status);
  draw_marks(app);
  draw_places(app);
  if (!app.practice &&
      ui.wide_button("room.names", {app.say("room.names"), "", ""}, ButtonLook::plain))
    app.open_panel(Panel::names);

  ui.begin_card();
  ui.heading("room.people", 2, app.say("room.people"));
  const int children =
      ui.stepper("room.children", app.say("room.children"), app.say("room.children.less"),
                 app.say("room.children.more"), count.places, ui.colors().ink);
  if (children != 0) {
    app.record("children", {{"count", std::clamp<std::int64_t>(count.places + children, 1, 60)}});
  }
  const int adults = ui.stepper("room.adults", app.say("room.adults"), app.say("room.adults.less"),
                                app.say("room.adults.more"), state.adults, ui.colors().ink);
  if (adults != 0)
    app.record("adults", {{"count", std::clamp<std::int64_t>(state.adults + adults, 1, 20)}});
  ui.end_card();

  ui.begin_card();
  ui.heading("kits.title", 2, app.say("kits.title"));
  draw_pile(app, "brought", state.kits.brought);
  draw_pile(app, "given", state.kits.given);
  draw_pile(app, "spoiled", state.kits.spoiled);
  draw_pile(app, "with_teacher", state.kits.with_teacher);
  draw_pile(app, "spare", state.kits.spare);
  draw_kit_balance(app);
  const std::int64_t one_each = count.came() - state.kits.given;
  if (one_each > 0 && state.kits.unaccounted() >= one_each &&
      ui.wide_button("kits.one_each", {app.say("kits.one_each"), "", ""}, ButtonLook::plain)) {
    app.record("kit", {{"pile", "given"}, {"by", one_each}});
  }
  if (state.kits.given > 0 && state.kits.unaccounted() > 0 && one_each <= 0 &&
      ui.wide_button("kits.rest",
                     {app.words().count("kits.rest", state.kits.unaccounted()), "", ""},
                     ButtonLook::plain)) {
    app.record("kit", {{"pile", "spare"}, {"by", state.kits.unaccounted()}});
  }
  ui.end_card();
  ui.end_body();
}

}  // namespace trowelbell
