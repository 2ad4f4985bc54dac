// Lesson: what to say and do now, what comes next, and whether it still ends by the bell.
#include <imgui.h>

#include <algorithm>

#include "app/drawings/picture.h"
#include "app/screens/screens.h"

namespace trowelbell {
namespace {

constexpr float kHeadGap = 8;
constexpr float kShortScreen = 660;  // below this height the tools share one row with Next
constexpr std::int64_t kFarSeconds =
    3 * 60 * 60;  // a bell this far off is another day's or hour's: its time says more

float plan_width(const AppState& app) {
  return std::max(84.0f, app.ui.text_width(Type::strong, app.say("plan.open")) + 32);
}

void draw_to_plan(AppState& app, Rect rect) {
  if (app.ui.button("lesson.plan", rect, {app.say("plan.open"), "", ""}, ButtonLook::plain))
    app.open_panel(Panel::plan);
}

// The chime, and the large letters.
void draw_head_tools(AppState& app, Rect row) {
  Ui& ui = app.ui;
  const bool sound = app.settings.sound;
  if (ui.button("lesson.sound", {row.x, row.y, kTarget, row.height},
                {"", "", sound ? "chime" : "silent"}, ButtonLook::quiet))
    app.set({{"sound", sound ? "off" : "on"}});
  ui.name_last(app.say(sound ? "lesson.sound_off" : "lesson.sound_on"));
  if (ui.button("lesson.big", {row.x + kTarget + kHeadGap, row.y, kTarget, row.height},
                {"", "", "letters"}, ButtonLook::quiet)) {
    app.open_panel(Panel::big);
    ui.scroll_to_top("lesson");
  }
  ui.name_last(app.say("lesson.big"));
}

// Which room, and what time it is. On a wide, low screen the bed and the plan are in this row, too.
void draw_head(AppState& app, const VisitPace& pace) {
  Ui& ui = app.ui;
  const Brief& brief = app.visit->brief();
  const Rect head = ui.top(56).inset(kMargin, 4);
  const Phase phase = app.visit->state().phase;
  const bool all = ui.sideways() && phase != Phase::finished;
  const bool running = phase == Phase::running;
  const float plan = all ? plan_width(app) + kGap : 0;
  const float tools = running ? 2 * (kTarget + kHeadGap) : 0;
  const float clock =
      std::min(ui.text_width(Type::large, "00:00") + 8, head.width - plan - tools - kTarget - kGap);
  const std::string name = compact(ui) || running ? brief.room : brief.room + ", " + brief.school;
  float room = head.width - plan - tools - clock - kGap;
  if (all) room = std::min(ui.text_width(Type::strong, name) + 40, head.width * 0.24f);
  // Where its words would break, the sign alone.
  ButtonText to_brief{name, "", "brief"};
  if (!ui.roomy({&to_brief, 1}, room)) to_brief.label.clear();
  if (ui.button("lesson.brief", {head.x, head.y, room, head.height}, to_brief, ButtonLook::quiet))
    app.go(Screen::brief);
  ui.name_last(name);
  if (all) {
    const float left = head.x + room + 2 * kGap;
    const float right = head.right() - plan - clock - kGap - tools;
    draw_bed(app, pace, {left, head.y, right - left, head.height + 4});
  }
  if (running)
    draw_head_tools(app, {head.right() - plan - clock - tools, head.y, tools, head.height});
  ui.words("lesson.clock", {head.right() - plan - clock, head.y, clock, head.height}, Type::large,
           ui.colors().ink, Align::right,
           format_clock(local_minutes(app.now, brief.utc_offset_minutes)), Speech::timer);
  if (all) draw_to_plan(app, {head.right() - plan + kGap, head.y, plan - kGap, head.height});
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

std::string spare_words(const AppState& app, const VisitPace& pace) {
  if (pace.to_bell > kFarSeconds) return "";
  if (pace.short_by > 0)
    return app.say("pace.short", {{"time", minutes_words(app, pace.short_by)}});
  return pace.slack >= 60 ? app.say("pace.spare", {{"time", minutes_words(app, pace.slack)}})
                          : app.say("pace.tight");
}

// The time to the bell and what it leaves over: side by side, or one below the other.
void draw_times(AppState& app, const VisitPace& pace, Rect rect, Type type, bool one_line) {
  Ui& ui = app.ui;
  const Palette& colors = ui.colors();
  const std::string bell = bell_words(app, pace), spare = spare_words(app, pace);
  const float left = ui.text_width(type, bell), right = ui.text_width(type, spare);
  Rect first = rect.row(0, 2, 0), second = rect.row(1, 2, 0);
  if (one_line) {
    first = second = rect;
    first.width = spare.empty() ? rect.width : (rect.width - kGap) * left / (left + right);
    second.width = rect.width - first.width - kGap;
    second.x = rect.right() - second.width;
  }
  ui.words("lesson.bell", first, type, late(pace) ? colors.brick : colors.ink, Align::left, bell,
           Speech::timer, Fit::squeeze);
  if (spare.empty()) return;
  const Color color = pace.short_by > 0  ? colors.brick
                      : pace.slack >= 60 ? colors.leaf
                                         : colors.marigold;
  ui.words("lesson.spare", second, type, color, one_line ? Align::right : Align::left, spare,
           Speech::timer, Fit::squeeze);
}

// How far the visit is. A short screen has the way to the plan beside it.
void draw_progress(AppState& app, const VisitPace& pace) {
  Ui& ui = app.ui;
  if (!compact(ui)) return draw_bed(app, pace, ui.top(76).inset(20, 0));
  const Rect row = ui.top(60).inset(kMargin, 0);
  const float plan = plan_width(app);
  draw_bed(app, pace, ui.handed({row.x + 4, row.y, row.width - plan - kGap - 4, row.height}, row));
  draw_to_plan(app, ui.handed({row.right() - plan, row.y + 4, plan, row.height - 8}, row));
}

void draw_pace(AppState& app, const VisitPace& pace) {
  Ui& ui = app.ui;
  // A short screen has the times only; the reasons are in the plan.
  const bool small = compact(ui);
  const float button = small || ui.sideways() ? 0 : plan_width(app) + kGap;
  const float width = ui.bar_width();
  const auto in_a_line = [&](Type type) {
    const float needed = ui.text_width(type, bell_words(app, pace)) +
                         ui.text_width(type, spare_words(app, pace)) + kGap;
    return needed * 0.8f <= width;
  };
  // A short screen would rather have smaller times than two lines of them.
  const Type type =
      small && !in_a_line(Type::large) && in_a_line(Type::strong) ? Type::strong : Type::large;
  const bool one_line = in_a_line(type);
  const float times = 28 * ui.bar_scale() * (one_line ? 1.0f : 2.0f);
  const std::string why = small ? "" : plan_words(app, pace);
  const float reason = std::max(50.0f, ui.text_height(Type::small, why, width - button));
  const Rect block = ui.top_aside((small ? times : times + reason + 4) + 4).inset(kMargin, 2);
  draw_times(app, pace, {block.x, block.y, width, times}, type, one_line);
  if (small) return;
  const Rect row{block.x, block.bottom() - reason, block.width, reason};
  ui.words("lesson.why", ui.handed({row.x, row.y, row.width - button, row.height}, row),
           Type::small, ui.colors().ink_soft, Align::left, why, Speech::status);
  if (button <= 0) return;
  draw_to_plan(app,
               ui.handed({row.right() - button + kGap, row.y, button - kGap, row.height}, row));
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

// On a short screen what to say comes first: a title of two lines is smaller, and that of the story
// no larger than its words.
Type title_type(const Ui& ui, const Step& step, std::string_view title) {
  if (!compact(ui)) return Type::title;
  if (step.reading) return Type::strong;
  return ui.text_width(Type::title, title) <= ui.body_width() ? Type::title : Type::large;
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
  const std::string left = step_left_words(app, pace);
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
  const std::string title = app.in(step.title);
  ui.heading("lesson.title", 1, title_type(ui, step, title), title);
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
  const auto place = [&](int index) { return ui.handed(row.column(index, count), row); };
  if (draw_tool(app, "lesson.back", place(0), app.say(page_back ? "story.back" : "lesson.back"),
                "back", page_back || state.step > 0)) {
    if (page_back) {
      app.record("page", {{"page", state.page - 1}});
    } else {
      app.record("step", {{"step", app.visit->lesson()->steps[state.step - 1].id}});
    }
    ui.scroll_to_top("lesson");
  }
  if (draw_tool(app, "lesson.hold", place(1), app.say("lesson.hold"), "hold", true)) {
    app.open_panel(Panel::hold);
  }
  if (draw_tool(app, "lesson.undo", place(2), app.say("undo"), "undo", app.visit->can_undo())) {
    app.undo();
  }
}

void draw_running(AppState& app, const VisitPace& pace) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const Step& step = app.visit->lesson()->steps[state.step];
  const bool confirm = step.safety && !state.ticked("step", step.id);
  const bool one_row = compact(ui) && !ui.sideways() && !confirm;
  const float tools = 3 * kTarget + 2 * kGap;
  const float room = ui.bar_width() - (one_row ? tools + 8 : 0);
  const Rect row = ui.bottom(forward_height(app, room) + 8).inset(kMargin, 4);
  if (one_row) {
    draw_tools(app, ui.handed({row.x, row.y, tools, row.height}, row), 3);
    draw_forward(app, ui.handed({row.x + tools + 8, row.y, room, row.height}, row), pace);
  } else {
    const float height = compact(ui) ? 52.0f : std::max(52.0f, 50 * ui.bar_scale());
    draw_tools(app, ui.bottom(height + 8).inset(kMargin, 4), 3);
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
  if (go_bar(ui, "lesson.start", {app.say("lesson.start"), "", "play"}) && app.forward())
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
  if (go_bar(ui, "lesson.resume", {app.say("lesson.resume"), "", "play"})) app.record("resume");
  ui.begin_body("lesson");
  draw_notices(app);
  ui.begin_card();
  const HoldTime& hold = state.holds.back();
  ui.heading("lesson.title", 1, app.say("hold.title"));
  ui.paragraph("hold.reason", Type::large, ui.colors().brick,
               app.say("hold." + hold.reason + ".words"), Speech::alert);
  ui.gap();
  ui.paragraph(
      "hold.time", Type::large, ui.colors().ink,
      app.say("hold.time",
              {{"time", minutes_seconds(-shown_seconds(app, (hold.since - app.now) / 1000))}}),
      Speech::timer);
  ui.paragraph("hold.plan", Type::body, ui.colors().ink_soft, plan_words(app, pace));
  ui.end_card();
  ui.end_body();
}

void draw_finished(AppState& app) {
  Ui& ui = app.ui;
  if (go_bar(ui, "lesson.to_handover", {app.say("lesson.to_handover"), "", "handover"})) {
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
  const Phase phase = app.visit->state().phase;
  draw_tabs(app);
  draw_head(app, pace);
  if (phase != Phase::finished) {
    if (!ui.sideways()) draw_progress(app, pace);
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
