// Report: what will be sent, in words; then Send; and what became of it.
#include <algorithm>

#include "app/screens/screens.h"

namespace trowelbell {
namespace {

constexpr int kMostNoteBytes = 500;

void line(AppState& app, std::string_view id, const std::string& text) {
  app.ui.marked("report." + std::string(id), "dot", app.ui.colors().leaf, Type::body, text);
}

void draw_summary(AppState& app) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const Brief& brief = app.visit->brief();
  const HeadCount count = state.head_count();
  ui.begin_card();
  ui.heading("report.what", 2, app.say("report.what"));
  line(app, "where",
       app.say("report.where", {{"room", brief.room},
                                {"school", brief.school},
                                {"date", app.words().date(brief.date)}}));
  if (state.started_at > 0) {
    const auto time = [&](std::int64_t at) {
      return format_clock(local_minutes(at, brief.utc_offset_minutes));
    };
    line(app, "time",
         state.finished_at > 0 ? app.say("report.time", {{"from", time(state.started_at)},
                                                         {"to", time(state.finished_at)}})
                               : app.say("report.time_open", {{"from", time(state.started_at)}}));
  }
  line(app, "children",
       app.say("report.children", {{"came", n(count.came())},
                                   {"late", n(count.late)},
                                   {"absent", n(count.absent)},
                                   {"left", n(count.left_early)}}));
  if (count.unknown > 0) line(app, "unknown", app.words().count("report.unknown", count.unknown));
  line(app, "adults", app.words().count("report.adults", state.adults));
  const KitPiles& kits = state.kits;
  line(app, "kits",
       app.say("report.kits", {{"given", n(kits.given)},
                               {"spoiled", n(kits.spoiled)},
                               {"teacher", n(kits.with_teacher)},
                               {"spare", n(kits.spare)}}));
  if (const std::int64_t off = kits.unaccounted(); off != 0) {
    ui.marked("report.uneven", "care", ui.colors().brick, Type::strong, uneven_words(app, off));
  }
  for (const KitItem& item : app.visit->lesson()->kit) {
    const auto found = state.lacking.find(item.id);
    if (found == state.lacking.end()) continue;
    line(app, "lacking." + item.id,
         app.say("report.lacking", {{"n", n(found->second)}, {"item", app.in(item.name)}}));
  }
  std::int64_t mishaps = 0;
  for (const auto& entry : state.mishaps) mishaps += entry.second;
  line(app, "mishaps",
       mishaps == 0 ? app.say("report.no_mishaps") : app.words().count("report.mishaps", mishaps));
  for (const auto& [id, times] : state.mishaps) {
    const CareCard* card = find_card(*app.library.care(), id);
    if (card != nullptr) line(app, "mishap." + id, app.in(card->mishap) + ": " + n(times));
  }
  line(app, "taken",
       state.taken_by.empty() ? app.say("report.not_taken")
                              : app.say("report.taken." + state.taken_by));
  ui.paragraph("report.privacy", Type::small, ui.colors().ink_soft, app.say("report.privacy"));
  ui.end_card();
}

void draw_note(AppState& app) {
  Ui& ui = app.ui;
  if (!app.note_open) {
    app.note = app.visit->state().note;
    app.note_open = true;
  }
  ui.begin_card();
  ui.field("report.note", app.say("report.note"), app.say("report.note.hint"), app.note,
           kMostNoteBytes, 4);
  ui.marked("report.note.care", "care", ui.colors().brick, Type::small,
            app.say("report.note.care"));
  if (app.note != app.visit->state().note &&
      ui.wide_button("report.note.keep", {app.say("report.note.keep"), "", "check"},
                     ButtonLook::plain)) {
    app.record("note", {{"text", app.note}});
  }
  ui.end_card();
}

// That a report has come to its end is announced (app.cpp), so nothing here speaks by itself.
void draw_delivery(AppState& app, const OutboxEntry& entry) {
  Ui& ui = app.ui;
  const Palette& colors = ui.colors();
  const std::string id = "report.sent." + entry.visit + "." + n(entry.revision);
  struct Looks {
    std::string_view sign;
    Color color;
  };
  const Looks all[] = {{"clock", colors.marigold},
                       {"send", colors.marigold},
                       {"check", colors.leaf},
                       {"care", colors.brick}};
  const Looks looks = all[static_cast<std::size_t>(entry.delivery)];
  ui.marked(id, looks.sign, looks.color, Type::strong, delivery_title(app, entry));
  if (entry.delivery != Delivery::sending) {
    const bool received = entry.delivery == Delivery::received;
    ui.paragraph(id + ".words", received ? Type::small : Type::body,
                 received ? colors.ink_soft : colors.ink, delivery_detail(app, entry));
    // It can always be carried another way.
    if (!received &&
        ui.wide_button(id + ".save", {app.say("report.save_this"), "", "file"}, ButtonLook::plain))
      app.save_report(entry);
  }
}

// The others in the outbox: earlier ones of this visit, and those of other visits.
void draw_earlier(AppState& app, const OutboxEntry* newest) {
  Ui& ui = app.ui;
  auto entries = app.sender.outbox().entries();
  std::erase(entries, newest);
  if (entries.empty()) return;
  std::reverse(entries.begin(), entries.end());  // the newest first
  ui.begin_card();
  ui.heading("report.earlier", 2, app.say("report.earlier"));
  for (const OutboxEntry* entry : entries) {
    const std::string id = entry->visit + "." + n(entry->revision);
    ui.paragraph("report.of." + id, Type::small, ui.colors().ink_soft,
                 app.say("report.of", {{"visit", entry->visit}, {"n", n(entry->revision)}}));
    draw_delivery(app, *entry);
    ui.gap(8);
  }
  ui.end_card();
}

void draw_send(AppState& app, bool begun) {
  const std::string label =
      app.say(app.newest_report() == nullptr ? "report.send" : "report.send_again");
  if (!go_bar(app.ui, "report.send", {label, "", "send"}, begun)) return;
  // The note's field is drawn after this bar: what was typed in this frame belongs to the report.
  app.after_frame = [&app] {
    app.keep_note();
    app.send_report();
    app.ui.scroll_to_top("report");
  };
}

void draw_files(AppState& app) {
  Ui& ui = app.ui;
  if (ui.wide_button("report.save", {app.say("report.save"), "", "file"}, ButtonLook::plain)) {
    app.after_frame = [&app] { app.save_report(); };
  }
  draw_without_network(app);
  if (ui.wide_button("report.journal", {app.say("report.journal"), "", "file"},
                     ButtonLook::plain)) {
    app.host.save_file("journal-" + app.visit->brief().visit + ".json", "application/json",
                       app.journal_file());
  }
  if (ui.wide_button("report.join", {app.say("report.join"), app.say("report.join.words"), "file"},
                     ButtonLook::plain)) {
    app.host.pick_file();
  }
}

}  // namespace

void draw_report(AppState& app) {
  Ui& ui = app.ui;
  const VisitState& state = app.visit->state();
  const OutboxEntry* newest = app.newest_report();
  draw_tabs(app);
  // A report says what happened: there is nothing to send before the lesson began.
  const bool begun = state.started_at > 0;
  if (app.practice) {
    if (go_bar(ui, "report.practice_end", {app.say("practice.end"), "", "check"}))
      app.after_frame = [&app] { end_practice(app); };
  } else {
    draw_send(app, begun);
  }
  ui.begin_body("report");
  draw_notices(app);
  ui.heading("report.title", 1, app.say("report.title"));
  if (app.practice) {
    ui.paragraph("report.practice", Type::body, ui.colors().ink, app.say("practice.no_report"));
    ui.gap();
  } else if (newest != nullptr) {
    ui.begin_card();
    draw_delivery(app, *newest);
    ui.end_card();
  } else if (!begun) {
    ui.paragraph("report.empty", Type::body, ui.colors().ink, app.say("report.empty"));
    ui.gap();
  }
  draw_summary(app);
  draw_note(app);
  if (!app.practice) {
    draw_files(app);
    draw_earlier(app, newest);
  }
  ui.end_body();
}

}  // namespace trowelbell
