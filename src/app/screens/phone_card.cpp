// "This phone", a card on Brief: what it should look like and sound like, what it keeps.
#include <algorithm>

#include "app/screens/screens.h"

namespace trowelbell {
namespace {

void draw_choices(AppState& app, std::string_view id, std::string_view title,
                  std::span<const std::string> labels, std::size_t chosen,
                  const std::function<void(std::size_t)>& choose) {
  Ui& ui = app.ui;
  const std::string base(id);
  ui.paragraph(base, Type::strong, ui.colors().ink, title);
  ui.gap(4);
  std::vector<ButtonText> texts;
  for (const std::string& label : labels) texts.push_back({label, "", ""});
  // Side by side, or two by two where that is too narrow for a finger or a word.
  const int count = static_cast<int>(labels.size());
  const float each = Rect{0, 0, ui.body_width(), 0}.column(0, count, 8).width;
  const int columns = ui.roomy(texts, each) ? count : 2;
  Rect row;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const int column = static_cast<int>(i) % columns;
    if (i > 0 && column == 0) ui.gap(8);
    if (column == 0) row = ui.strip(ui.row_height(texts, ui.body_width()));
    const Rect rect = row.column(column, columns, 8);
    if (ui.button(base + "." + std::to_string(i), rect, texts[i],
                  i == chosen ? ButtonLook::chosen : ButtonLook::choice)) {
      choose(i);
    }
  }
  ui.gap(14);
}

// The phone counts slowly, and the answer draws again: not at every frame.
void ask_storage(AppState& app) {
  constexpr std::int64_t kAgainAfter = 10'000;
  if (app.real_now - app.storage_asked < kAgainAfter) return;
  app.storage_asked = app.real_now;
  app.host.ask_storage();
}

// What is stored here, how much it is, and how long the phone keeps it.
std::string kept_words(const AppState& app) {
  const auto taps = static_cast<std::int64_t>(app.visit->journal().events().size());
  const auto reports = static_cast<std::int64_t>(app.sender.outbox().entries().size());
  std::string words = app.say("phone.kept", {{"count", n(taps)}, {"reports", n(reports)}});
  if (!app.storage) return words;
  if (app.storage->bytes >= 0) {
    const std::int64_t tenths = (app.storage->bytes * 10 + 999'999) / 1'000'000;
    words += " " + app.say("phone.kept.size", {{"size", n(tenths / 10) + "." + n(tenths % 10)}});
  }
  return words + " " + app.say(app.storage->persistent ? "phone.kept.long" : "phone.kept.short");
}

}  // namespace

void draw_phone(AppState& app) {
  Ui& ui = app.ui;
  ui.begin_card();
  ui.heading("phone.title", 2, app.say("phone.title"));
  const std::string languages[] = {"English", "Español"};
  draw_choices(app, "phone.language", app.say("phone.language"), languages,
               app.words().tag() == "es" ? 1 : 0, [&](std::size_t i) {
                 app.set({{"language", i == 1 ? "es" : "en"}});
               });
  const std::string themes[] = {app.say("phone.theme.phone"), app.say("phone.theme.light"),
                                app.say("phone.theme.dark")};
  draw_choices(app, "phone.theme", app.say("phone.theme"), themes,
               static_cast<std::size_t>(app.settings.theme), [&](std::size_t i) {
                 const char* names[] = {"phone", "light", "dark"};
                 app.set({{"theme", names[i]}});
               });
  constexpr std::int64_t kPercents[] = {100, 125, 150, 200};
  const std::string sizes[] = {"A", "A+", "A++", "A+++"};
  const auto found =
      std::find(std::begin(kPercents), std::end(kPercents), app.settings.text_percent);
  draw_choices(app, "phone.text", app.say("phone.text"), sizes,
               static_cast<std::size_t>(found - kPercents), [&](std::size_t i) {
                 app.set({{"text", kPercents[i]}});
               });
  const std::string sounds[] = {app.say("phone.sound.off"), app.say("phone.sound.on")};
  draw_choices(app, "phone.sound", app.say("phone.sound"), sounds, app.settings.sound ? 1 : 0,
               [&](std::size_t i) {
                 app.set({{"sound", i == 1 ? "on" : "off"}});
               });
  const std::string hands[] = {app.say("phone.hand.left"), app.say("phone.hand.right")};
  draw_choices(app, "phone.hand", app.say("phone.hand"), hands, app.settings.left_handed ? 0 : 1,
               [&](std::size_t i) {
                 app.set({{"hand", i == 0 ? "left" : "right"}});
               });
  ask_storage(app);
  ui.paragraph("phone.kept", Type::small, ui.colors().ink_soft, kept_words(app));
  ui.gap(8);
  if (!app.practice) draw_practice_entry(app, "phone.practice");
  if (ui.wide_button("phone.file", {app.say("phone.file"), "", "file"}, ButtonLook::plain))
    app.host.pick_file();
  ui.end_card();
}

}  // namespace trowelbell
