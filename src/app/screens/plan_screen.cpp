// The plan: every step with its time, what is left out and why, and the lead's own word on it.
#include "app/screens/screens.h"

namespace trowelbell {
namespace {

constexpr std::int64_t kMinuteMs = 60 * 1000;

void draw_bell_time(AppState& app) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const std::int64_t offset = app.visit->brief().utc_offset_minutes;
  ui.begin_card();
  ui.paragraph(
      "plan.bell", Type::strong, ui.colors().ink,
      app.say("plan.bell", {{"time", format_clock(local_minutes(state.bell_at, offset))}}));
  ui.paragraph("plan.bell.words", Type::small, ui.colors().ink_soft, app.say("plan.bell.words"));
  ui.gap(6);
  const ButtonText both[] = {{app.say("plan.bell.earlier"), "", ""},
                             {app.say("plan.bell.later"), "", ""}};
  const Rect row = ui.strip(ui.row_height(both, ui.body_width()));
  if (ui.button("plan.bell.earlier", row.column(0, 2), both[0], ButtonLook::plain)) {
    app.record("bell", {{"at", state.bell_at - kMinuteMs}});
  }
  if (ui.button("plan.bell.later", row.column(1, 2), both[1], ButtonLook::plain)) {
    app.record("bell", {{"at", state.bell_at + kMinuteMs}});
  }
  ui.end_card();
}

std::string step_note(const AppState& app, std::size_t i, const VisitPace& pace) {
  const VisitState& state = app.visit->state();
  const Step& step = app.visit->lesson()->steps[i];
  const std::string spent = minutes_seconds(state.step_ms(i, app.now) / 1000);
  if (pace.over[i])
    return app.say(state.steps[i].entered ? "plan.done" : "plan.skipped", {{"time", spent}});
  if (!pace.steps[i].kept) return why_words(app, pace.steps[i], app.in(step.title));
  const std::string time = minutes_seconds(pace.steps[i].ms / 1000);
  const bool shortened = pace.steps[i].why == PaceWhy::shortened;
  return app.say(shortened ? "plan.shorter" : "plan.time",
                 {{"time", time}, {"plan", minutes_seconds(app.visit->times()[i].plan)}});
}

void draw_row(AppState& app, std::size_t i, const VisitPace& pace) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const Step& step = app.visit->lesson()->steps[i];
  const std::string id = "plan.step." + step.id;
  const bool begun = state.phase == Phase::running || state.phase == Phase::held;
  const bool current = begun && state.step == i;
  const bool done = pace.over[i] && state.steps[i].entered;
  const bool kept = pace.steps[i].kept;
  const Palette& colors = ui.colors();
  const bool can_go = begun && !current;
  const ButtonText go{app.say("plan.go"), "", ""};
  ui.begin_card();
  if (can_go) ui.begin_beside(go);
  ui.marked(id,
            current ? "sprout"
            : done  ? "check"
                    : "dot",
            kept ? colors.ink : colors.ink_soft, Type::strong, app.in(step.title));
  ui.paragraph(id + ".note", Type::small, colors.ink_soft, step_note(app, i, pace));
  if (can_go) {
    if (ui.end_beside(id + ".go", go)) {
      app.record("step", {{"step", step.id}});
      app.close_panel();
    }
    ui.name_last(app.say("plan.go.name", {{"step", app.in(step.title)}}));
  }
  if (!kept && !step.left_with_teacher.empty()) {
    ui.paragraph(id + ".later", Type::small, colors.ink_soft, app.in(step.left_with_teacher));
  }
  if (!current && !pace.over[i] && step.keep != Keep::must) {
    ui.gap(8);
    if (ui.wide_button(id + ".choose", {app.say(kept ? "plan.drop" : "plan.keep"), "", ""},
                       ButtonLook::plain)) {
      app.record("choose", {{"step", step.id}, {"choice", kept ? "drop" : "keep"}});
    }
    ui.name_last(
        app.say(kept ? "plan.drop.name" : "plan.keep.name", {{"step", app.in(step.title)}}));
  }
  ui.end_card();
}

}  // namespace

void draw_plan(AppState& app) {
  Ui& ui = app.ui;
  const VisitPace pace = app.visit->pace(app.now);
  if (pace.step_left < 0) app.redraw_within(15);  // it is made anew while a step runs over
  draw_panel_head(app, app.say("plan.title"));
  ui.begin_body("plan");
  ui.paragraph("plan.bell_in", Type::large, ui.colors().ink, bell_words(app, pace), Speech::timer);
  if (pace.short_by > 0) {
    ui.marked("plan.short", "care", ui.colors().brick, Type::strong,
              app.say("plan.short", {{"time", minutes_words(app, pace.short_by)}}));
  }
  ui.gap();
  draw_bell_time(app);
  for (std::size_t i = 0; i < app.visit->lesson()->steps.size(); ++i) draw_row(app, i, pace);
  if (ui.wide_button("plan.undo", {app.say("undo"), "", "undo"}, ButtonLook::plain,
                     app.visit->can_undo()))
    app.undo();
  ui.end_body();
}

}  // namespace trowelbell
