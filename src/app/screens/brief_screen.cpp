// Brief: which visit, who and what is needed, what the school asks.
#include "app/screens/screens.h"

namespace trowelbell {
namespace {

void draw_visit(AppState& app) {
  Ui& ui = app.ui;
  const Brief& brief = app.visit->brief();
  ui.begin_card();
  ui.heading("brief.title", 1, brief.room + ", " + brief.school);
  ui.marked("brief.when", "clock", ui.colors().ink, Type::strong,
            app.say("brief.when", {{"date", app.words().date(brief.date)},
                                   {"start", format_clock(brief.start_minutes)},
                                   {"bell", format_clock(brief.bell_minutes)}}));
  ui.marked("brief.lesson", "book", ui.colors().ink, Type::body,
            app.say("brief.lesson", {{"lesson", app.in(app.visit->lesson()->title)},
                                     {"story", app.in(app.visit->story()->title)}}));
  ui.marked("brief.people", "room", ui.colors().ink, Type::body,
            app.say("brief.people", {{"children", n(brief.children)},
                                     {"adults", n(brief.adults)},
                                     {"tables", n(brief.tables)}}));
  ui.marked(
      "brief.kits", "leaf", ui.colors().ink, Type::body,
      app.say("brief.kits", {{"kits", n(brief.kits)}, {"spare", n(brief.kits - brief.children)}}));
  if (!brief.sponsor.empty()) {
    ui.marked("brief.sponsor", "dot", ui.colors().ink, Type::body,
              app.say("brief.sponsor", {{"name", brief.sponsor}}));
  }
  ui.end_card();
}

void draw_fit(AppState& app) {
  Ui& ui = app.ui;
  const Brief& brief = app.visit->brief();
  const Lesson& lesson = *app.visit->lesson();
  ui.begin_card();
  ui.heading("brief.outlook", 2, app.say("brief.outlook"));
  // As if it began on time: what the clock says now is Lesson's business.
  const VisitPace pace = app.visit->pace(brief.start_ms());
  const std::string fits =
      pace.short_by > 0 ? app.say("brief.short", {{"time", minutes_words(app, pace.short_by)}})
                        : app.say("brief.fits", {{"time", minutes_words(app, pace.slack)}});
  ui.marked("brief.pace", pace.short_by > 0 ? "care" : "check",
            pace.short_by > 0 ? ui.colors().brick : ui.colors().leaf, Type::body, fits);
  for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
    if (pace.steps[i].kept) continue;
    ui.marked("brief.out." + lesson.steps[i].id, "dot", ui.colors().marigold, Type::body,
              why_words(app, pace.steps[i], app.in(lesson.steps[i].title)));
  }
  if (app.visit->state().adults < lesson.least_adults) {
    ui.marked("brief.adults", "care", ui.colors().brick, Type::strong,
              app.say("brief.adults", {{"least", n(lesson.least_adults)}}));
  }
  ui.gap(6);
  if (ui.wide_button("brief.to_outlook", {app.say("outlook.open"), "", ""}, ButtonLook::plain))
    app.open_panel(Panel::outlook);
  ui.end_card();
}

void draw_asks(AppState& app) {
  Ui& ui = app.ui;
  const auto& asks = app.visit->brief().school_asks;
  ui.begin_card();
  ui.heading("brief.asks", 2, app.say("brief.asks"));
  for (std::size_t i = 0; i < asks.size(); ++i) {
    ui.marked("brief.ask." + std::to_string(i), "dot", ui.colors().brick, Type::body, asks[i]);
  }
  ui.paragraph("brief.defer", Type::body, ui.colors().ink, app.say("brief.defer"));
  ui.end_card();
}

void draw_ready(AppState& app) {
  Ui& ui = app.ui;
  ui.begin_card();
  ui.heading("brief.ready", 2, app.say("brief.ready"));
  for (const CheckItem& item : app.visit->lesson()->ready) {
    const bool done = app.visit->state().ticked("ready", item.id);
    if (ui.checkbox("brief.ready." + item.id, app.in(item.text), done)) {
      app.record("tick", {{"list", "ready"}, {"item", item.id}, {"done", !done}});
    }
  }
  ui.gap();
  draw_readers(app);
  ui.end_card();
}

void draw_packed(AppState& app) {
  Ui& ui = app.ui;
  const bool short_of = !app.visit->state().lacking.empty();
  ui.begin_card();
  ui.heading("brief.packing", 2, app.say("packing.title"));
  ui.marked("brief.packed", short_of ? "care" : "leaf",
            short_of ? ui.colors().brick : ui.colors().ink, Type::body, packing_words(app));
  if (short_of) {
    ui.paragraph("brief.packing.tell", Type::body, ui.colors().ink, app.say("packing.tell"));
  }
  ui.gap(6);
  if (ui.wide_button("brief.to_packing", {app.say("packing.open"), "", ""}, ButtonLook::plain))
    app.open_panel(Panel::packing);
  ui.end_card();
}

}  // namespace

void draw_brief(AppState& app) {
  Ui& ui = app.ui;
  const bool begun = app.visit->state().phase != Phase::before;
  draw_tabs(app);
  if (go_bar(ui, "brief.go",
             {app.say(begun ? "brief.back_to_lesson" : "brief.to_lesson"), "", "lesson"})) {
    app.go(Screen::lesson);
  }
  ui.begin_body("brief");
  draw_notices(app);
  draw_visit(app);
  draw_asks(app);
  draw_fit(app);
  draw_packed(app);
  draw_ready(app);
  draw_phone(app);
  ui.paragraph("brief.aid", Type::small, ui.colors().ink_soft, app.say("care.aid"));
  ui.end_body();
}

}  // namespace trowelbell
