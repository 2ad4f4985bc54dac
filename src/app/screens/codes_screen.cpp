// Ways for the report to leave a phone that finds no network: QR codes on its screen, and paper.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "app/screens/screens.h"
#include "core/report_digest.h"
#include "core/report_paper.h"

namespace trowelbell {
namespace {

constexpr int kQuiet = 4;          // modules of white around a code (ISO/IEC 18004)
constexpr float kLeastSide = 200;  // px; where even that is not seen whole, it scrolls
// Of a code in every theme: readers look for dark on light.
constexpr Color kBlack = 0xFF000000, kWhite = 0xFFFFFFFF;

// The largest square of the body that is seen whole.
float code_side(const Ui& ui) {
  float side = std::min(ui.body_width(), 640.0f);
  while (side > kLeastSide && !ui.fits(side)) side -= 4;
  return side;
}

// Modules as wide as a whole number of the screen's own pixels, so that all are alike.
void draw_code(Ui& ui, const QrCode& code, const std::string& name) {
  const float side = code_side(ui);
  const Rect strip = ui.strip(side);
  const float density = std::max(ImGui::GetIO().DisplayFramebufferScale.x, 1.0f);
  const auto modules = static_cast<float>(code.size + 2 * kQuiet);
  const float module = std::max(1.0f, std::floor(side * density / modules)) / density;
  const auto pixel = [&](float at) { return std::floor(at * density) / density; };
  const float left = pixel(strip.x + (strip.width - module * modules) / 2), top = pixel(strip.y);
  ImDrawList& draw = ui.draw();
  draw.AddRectFilled({left, top}, {left + module * modules, top + module * modules}, kWhite);
  for (int y = 0; y < code.size; ++y) {
    for (int x = 0; x < code.size; ++x) {
      if (!code.at(x, y)) continue;
      const int from = x;
      while (x + 1 < code.size && code.at(x + 1, y)) ++x;
      const auto at = [&](float origin, int n) {
        return origin + module * static_cast<float>(n + kQuiet);
      };
      draw.AddRectFilled({at(left, from), at(top, y)}, {at(left, x + 1), at(top, y + 1)}, kBlack);
    }
  }
  ui.emit({.id = "codes.code", .role = Role::image, .name = name}, strip);
}

Arg number(std::string_view name, std::size_t value) {
  return {name, n(static_cast<std::int64_t>(value))};
}

std::string part_words(const AppState& app) {
  return app.say("codes.part",
                 {number("n", app.codes.shown() + 1), number("all", app.codes.parts())});
}

std::string image_words(const AppState& app) {
  return app.say("codes.image",
                 {number("n", app.codes.shown() + 1), number("all", app.codes.parts())});
}

void turn(AppState& app, int by) {
  app.codes.turn(by, app.ui.now());
  app.host.announce(part_words(app), false);
  app.ui.animate();
}

void draw_turns(AppState& app) {
  const ButtonText back{app.say("codes.before"), "", "back"};
  const ButtonText next{app.say("codes.next"), "", ""};
  const ToolBar bar = tool_bar(app.ui, back, next);
  if (app.ui.button("codes.before", bar.left, back, ButtonLook::plain)) turn(app, -1);
  if (app.ui.button("codes.next", bar.right, next, ButtonLook::go)) turn(app, 1);
}

}  // namespace

void draw_codes(AppState& app) {
  Ui& ui = app.ui;
  ReportCodes& codes = app.codes;
  if (ui.still()) codes.set_turning(false, ui.now());
  if (codes.due() >= 0 && ui.now() >= codes.due()) codes.turn(1, ui.now());
  const bool several = codes.parts() > 1;
  if (several) draw_turns(app);
  draw_panel_head(app, part_words(app));
  ui.begin_body("codes");
  draw_code(ui, codes.code(), image_words(app));
  ui.gap();
  ui.paragraph("codes.words", Type::body, ui.colors().ink, app.say("codes.words"));
  ui.gap();
  if (several && !ui.still()) {
    const bool on = codes.turning();
    if (ui.wide_button("codes.turn", {app.say(on ? "codes.stop" : "codes.turn"), "", ""},
                       ButtonLook::plain)) {
      codes.set_turning(!on, ui.now());
      ui.animate();
    }
  }
  ui.end_body();
}

void draw_without_network(AppState& app) {
  Ui& ui = app.ui;
  const bool begun = app.visit->state().started_at > 0;
  // After the frame: what is typed into the note belongs to the report.
  if (ui.wide_button("report.codes", {app.say("report.codes"), app.say("report.codes.words"), ""},
                     ButtonLook::plain, begun)) {
    app.after_frame = [&app] {
      if (!app.may_write()) return;
      app.codes = ReportCodes(app.report_in_hand());
      app.open_panel(Panel::codes);
    };
  }
  if (ui.wide_button("report.print", {app.say("report.print"), "", "page"}, ButtonLook::plain,
                     begun)) {
    app.after_frame = [&app] {
      if (!app.may_write()) return;
      const std::string report = app.report_in_hand();
      Problems problems;
      const auto document = parse_json(report, kReportLimits, problems);
      const Visit& visit = *app.visit;
      if (document)
        app.host.print_text(app.say("paper.title"),
                            report_paper(*document, report_digest(report), visit.brief(),
                                         *visit.lesson(), *app.library.care(), app.words()));
    };
  }
}

}  // namespace trowelbell
