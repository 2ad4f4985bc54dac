// Care: the safety cards, and a mishap logged in two taps: the card, then the log.
#include <algorithm>

#include "app/drawings/picture.h"
#include "app/screens/screens.h"

namespace trowelbell {
namespace {

std::int64_t logged(const AppState& app, const std::string& card) {
  const auto found = app.visit->state().mishaps.find(card);
  return found == app.visit->state().mishaps.end() ? 0 : found->second;
}

void draw_list(AppState& app) {
  Ui& ui = app.ui;
  ui.begin_body("care");
  draw_notices(app);
  ui.heading("care.title", 1, app.say("care.title"));
  ui.marked("care.first", "care", ui.colors().brick, Type::strong, app.say("care.first"));
  ui.gap();
  // The cards of the step at hand come first.
  const auto& lesson = *app.visit->lesson();
  const VisitState& state = app.visit->state();
  const auto& near = lesson.steps[std::min(state.step, lesson.steps.size() - 1)].cards;
  const auto is_near = [&](const CareCard& card) {
    return state.phase == Phase::running &&
           std::find(near.begin(), near.end(), card.id) != near.end();
  };
  for (const bool now : {true, false}) {
    for (const CareCard& card : app.library.care()->cards) {
      if (is_near(card) != now) continue;
      const std::int64_t times = logged(app, card.id);
      std::string detail = times > 0 ? app.words().count("care.logged", times)
                           : now     ? app.say("care.near")
                                     : "";
      if (ui.wide_button("care.card." + card.id, {app.in(card.title), std::move(detail), "care"},
                         ButtonLook::listed)) {
        app.card = card.id;
        app.open_panel(Panel::card);
      }
    }
  }
  ui.gap();
  ui.paragraph("care.emergency", Type::body, ui.colors().ink, app.say("care.emergency"));
  ui.gap();
  ui.paragraph("care.aid", Type::small, ui.colors().ink_soft, app.say("care.aid"));
  ui.end_body();
}

std::string logged_words(const AppState& app, std::int64_t times) {
  return app.words().count("care.logged", times) + " " + app.say("care.tell");
}

void draw_card(AppState& app, const CareCard& card) {
  Ui& ui = app.ui;
  const std::int64_t times = logged(app, card.id);
  draw_panel_head(app, app.in(card.title));
  if (!card.mishap.empty()) {
    const ButtonText log{app.say("care.log"), app.in(card.mishap), ""};
    const Rect row = ui.bottom(ui.button_height(log, ui.bar_width()) + 12).inset(kMargin, 4);
    if (times > 0) {
      const Rect tools = ui.bottom(60).inset(kMargin, 4);
      if (ui.button("care.undo", tools, {app.say("undo"), "", "undo"}, ButtonLook::plain,
                    app.visit->can_undo())) {
        app.undo();
      }
    }
    if (ui.button("care.log", row, log, ButtonLook::care)) {
      app.record("mishap", {{"card", card.id}});
      app.host.announce(logged_words(app, times + 1), false);
    }
  }
  ui.begin_body("card");
  if (times > 0) {
    ui.begin_card();
    ui.paragraph("care.is_logged", Type::strong, ui.colors().brick, logged_words(app, times));
    ui.end_card();
  }
  ui.begin_card();
  ui.heading("care.now", 2, app.say("care.now"));
  for (std::size_t i = 0; i < card.now.size(); ++i) {
    ui.marked("care.now." + std::to_string(i), "care", ui.colors().brick,
              i == 0 ? Type::large : Type::body, app.in(card.now[i]));
  }
  ui.end_card();
  if (has_picture(card.drawing))
    ui.picture("care.drawing", card.drawing, app.say("drawing." + card.drawing), 110);
  if (!card.prevent.empty()) {
    ui.begin_card();
    ui.heading("care.prevent", 2, app.say("care.prevent"));
    for (std::size_t i = 0; i < card.prevent.size(); ++i) {
      ui.marked("care.prevent." + std::to_string(i), "dot", ui.colors().leaf, Type::body,
                app.in(card.prevent[i]));
    }
    ui.end_card();
  }
  ui.paragraph("care.emergency", Type::body, ui.colors().ink, app.say("care.emergency"));
  ui.end_body();
}

}  // namespace

void draw_care(AppState& app) {
  draw_tabs(app);
  const CareCard* card =
      app.panel == Panel::card ? find_card(*app.library.care(), app.card) : nullptr;
  if (card != nullptr) return draw_card(app, *card);
  draw_list(app);
}

}  // namespace trowelbell
