// The one large button that leads through the lesson: turn the page, confirm the safety line, go
// on.
#include "app/screens/screens.h"

namespace trowelbell {

std::string next_label(const AppState& app, std::size_t next) {
  const auto& steps = app.visit->lesson()->steps;
  if (next >= steps.size()) return app.say("lesson.finish");
  return app.say("lesson.next", {{"step", app.in(steps[next].title)}});
}

void go_next(AppState& app, std::size_t next) {
  const auto& steps = app.visit->lesson()->steps;
  if (next >= steps.size()) {
    app.record("finish");
  } else {
    app.record("step", {{"step", steps[next].id}});
  }
  app.ui.scroll_to_top("lesson");
}

void draw_forward(AppState& app, Rect rect, const VisitPace& pace) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const Step& step = app.visit->lesson()->steps[state.step];
  const std::size_t next = next_step(pace, state);
  const auto pages = static_cast<std::int64_t>(app.visit->story()->pages.size());
  if (step.reading && state.page + 1 < pages) {
    std::string detail = app.say(
        "story.page", {{"n", std::to_string(state.page + 1)}, {"all", std::to_string(pages)}});
    if (state.readers == 2)
      detail += " · " + app.say("story.then", {{"who", reader_words(app, state.page + 1)}});
    if (ui.button("story.turn", rect, {app.say("story.turn"), detail, ""}, ButtonLook::go) &&
        app.forward()) {
      app.record("page", {{"page", state.page + 1}});
      ui.scroll_to_top("lesson");
    }
  } else if (step.safety && !state.ticked("step", step.id)) {
    const std::string detail = step.watch.empty() ? "" : app.in(step.watch.front());
    if (ui.button("lesson.safe", rect, {app.say("lesson.safe"), detail, ""}, ButtonLook::care) &&
        app.forward()) {
      app.record("tick", {{"list", "step"}, {"item", step.id}, {"done", true}});
    }
  } else {
    // A narrow button has no room for the step's title; its name still tells it.
    const std::string label = next_label(app, next);
    const bool narrow = rect.width < 160 && next < app.visit->lesson()->steps.size();
    const bool hit =
        ui.button("lesson.next", rect, {narrow ? app.say("lesson.next_short") : label, "", ""},
                  ButtonLook::go);
    ui.name_last(label);
    if (hit && app.forward()) go_next(app, next);
  }
}

float forward_height(const AppState& app) {
  const VisitState& state = app.visit->state();
  const Step& step = app.visit->lesson()->steps[state.step];
  const Ui& ui = app.ui;
  const float width = ui.viewport().width - 2 * kMargin;
  if (step.safety && !state.ticked("step", step.id) && !step.watch.empty()) {
    return ui.button_height({app.say("lesson.safe"), app.in(step.watch.front()), ""}, width);
  }
  return 60 * ui.bar_scale();
}

}  // namespace trowelbell
