// First names for places: only where the school allows it, only on this phone, only for a while.
#include "app/screens/screens.h"

namespace trowelbell {

void draw_names(AppState& app) {
  Ui& ui = app.ui;
  const std::string& visit = app.visit->brief().visit;
  const bool any = app.names.any(visit);
  draw_panel_head(app, app.say("names.title"));
  ui.begin_body("names");
  bool wipe = false;
  ui.marked("names.school", "care", ui.colors().brick, Type::body, app.say("names.school"));
  ui.paragraph("names.words", Type::body, ui.colors().ink, app.say("names.words"));
  ui.gap();
  if (app.names_too_late()) {
    ui.paragraph("names.late", Type::strong, ui.colors().ink, app.say("names.late"));
  } else if (any || app.names_allowed) {
    wipe = any && ui.wide_button("names.wipe", {app.say("names.wipe"), "", ""}, ButtonLook::plain);
    if (any) ui.gap(8);
    const int count = static_cast<int>(app.visit->state().places.size());
    for (int place = 1; place <= count; ++place) {
      std::string name = app.names.of(visit, place);
      if (ui.field("names.place." + n(place), app.say("names.place", {{"n", n(place)}}), "", name,
                   Names::kMostBytes, 1))
        app.set_name(place, name);
      ui.gap(8);
    }
  } else if (ui.checkbox("names.allowed", app.say("names.allowed"), false)) {
    app.names_allowed = true;
  }
  ui.end_body();
  if (wipe) app.wipe_names(visit);
}

}  // namespace trowelbell
