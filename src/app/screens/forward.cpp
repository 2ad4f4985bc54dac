// The one large button that leads through the lesson: turn the page, confirm the safety line, go
// on.
#include "app/screens/screens.h"

namespace trowelbell {
namespace {

constexpr float kNarrow = 160;  // no room for a step's title, or the number of a page

std::string page_words(const AppState& app) {
  const VisitState& state = app.visit->state();
  std::string words =
      app.say("story.page", {{"n", std::to_string(state.page + 1)},
                             {"all", std::to_string(app.visit->story()->pages.size())}});
  if (state.readers == 2)
    words += " · " + app.say("story.then", {{"who", reader_words(app, state.page + 1)}});
  return words;
}

ButtonText turn_text(const AppState& app, std::string page, float width) {
  return {app.say("story.turn"), width < kNarrow ? "" : std::move(page), ""};
}

}  // namespace

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
    const std::string page = page_words(app);
    const bool hit =
        ui.button("story.turn", rect, turn_text(app, page, rect.width), ButtonLook::go);
    ui.hint_last(page);
    if (hit && app.forward()) {
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
    const bool narrow = rect.width < kNarrow && next < app.visit->lesson()->steps.size();
    const bool hit =
        ui.button("lesson.next", rect, {narrow ? app.say("lesson.next_short") : label, "", ""},
                  ButtonLook::go);
    ui.name_last(label);
    if (hit && app.forward()) go_next(app, next);
  }
}

float forward_height(const AppState& app, float width) {
  const VisitState& state = app.visit->state();
  const Step& step = app.visit->lesson()->steps[state.step];
  const Ui& ui = app.ui;
  if (step.reading && state.page + 1 < static_cast<std::int64_t>(app.visit->story()->pages.size()))
    return std::max(ui.button_height(turn_text(app, page_words(app), width), width), 60.0f);
  if (step.safety && !state.ticked("step", step.id) && !step.watch.empty()) {
    return ui.button_height({app.say("lesson.safe"), app.in(step.watch.front()), ""}, width);
  }
  const auto last = app.visit->lesson()->steps.size() - 1;
  const std::string label = next_label(app, std::min(state.step + 1, last));
  return std::max(60 * ui.bar_scale(),
                  ui.button_height({width < kNarrow ? "" : label, "", ""}, width));
}

}  // namespace trowelbell
