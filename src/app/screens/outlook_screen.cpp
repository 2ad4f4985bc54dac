// The outlook, before the visit: how many adults it takes, the chance of ending by the bell, and
// what would go if the team is late or short-handed.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "app/screens/screens.h"

namespace trowelbell {
namespace {

std::int64_t percent(double share) {
  return std::llround(share * 100);
}

// One answer more a frame; begun anew when the visit asks something else.
const Staffing& rehearsed(AppState& app) {
  const Visit& visit = *app.visit;
  StaffingQuestion question;
  question.children = static_cast<std::int64_t>(visit.state().places.size());
  question.seconds = (visit.state().bell_at - visit.brief().start_ms()) / 1000;
  const std::string asked = visit.brief().visit + " " + n(question.children) + " " +
                            n(question.seconds) + " " + app.words().tag();
  if (!app.staffing || app.staffing_for != asked) {
    app.staffing.emplace(*visit.lesson(), *visit.story(), app.words().tag(), std::move(question));
    app.staffing_for = asked;
  }
  app.staffing->rehearse_next();
  if (!app.staffing->done()) app.ui.animate();
  return *app.staffing;
}

const Rehearsal* answer(const Staffing& staffing, std::size_t row, std::size_t lateness) {
  const auto& late = staffing.rows()[row].late;
  return lateness < late.size() ? &late[lateness] : nullptr;
}

std::string late_words(const AppState& app, std::int64_t minutes) {
  return minutes == 0 ? app.say("outlook.on_time") : app.words().count("outlook.late", minutes);
}

std::string cell_words(const AppState& app, const StaffingRow& row, std::int64_t minutes,
                       const Rehearsal& rehearsal) {
  return app.say("outlook.cell", {{"adults", app.words().count("outlook.adults", row.adults)},
                                  {"late", late_words(app, minutes)},
                                  {"percent", n(percent(rehearsal.chance()))},
                                  {"error", n(percent(rehearsal.standard_error()))}});
}

void draw_lateness(AppState& app, const std::vector<std::int64_t>& minutes) {
  Ui& ui = app.ui;
  ui.paragraph("outlook.late", Type::small, ui.colors().ink_soft, app.say("outlook.choose"));
  ui.gap(4);
  const Rect row = ui.strip(std::max(52.0f, 46 * ui.scale()));
  for (std::size_t i = 0; i < minutes.size(); ++i) {
    const Rect rect = row.column(static_cast<int>(i), static_cast<int>(minutes.size()), 8);
    if (ui.button("outlook.late." + n(minutes[i]), rect, {n(minutes[i]), "", ""},
                  i == app.lateness ? ButtonLook::chosen : ButtonLook::choice)) {
      app.lateness = i;
    }
    ui.name_last(late_words(app, minutes[i]));
  }
  ui.gap();
}

// A bar for each number of adults, with two standard errors; the team's own is the full one.
void draw_bars(AppState& app, const Staffing& staffing) {
  Ui& ui = app.ui;
  const Palette& colors = ui.colors();
  ImDrawList& list = ui.draw();
  const float words = ui.text_height(Type::strong, "0", 99) + 2;
  const Rect strip = ui.strip(120 + 2 * words);
  const float base = strip.bottom() - words, most = strip.height - 2 * words;
  const std::int64_t team = app.visit->state().adults;
  const auto rows = staffing.rows();
  std::string told = late_words(app, staffing.question().minutes_late[app.lateness]);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Rect column = strip.column(static_cast<int>(i), static_cast<int>(rows.size()), 6);
    const bool own = rows[i].adults == team;
    ui.paint_words({column.x, base + 2, column.width, words - 2}, own ? Type::strong : Type::small,
                   colors.ink, Align::middle, n(rows[i].adults), Fit::squeeze);
    const Rehearsal* rehearsal = answer(staffing, i, app.lateness);
    if (rehearsal == nullptr) continue;
    const float chance = static_cast<float>(rehearsal->chance());
    const float spread = 2 * static_cast<float>(rehearsal->standard_error());
    const float top = base - chance * most;
    if (own) {
      list.AddRectFilled({column.x, top}, {column.right(), base}, colors.leaf, 4);
    } else {
      list.AddRect({column.x, top}, {column.right(), base}, colors.ink_soft, 4, 0, 2);
    }
    const float middle = column.x + column.width / 2;
    list.AddLine({middle, base - std::min(chance + spread, 1.0f) * most},
                 {middle, base - std::max(chance - spread, 0.0f) * most}, colors.ink, 2);
    ui.paint_words({column.x - 3, top - words, column.width + 6, words - 2}, Type::small,
                   colors.ink, Align::middle, n(percent(rehearsal->chance())), Fit::squeeze);
    told += "; " + app.words().count("outlook.adults", rows[i].adults) + " " +
            n(percent(rehearsal->chance())) + " %";
  }
  list.AddLine({strip.x, base}, {strip.right(), base}, colors.ink, 2);
  ui.emit({.id = "outlook.bars", .role = Role::image, .name = told}, strip);
  ui.paragraph("outlook.bars.words", Type::small, colors.ink_soft, app.say("outlook.bars"));
}

// Adults down, minutes late across, percent in the cells.
void draw_table(AppState& app, const Staffing& staffing) {
  Ui& ui = app.ui;
  const auto& minutes = staffing.question().minutes_late;
  const int columns = static_cast<int>(minutes.size()) + 1;
  const float height = std::max(30.0f, ui.text_height(Type::strong, "0", 99));
  const auto head = [&](Rect rect, const std::string& words) {
    ui.paint_words(rect, Type::strong, ui.colors().ink_soft, Align::middle, words, Fit::squeeze);
  };
  const Rect top = ui.strip(height);
  for (int c = 1; c < columns; ++c)
    head(top.column(c, columns, 0), n(minutes[static_cast<std::size_t>(c - 1)]));
  double error = 0;
  for (std::size_t i = 0; i < staffing.rows().size(); ++i) {
    const StaffingRow& row = staffing.rows()[i];
    const Rect line = ui.strip(height);
    head(line.column(0, columns, 0), n(row.adults));
    for (std::size_t k = 0; k < row.late.size(); ++k) {
      const Rect cell = line.column(static_cast<int>(k) + 1, columns, 0);
      ui.paint_words(cell, Type::small, ui.colors().ink, Align::middle,
                     n(percent(row.late[k].chance())), Fit::squeeze);
      ui.emit({.id = "outlook." + n(row.adults) + "." + n(minutes[k]),
               .name = cell_words(app, row, minutes[k], row.late[k]),
               .hint = app.say("outlook.counted", {{"by_bell", n(row.late[k].by_bell)},
                                                   {"visits", n(row.late[k].visits)}})},
              cell);
      error = std::max(error, row.late[k].standard_error());
    }
  }
  ui.gap(6);
  ui.paragraph("outlook.table.words", Type::small, ui.colors().ink_soft,
               staffing.done()
                   ? app.say("outlook.table", {{"visits", n(staffing.question().visits)},
                                               {"error", n(percent(error))}})
                   : app.say("outlook.working"),
               Speech::status);
}

// One way it could go: what the plan would then shorten or leave out.
void draw_case(AppState& app, std::string_view id, const std::string& title, std::int64_t adults,
               std::int64_t seconds) {
  Ui& ui = app.ui;
  const Visit& visit = *app.visit;
  const Lesson& lesson = *visit.lesson();
  const auto times = step_times(lesson, *visit.story(), app.words().tag(),
                                static_cast<std::int64_t>(visit.state().places.size()), adults);
  const Pace pace = lesson_pace(lesson, times, seconds);
  const std::string base = "outlook." + std::string(id);
  ui.begin_card();
  ui.heading(base, 2, title);
  const bool lacks = pace.short_by > 0;
  ui.marked(base + ".fits", lacks ? "care" : "check", lacks ? ui.colors().brick : ui.colors().leaf,
            Type::body,
            lacks ? app.say("plan.short", {{"time", minutes_words(app, pace.short_by)}})
                  : app.say("outlook.spare", {{"time", minutes_words(app, pace.slack)}}));
  for (std::size_t i = 0; i < pace.items.size(); ++i) {
    if (pace.items[i].why == PaceWhy::as_planned) continue;
    ui.marked(base + "." + lesson.steps[i].id, "dot", ui.colors().marigold, Type::small,
              why_words(app, pace.items[i], app.in(lesson.steps[i].title)));
  }
  ui.end_card();
}

}  // namespace

