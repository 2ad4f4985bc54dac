// Hand-over: what stays with the teacher, who took it, and the sheet with its dates.
#include "app/screens/screens.h"
#include "app/screens/sheet_words.h"
#include "core/kits.h"

namespace trowelbell {
namespace {

constexpr const char* kTakers[] = {"teacher", "aide", "office", "nobody"};

const Language& sheet_language(const AppState& app) {
  const Language* language = app.library.language(app.visit->state().sheet_language);
  return language != nullptr ? *language : app.words();
}

}  // namespace

void draw_handover(AppState& app) {
  Ui& ui = app.ui;
  const Lesson& lesson = *app.visit->lesson();
  const VisitState& state = app.visit->state();
  draw_tabs(app);
  const ButtonText undo{app.say("undo"), "", "undo"};
  const ButtonText sheet{app.say("handover.sheet"), "", "page"};
  const ToolBar tools = tool_bar(ui, undo, sheet);
  if (ui.button("handover.undo", tools.left, undo, ButtonLook::plain, app.visit->can_undo())) {
    app.undo();
  }
  if (ui.button("handover.sheet", tools.right, sheet, ButtonLook::go)) {
    app.open_panel(Panel::sheet);
  }
  ui.begin_body("handover");
  draw_notices(app);
  ui.heading("handover.title", 1, app.say("handover.title"));
  ui.paragraph("handover.words", Type::body, ui.colors().ink, app.say("handover.words"));
  ui.gap();

  ui.begin_card();
  ui.heading("handover.list", 2, app.say("handover.list"));
  for (const CheckItem& item : lesson.handover) {
    const bool done = state.ticked("handover", item.id);
    if (ui.checkbox("handover.item." + item.id, app.in(item.text), done)) {
      app.record("tick", {{"list", "handover"}, {"item", item.id}, {"done", !done}});
    }
  }
  ui.end_card();

  ui.begin_card();
  ui.heading("handover.kits", 2, app.say("handover.kits"));
  draw_kit_balance(app);
  if (state.kits.unaccounted() != 0 &&
      ui.wide_button("handover.to_room", {app.say("handover.to_room"), "", "room"},
                     ButtonLook::plain)) {
    app.go(Screen::room);
  }
  ui.end_card();

  ui.begin_card();
  ui.heading("handover.who", 2, app.say("handover.who"));
  ui.paragraph("handover.who.words", Type::small, ui.colors().ink_soft,
               app.say("handover.who.words"));
  ui.gap(6);
  for (int i = 0; i < 4; i += 2) {
    const ButtonText both[] = {{app.say("handover.by." + std::string(kTakers[i])), "", ""},
                               {app.say("handover.by." + std::string(kTakers[i + 1])), "", ""}};
    const Rect row = ui.strip(ui.row_height(both, ui.body_width()));
    for (int c = 0; c < 2; ++c) {
      const std::string who = kTakers[i + c];
      const ButtonLook look = state.taken_by == who ? ButtonLook::chosen : ButtonLook::choice;
      if (ui.button("handover.by." + who, row.column(c, 2, 8), both[c], look)) {
        // Kits that are nowhere may lie under a table: nobody takes them over unseen.
        if (state.kits.unaccounted() == 0 || who == "nobody") {
          app.record("taken", {{"by", who}});
        } else {
          app.taker = who;
          app.open_panel(Panel::uneven);
        }
      }
    }
    ui.gap(8);
  }
  ui.end_card();
  if (!state.taken_by.empty() &&
      ui.wide_button("handover.to_report", {app.say("handover.to_report"), "", "report"},
                     ButtonLook::plain)) {
    app.go(Screen::report);
  }
  ui.end_body();
}

void draw_uneven(AppState& app) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const KitPiles& kits = state.kits;
  const KitPiles likely = expected_piles(kits.brought, state.head_count(), kits.spoiled);
  draw_panel_head(app, app.say("handover.kits"));
  ui.begin_body("uneven");
  ui.begin_card();
  ui.heading("uneven.title", 1, app.say("uneven.title"));
  draw_kit_balance(app);
  ui.paragraph("uneven.words", Type::body, ui.colors().ink, app.say("uneven.words"));
  ui.gap();
  ui.paragraph("uneven.likely", Type::body, ui.colors().ink_soft,
               app.say("uneven.likely", {{"given", std::to_string(likely.given)},
                                         {"teacher", std::to_string(likely.with_teacher)},
                                         {"spare", std::to_string(likely.spare)}}));
  ui.end_card();
  if (ui.wide_button("uneven.count", {app.say("handover.to_room"), "", "room"}, ButtonLook::go))
    app.go(Screen::room);
  if (ui.wide_button("uneven.all_the_same",
                     {app.say("uneven.all_the_same"), app.say("uneven.reported"), ""},
                     ButtonLook::plain)) {
    app.record("taken", {{"by", app.taker}});
    app.close_panel();
  }
  ui.end_body();
}

