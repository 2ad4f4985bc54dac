#include "app/practice.h"

#include "app/app_state.h"

namespace trowelbell {
namespace {

// The open visit's, or invented; without a key, so that nothing could be sent.
Brief practice_brief(const AppState& app) {
  Brief brief;
  if (app.visit) {
    brief = app.visit->brief();
  } else {
    brief.lesson = app.library.first_lesson();
    brief.school = app.say("practice.school");
    brief.room = app.say("practice.room");
    brief.date = local_date(app.now, 0);
    brief.start_minutes = 9 * 60;
    brief.bell_minutes = brief.start_minutes + 45;
    brief.children = 24;
    brief.adults = 4;
    brief.tables = 4;
    brief.kits = 27;
    brief.extra = Json::object();
  }
  brief.visit = "practice";
  brief.key.clear();
  return brief;
}

// The store of a practice: everything is "kept" at once, nowhere.
void forget(const std::string& /*stream*/, const std::string& /*record*/,
            const std::function<void(bool)>& then) {
  then(true);
}

}  // namespace

void begin_practice(AppState& app) {
  auto visit = std::make_shared<Visit>(practice_brief(app), app.settings.device, forget);
  visit->load({}, true);
  app.practice = Practice{app.visit, visit->brief().start_ms(), app.host.monotonic_ms()};
  app.show_visit(std::move(visit));
  app.host.push_history();
}

void end_practice(AppState& app) {
  std::shared_ptr<Visit> before = std::move(app.practice->before);
  app.practice.reset();
  app.show_visit(std::move(before));
}

}  // namespace trowelbell