void draw_outlook(AppState& app) {
  Ui& ui = app.ui;
  const Staffing& staffing = rehearsed(app);
  const StaffingQuestion& question = staffing.question();
  const std::int64_t team = app.visit->state().adults;
  draw_panel_head(app, app.say("outlook.title"));
  ui.begin_body("outlook");
  const auto least = least_adults(*app.visit->lesson(), staffing.rows());
  const bool enough = least && team >= *least;
  ui.marked("outlook.least", enough ? "check" : "care",
            enough ? ui.colors().leaf : ui.colors().brick, Type::strong,
            least ? app.say("outlook.least", {{"least", n(*least)},
                                              {"children", n(question.children)},
                                              {"time", minutes_words(app, question.seconds)}})
                  : app.say("outlook.none", {{"most", n(question.most_adults)}}));
  ui.paragraph("outlook.defer", Type::small, ui.colors().ink_soft, app.say("outlook.defer"));
  ui.gap();
  draw_lateness(app, question.minutes_late);
  ui.begin_card();
  ui.heading("outlook.chance", 2, app.say("outlook.chance"));
  draw_bars(app, staffing);
  ui.end_card();
  ui.begin_card();
  ui.heading("outlook.all", 2, app.say("outlook.all"));
  draw_table(app, staffing);
  ui.end_card();
  const std::int64_t fewer = short_handed(team);
  draw_case(app, "typical", app.say("outlook.typical"), team, question.seconds);
  draw_case(app, "ten_late", app.say("outlook.ten_late"), team,
            question.seconds - kLateMinutes * 60);
  draw_case(app, "short_handed", app.words().count("outlook.short_handed", fewer), fewer,
            question.seconds);
  ui.end_body();
}

}  // namespace trowelbell