void draw_sheet(AppState& app) {
  Ui& ui = app.ui;
  const Palette& colors = ui.colors();
  const Language& language = sheet_language(app);
  const SheetWords words = sheet_words(app, language);
  draw_panel_head(app, app.say("handover.sheet"));
  const ButtonText print{app.say("sheet.print"), "", "page"};
  const ButtonText save{app.say("sheet.save"), "", "file"};
  const ToolBar tools = tool_bar(ui, print, save);
  if (ui.button("sheet.print", tools.left, print, ButtonLook::go)) {
    app.host.print_text(words.title, plain_text(words, language));
  }
  if (ui.button("sheet.save", tools.right, save, ButtonLook::plain)) {
    app.host.save_file("sheet-" + app.visit->brief().visit + ".txt", "text/plain",
                       plain_text(words, language));
  }
  ui.begin_body("sheet");
  const Rect row = ui.strip(std::max(52.0f, 48 * ui.scale()));
  int column = 0;
  for (const char* tag : {"en", "es"}) {
    const ButtonLook look = language.tag() == tag ? ButtonLook::chosen : ButtonLook::choice;
    const Language* named = app.library.language(tag);
    if (named == nullptr) continue;
    if (ui.button(std::string("sheet.in.") + tag, row.column(column++, 2),
                  {named->say("language.name"), "", ""}, look)) {
      app.record("sheet", {{"language", tag}});
    }
  }
  ui.gap();
  ui.heading("sheet.title", 1, words.title);
  ui.paragraph("sheet.intro", Type::body, colors.ink, words.intro);
  ui.gap();
  for (std::size_t i = 0; i < words.warnings.size(); ++i) {
    ui.marked("sheet.warning." + std::to_string(i), "care", colors.brick, Type::strong,
              words.warnings[i]);
  }
  ui.begin_card();
  ui.heading("sheet.dates", 2, language.say("sheet.dates"));
  for (std::size_t i = 0; i < words.dates.size(); ++i) {
    const std::string id = "sheet.date." + std::to_string(i);
    ui.paragraph(id, Type::strong, colors.leaf, words.dates[i].second);
    ui.paragraph(id + ".what", Type::body, colors.ink, words.dates[i].first);
    ui.gap(8);
  }
  ui.end_card();
  ui.begin_card();
  ui.heading("sheet.how", 2, language.say("sheet.how"));
  ui.picture("sheet.drawing", "root", app.say("drawing.root"), 110);
  for (std::size_t i = 0; i < words.how.size(); ++i) {
    ui.marked("sheet.how." + std::to_string(i), "dot", colors.leaf, Type::body, words.how[i]);
  }
  ui.end_card();
  if (!words.left.empty()) {
    ui.begin_card();
    ui.heading("sheet.left", 2, language.say("sheet.left"));
    for (std::size_t i = 0; i < words.left.size(); ++i) {
      ui.marked("sheet.left." + std::to_string(i), "dot", colors.marigold, Type::body,
                words.left[i]);
    }
    ui.end_card();
  }
  ui.paragraph("sheet.closing", Type::body, colors.ink, words.closing);
  ui.end_body();
}

}  // namespace trowelbell
