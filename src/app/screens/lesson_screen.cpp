// Lesson: what to say and do now, what comes next, and whether it still ends by the bell.
#include <imgui.h>

#include <algorithm>

#include "app/drawings/picture.h"
#include "app/screens/screens.h"

namespace trowelbell {
namespace {

constexpr float kShortScreen = 660;  // below this height the tools share one row with Next
constexpr std::int64_t kFarSeconds =
    3 * 60 * 60;  // a bell this far off is another day's or hour's: its time says more

void draw_head(AppState& app) {
  Ui& ui = app.ui;
  const Brief& brief = app.visit->brief();
  const Rect head = ui.top(56).inset(kMargin, 4);
  const float clock = ui.text_width(Type::large, "00:00") + 8;
  const Rect left{head.x, head.y, head.width - clock - kGap, head.height};
  if (ui.button("lesson.brief", left,
                {compact(ui) ? brief.room : brief.room + ", " + brief.school, "", "brief"},
                ButtonLook::quiet)) {
    app.go(Screen::brief);
  }
  ui.words("lesson.clock", {head.right() - clock, head.y, clock, head.height}, Type::large,
           ui.colors().ink, Align::right,
           format_clock(local_minutes(app.now, brief.utc_offset_minutes)), Speech::timer);
}

// The most useful single sentence about the plan.
std::string plan_words(const AppState& app, const VisitPace& pace) {
  const auto& steps = app.visit->lesson()->steps;
  if (pace.short_by > 0)
    return app.say("plan.short", {{"time", minutes_words(app, pace.short_by)}});
  std::size_t shortened = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (pace.over[i]) continue;
    if (!pace.steps[i].kept) return why_words(app, pace.steps[i], app.in(steps[i].title));
    if (pace.steps[i].why == PaceWhy::shortened) ++shortened;
  }
  if (shortened > 0)
    return app.words().count("plan.shortened", static_cast<std::int64_t>(shortened));
  return app.say("plan.fits");
}

void draw_pace(AppState& app, const VisitPace& pace) {
  Ui& ui = app.ui;
  const Palette& colors = ui.colors();
  const bool late = pace.short_by > 0 || pace.to_bell < 0;
  const std::string plan = app.say("plan.open");
  const float side = std::max(84.0f, ui.text_width(Type::strong, plan) + 32);
  const float line_height = 30 * ui.bar_scale();
  const Rect block = ui.top(compact(ui) ? 54 * ui.bar_scale() : line_height + 56).inset(kMargin, 2);
  const bool small = compact(ui);

  // A short screen has the bell and the button only; the reasons are in the plan.
  Rect line{block.x, block.y, block.width, small ? block.height : line_height};
  if (small) line.width -= side + kGap;
  const bool far = pace.to_bell > kFarSeconds;
  const float half = far ? 1.0f : 0.58f;
  ui.words("lesson.bell", {line.x, line.y, line.width * half, line.height}, Type::large,
           late ? colors.brick : colors.ink, Align::left, bell_words(app, pace), Speech::timer);
  if (!far) {
    const std::string spare =
        pace.short_by > 0  ? app.say("pace.short", {{"time", minutes_words(app, pace.short_by)}})
        : pace.slack >= 60 ? app.say("pace.spare", {{"time", minutes_words(app, pace.slack)}})
                           : app.say("pace.tight");
    const Color color = pace.short_by > 0  ? colors.brick
                        : pace.slack >= 60 ? colors.leaf
                                           : colors.marigold;
    ui.words("lesson.spare",
             {line.x + line.width * half, line.y, line.width * (1 - half), line.height},
             Type::large, color, Align::right, spare, Speech::timer);
  }

  const Rect row{block.x, small ? block.y : block.bottom() - 52, block.width,
                 small ? block.height : 50};
  if (!small) {
    ui.words("lesson.why", {row.x, row.y, row.width - side - kGap, row.height}, Type::small,
             colors.ink_soft, Align::left, plan_words(app, pace), Speech::status);
  }
  if (ui.button("lesson.plan", {row.right() - side, row.y, side, row.height}, {plan, "", ""},
                ButtonLook::plain)) {
    app.open_panel(Panel::plan);
  }
}

void draw_lines(AppState& app, std::string_view id, std::string_view icon, std::string_view title,
                Color color, const std::vector<LocalText>& lines, Type type) {
  if (lines.empty()) return;
  Ui& ui = app.ui;
  ui.gap(6);
  ui.marked(std::string(id) + ".title", icon, color, Type::strong, app.say(title));
  for (std::size_t i = 0; i < lines.size(); ++i) {
    ui.paragraph(std::string(id) + "." + std::to_string(i), type, ui.colors().ink,
                 app.in(lines[i]));
    ui.gap(4);
  }
}

void draw_watch(AppState& app, const Step& step) {
  Ui& ui = app.ui;
  if (step.watch.empty()) return;
  ui.gap(8);
  for (std::size_t i = 0; i < step.watch.size(); ++i) {
    ui.marked("lesson.watch." + std::to_string(i), "care", ui.colors().brick, Type::strong,
              app.in(step.watch[i]));
  }
  ui.paragraph("lesson.defer", Type::small, ui.colors().ink_soft, app.say("lesson.defer"));
}

void draw_step_head(AppState& app, const Step& step, const VisitPace& pace) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const std::string number =
      app.say("lesson.step",
              {{"n", std::to_string(state.step + 1)},
               {"all", std::to_string(app.visit->lesson()->steps.size())},
               {"who", step.reading ? reader_words(app, state.page) : app.say("who." + step.who)}});
  const bool over = pace.step_left < 0;
  const std::string left = app.say(over ? "lesson.over" : "lesson.left",
                                   {{"time", clock_text(over ? -pace.step_left : pace.step_left)}});
  const Color color = over ? ui.colors().marigold : ui.colors().ink;
  // Side by side where both fit, one below the other in large letters.
  if (ui.text_width(Type::small, number) + ui.text_width(Type::large, left) + kGap <=
      ui.body_width()) {
    const Rect row = ui.strip(28 * ui.scale());
    ui.words("lesson.number", row, Type::small, ui.colors().ink_soft, Align::left, number);
    ui.words("lesson.left", row, Type::large, color, Align::right, left, Speech::timer);
  } else {
    ui.paragraph("lesson.number", Type::small, ui.colors().ink_soft, number);
    ui.paragraph("lesson.left", Type::large, color, left, Speech::timer);
  }
  ui.heading("lesson.title", 1, app.in(step.title));
}

