// Lesson in letters that are read at arm's length: what is on, how long it has left, what to say.
#include <algorithm>

#include "app/screens/screens.h"

namespace trowelbell {
namespace {

constexpr float kLeastForward = 84;  // px: a target for a hand that is busy elsewhere

void draw_time_left(AppState& app, const VisitPace& pace) {
  Ui& ui = app.ui;
  const std::string left = step_left_words(app, pace);
  const Rect row = ui.strip(ui.text_height(Type::huge, left, ui.body_width(), Fit::squeeze));
  ui.words("big.left", row, Type::huge, pace.step_left < 0 ? ui.colors().marigold : ui.colors().ink,
           Align::left, left, Speech::timer, Fit::squeeze);
}

// The words of the moment: the page being read, or what to say and to watch for.
void draw_now(AppState& app, const Step& step) {
  Ui& ui = app.ui;
  if (step.safety && !step.watch.empty()) {
    ui.paragraph("big.watch", Type::big, ui.colors().brick, app.in(step.watch.front()));
    ui.gap();
  }
  if (step.reading) {
    const StoryPage& page = page_being_read(app);
    ui.paragraph("big.page", Type::big, ui.colors().ink, app.in(page.text));
    if (!page.prompt.empty())
      ui.paragraph("big.prompt", Type::big, ui.colors().water, app.in(page.prompt));
    return;
  }
  for (std::size_t i = 0; i < step.say.size(); ++i) {
    ui.paragraph("big.say." + n(static_cast<std::int64_t>(i)), Type::big, ui.colors().ink,
                 app.in(step.say[i]));
    ui.gap();
  }
}

}  // namespace

void draw_big(AppState& app) {
  Ui& ui = app.ui;
  const VisitPace pace = app.visit->pace(app.now);
  const Step& step = app.visit->lesson()->steps[app.visit->state().step];
  const float height = std::max(forward_height(app, ui.bar_width()), kLeastForward);
  draw_forward(app, ui.bottom(height + 8).inset(kMargin, 4), pace);
  draw_panel_head(app, app.in(step.title));
  const float line = ui.text_height(Type::big, "0", ui.top_width());
  ui.words("big.bell", ui.top_aside(line + 4).inset(kMargin, 2), Type::big,
           late(pace) ? ui.colors().brick : ui.colors().leaf, Align::left, bell_words(app, pace),
           Speech::timer, Fit::squeeze);
  // One body with Lesson: a new step starts both at the top.
  ui.begin_body("lesson");
  draw_notices(app);
  draw_time_left(app, pace);
  draw_now(app, step);
  ui.end_body();
}

}  // namespace trowelbell
