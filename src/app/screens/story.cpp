// The story's page on Lesson, who reads it, and whether the reading is on time.
#include <algorithm>
#include <cstdlib>

#include "app/drawings/picture.h"
#include "app/screens/screens.h"

namespace trowelbell {
namespace {

constexpr float kPicture = 130;

// Where the reader is against the pace of the pages turned so far.
std::string reading_words(const AppState& app) {
  const VisitState& state = app.visit->state();
  const Story& story = *app.visit->story();
  std::int64_t planned = 0, spent = 0;
  const auto page = static_cast<std::size_t>(state.page);
  for (std::size_t i = 0; i < page && i < story.pages.size(); ++i) {
    planned += page_seconds(story.pages[i], app.words().tag());
    spent += i < state.page_ms.size() ? state.page_ms[i] / 1000 : 0;
  }
  const std::int64_t behind = spent - planned;
  if (page == 0 || std::abs(behind) < 20) return app.say("story.on_time");
  return app.say(behind > 0 ? "story.behind" : "story.ahead",
                 {{"time", minutes_seconds(std::abs(behind))}});
}

}  // namespace

std::string reader_words(const AppState& app, std::int64_t page) {
  if (app.visit->state().readers == 1) return app.say("who.reader");
  return app.say(page % 2 == 0 ? "who.reader.first" : "who.reader.second");
}

const StoryPage& page_being_read(const AppState& app) {
  const auto& pages = app.visit->story()->pages;
  return pages[std::min(static_cast<std::size_t>(app.visit->state().page), pages.size() - 1)];
}

void draw_readers(AppState& app) {
  const bool two = app.visit->state().readers == 2;
  if (app.ui.checkbox("readers", app.say("story.two_readers"), two))
    app.record("readers", {{"count", two ? 1 : 2}});
}

void draw_story(AppState& app) {
  Ui& ui = app.ui;
  const Story& story = *app.visit->story();
  const StoryPage& page = page_being_read(app);
  if (&page == &story.pages.front())
    ui.paragraph("story.title", Type::strong, ui.colors().leaf, app.in(story.title));
  // The words come first: the picture stands above them only where all of them are still seen.
  const float words = ui.text_height(Type::reading, app.in(page.text), ui.body_width());
  const bool above = ui.fits(kPicture + 6 + words);
  const auto picture = [&] {
    if (has_picture(page.picture))
      ui.picture("story.picture", page.picture, app.say("drawing." + page.picture), kPicture);
  };
  if (above) picture();
  ui.gap(6);
  ui.paragraph("story.text", Type::reading, ui.colors().ink, app.in(page.text));
  if (!page.prompt.empty()) {
    ui.gap();
    ui.marked("story.prompt", "ask", ui.colors().water, Type::strong, app.in(page.prompt));
  }
  if (!above) picture();
  ui.gap();
  ui.paragraph("story.pace", Type::small, ui.colors().ink_soft, reading_words(app), Speech::timer);
  ui.gap();
  draw_readers(app);
}

}  // namespace trowelbell