// On a short screen the tools are icons alone.
bool draw_tool(AppState& app, std::string_view id, Rect rect, const std::string& label,
               std::string_view icon, bool enabled) {
  const bool hit = app.ui.button(id, rect, {compact(app.ui) ? "" : label, "", std::string(icon)},
                                 ButtonLook::plain, enabled);
  app.ui.name_last(label);
  return hit;
}

void draw_tools(AppState& app, Rect row, int count) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const Step& step = app.visit->lesson()->steps[state.step];
  const bool page_back = step.reading && state.page > 0;
  if (draw_tool(app, "lesson.back", row.column(0, count),
                app.say(page_back ? "story.back" : "lesson.back"), "back",
                page_back || state.step > 0)) {
    if (page_back) {
      app.record("page", {{"page", state.page - 1}});
    } else {
      app.record("step", {{"step", app.visit->lesson()->steps[state.step - 1].id}});
    }
    ui.scroll_to_top("lesson");
  }
  if (draw_tool(app, "lesson.hold", row.column(1, count), app.say("lesson.hold"), "hold", true)) {
    app.open_panel(Panel::hold);
  }
  if (draw_tool(app, "lesson.undo", row.column(2, count), app.say("undo"), "undo",
                app.visit->can_undo())) {
    app.undo();
  }
}

void draw_running(AppState& app, const VisitPace& pace) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const Step& step = app.visit->lesson()->steps[state.step];
  draw_tabs(app);
  const float forward = forward_height(app);
  const bool confirm = step.safety && !state.ticked("step", step.id);
  const Rect row = ui.bottom(forward + 10).inset(kMargin, 4);
  if (compact(ui) && !confirm) {
    const float tools = 3 * kTarget + 2 * kGap;
    draw_tools(app, {row.x, row.y, tools, row.height}, 3);
    draw_forward(app, {row.x + tools + 8, row.y, row.width - tools - 8, row.height}, pace);
  } else {
    draw_tools(app, ui.bottom(60).inset(kMargin, 2), 3);
    draw_forward(app, row, pace);
  }
  ui.begin_body("lesson");
  draw_notices(app);
  ui.begin_card();
  draw_step_head(app, step, pace);
  if (step.reading) {
    draw_story(app);
  } else {
    draw_lines(app, "lesson.say", "say", "lesson.say", ui.colors().leaf, step.say, Type::large);
    draw_lines(app, "lesson.do", "do", "lesson.do", ui.colors().leaf, step.act, Type::body);
    if (has_picture(step.drawing)) {
      ui.gap();
      ui.picture("lesson.drawing", step.drawing, app.say("drawing." + step.drawing), 130);
    }
  }
  draw_watch(app, step);
  ui.end_card();
  if (step.reading &&
      state.page + 1 < static_cast<std::int64_t>(app.visit->story()->pages.size())) {
    const std::size_t next = next_step(pace, state);
    if (ui.wide_button("story.stop", {app.say("story.stop"), next_label(app, next), ""},
                       ButtonLook::plain)) {
      go_next(app, next);
    }
  }
  ui.end_body();
}

