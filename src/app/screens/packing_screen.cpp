// The packing table, before the visit: what to count and cut, and what is short.
#include "app/screens/screens.h"
#include "core/kits.h"

namespace trowelbell {
namespace {

// "2 in each kit. Cut 9 in 3 parts each."
std::string how_words(const AppState& app, const KitItem& item, const SupplyLine& line) {
  std::string each = app.say("packing.per." + item.per, {{"n", n(item.count)}});
  if (item.cut_parts == 1) return each;
  return each + " " +
         app.say("packing.cut", {{"stock", n(line.stock)}, {"parts", n(item.cut_parts)}});
}

void draw_row(AppState& app, const KitItem& item, const SupplyLine& line) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const std::string id = "packing.item." + item.id;
  const std::string name = app.in(item.name);
  const std::string what = app.say("packing.count", {{"n", n(line.pieces)}, {"item", name}});
  const auto found = state.lacking.find(item.id);
  const auto lack = [&](std::int64_t count) {
    app.record("lacking", {{"item", item.id}, {"count", count}});
  };
  ui.begin_card();
  if (found == state.lacking.end()) {
    const bool counted = state.ticked("packed", item.id);
    const ButtonText lacks{app.say("packing.short"), "", ""};
    ui.begin_beside(lacks);
    if (ui.checkbox(id, what, counted)) {
      app.record("tick", {{"list", "packed"}, {"item", item.id}, {"done", !counted}});
    }
    if (ui.end_beside(id + ".short", lacks)) lack(1);
    ui.name_last(app.say("packing.short.name", {{"item", name}}));
    ui.paragraph(id + ".how", Type::small, ui.colors().ink_soft, how_words(app, item, line));
  } else {
    ui.marked(id, "care", ui.colors().brick, Type::strong, what);
    const int change = ui.stepper(
        id + ".lacking", app.say("packing.lacking"), app.say("packing.less", {{"item", name}}),
        app.say("packing.more", {{"item", name}}), found->second, ui.colors().ink);
    if (change != 0) lack(std::clamp<std::int64_t>(found->second + change, 0, line.pieces));
  }
  ui.end_card();
}

}  // namespace

std::string packing_words(const AppState& app) {
  const Brief& brief = app.visit->brief();
  const Lesson& lesson = *app.visit->lesson();
  const VisitState& state = app.visit->state();
  const KitNeeds needs = needs_of(brief);
  const std::int64_t wanted = needs.children + needs.spares;
  if (!state.lacking.empty()) {
    const std::int64_t whole = kits_from(lesson, wanted, state.lacking);
    return app.words().count("packing.items_short",
                             static_cast<std::int64_t>(state.lacking.size())) +
           " " + app.say("packing.enough", {{"kits", n(whole)}, {"wanted", n(wanted)}});
  }
  std::int64_t counted = 0;
  for (const KitItem& item : lesson.kit) counted += state.ticked("packed", item.id) ? 1 : 0;
  return app.say("packing.counted",
                 {{"n", n(counted)}, {"all", n(static_cast<std::int64_t>(lesson.kit.size()))}});
}

void draw_packing(AppState& app) {
  Ui& ui = app.ui;
  const Lesson& lesson = *app.visit->lesson();
  const bool short_of = !app.visit->state().lacking.empty();
  draw_panel_head(app, app.say("packing.title"));
  ui.begin_body("packing");
  ui.paragraph("packing.words", Type::body, ui.colors().ink, app.say("packing.words"));
  ui.gap();
  ui.marked("packing.state", short_of ? "care" : "check",
            short_of ? ui.colors().brick : ui.colors().leaf, Type::strong, packing_words(app));
  ui.gap();
  for (const SupplyLine& line : bill_of_materials(lesson, needs_of(app.visit->brief())))
    draw_row(app, lesson.kit[line.item], line);
  if (ui.wide_button("packing.undo", {app.say("undo"), "", "undo"}, ButtonLook::plain,
                     app.visit->can_undo()))
    app.undo();
  ui.end_body();
}

}  // namespace trowelbell