void draw_before(AppState& app) {
  Ui& ui = app.ui;
  const Brief& brief = app.visit->brief();
  draw_tabs(app);
  const Rect row = ui.bottom(76).inset(kMargin, 4);
  if (ui.button("lesson.start", row, {app.say("lesson.start"), "", "play"}, ButtonLook::go) &&
      app.forward())
    app.record("start");
  ui.begin_body("lesson");
  draw_notices(app);
  ui.begin_card();
  ui.heading("lesson.title", 1, app.say("lesson.before"));
  ui.paragraph("lesson.before.words", Type::body, ui.colors().ink,
               app.say("lesson.before.words", {{"start", format_clock(brief.start_minutes)},
                                               {"bell", format_clock(brief.bell_minutes)}}));
  if (local_date(app.now, brief.utc_offset_minutes) != brief.date) {
    ui.gap();
    ui.marked("lesson.other_day", "clock", ui.colors().marigold, Type::strong,
              app.say("lesson.other_day", {{"date", app.words().date(brief.date)}}));
  }
  ui.end_card();
  ui.end_body();
}

void draw_held(AppState& app, const VisitPace& pace) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  draw_tabs(app);
  const Rect row = ui.bottom(76).inset(kMargin, 4);
  if (ui.button("lesson.resume", row, {app.say("lesson.resume"), "", "play"}, ButtonLook::go))
    app.record("resume");
  ui.begin_body("lesson");
  draw_notices(app);
  ui.begin_card();
  const HoldTime& hold = state.holds.back();
  ui.heading("lesson.title", 1, app.say("hold.title"));
  ui.paragraph("hold.reason", Type::large, ui.colors().brick,
               app.say("hold." + hold.reason + ".words"), Speech::alert);
  ui.gap();
  ui.paragraph("hold.time", Type::large, ui.colors().ink,
               app.say("hold.time", {{"time", clock_text((app.now - hold.since) / 1000)}}),
               Speech::timer);
  ui.paragraph("hold.plan", Type::body, ui.colors().ink_soft, plan_words(app, pace));
  ui.end_card();
  ui.end_body();
}

void draw_finished(AppState& app) {
  Ui& ui = app.ui;
  draw_tabs(app);
  const Rect row = ui.bottom(76).inset(kMargin, 4);
  if (ui.button("lesson.to_handover", row, {app.say("lesson.to_handover"), "", "handover"},
                ButtonLook::go)) {
    app.go(Screen::handover);
  }
  ui.begin_body("lesson");
  draw_notices(app);
  ui.begin_card();
  ui.picture("lesson.done.picture", "goodbye", app.say("drawing.goodbye"), 140);
  ui.heading("lesson.title", 1, app.say("lesson.done"));
  ui.paragraph("lesson.done.words", Type::body, ui.colors().ink, app.say("lesson.done.words"));
  ui.end_card();
  if (ui.wide_button("lesson.undo", {app.say("undo"), app.say("lesson.undo_finish"), "undo"},
                     ButtonLook::plain)) {
    app.undo();
  }
  ui.end_body();
}

}  // namespace

bool compact(const Ui& ui) {
  return ui.viewport().height < kShortScreen;
}

void draw_lesson(AppState& app) {
  Ui& ui = app.ui;
  const VisitPace pace = app.visit->pace(app.now);
  draw_head(app);
  const Phase phase = app.visit->state().phase;
  if (phase != Phase::finished) {
    draw_bed(app, pace, compact(ui) ? 56.0f : 76.0f);
    draw_pace(app, pace);
  }
  switch (phase) {
    case Phase::before:
      return draw_before(app);
    case Phase::running:
      return draw_running(app, pace);
    case Phase::held:
      return draw_held(app, pace);
    case Phase::finished:
      return draw_finished(app);
  }
}

void draw_hold(AppState& app) {
  Ui& ui = app.ui;
  draw_panel_head(app, app.say("hold.choose"));
  ui.begin_body("hold");
  ui.paragraph("hold.words", Type::body, ui.colors().ink, app.say("hold.choose.words"));
  ui.gap();
  for (const char* reason : {"drill", "child", "teacher", "other"}) {
    const std::string key = std::string("hold.") + reason;
    if (ui.wide_button(key, {app.say(key), "", ""}, ButtonLook::plain)) {
      app.record("hold", {{"reason", reason}});
      app.close_panel();
    }
  }
  ui.end_body();
}

}  // namespace trowelbell
