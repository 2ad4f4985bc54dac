// Everything the app holds between two frames. Screens read it and record taps through it.
#pragma once

#include "app/app.h"
#include "app/library.h"
#include "app/names.h"
#include "app/practice.h"
#include "app/report_codes.h"
#include "app/sender.h"
#include "app/settings.h"
#include "app/visit.h"
#include "app/widgets/ui.h"
#include "core/staffing.h"

namespace trowelbell {

enum class Screen { brief, lesson, room, care, handover, report };

// A part of a screen that lies over it; the back gesture leaves it.
enum class Panel {
  none,
  plan,
  hold,
  big,
  card,
  sheet,
  outlook,
  packing,
  uneven,
  names,
  codes,
  elsewhere
};

// One line at the top of the screen that stays until it is closed: what went wrong and what to do.
struct Notice {
  std::string key;     // of its text
  std::string detail;  // technical, may be empty
};

struct AppState {
  explicit AppState(Host& host_of_page);

  Host& host;
  Ui ui;
  Library library;
  Settings settings;
  Sender sender;
  Names names;
  std::shared_ptr<Visit> visit;
  std::optional<Practice> practice;
  // Asked for by a tap, done once the frame is drawn: what would pull the visit out from under the
  // screen that is drawing it, or needs all that was typed.
  std::function<void()> after_frame;

  Screen screen = Screen::brief;
  Panel panel = Panel::none;
  std::string card;                  // open on Care
  std::string mark = "absent";       // what a tapped place becomes on Room
  std::optional<Staffing> staffing;  // being rehearsed for the outlook
  std::string staffing_for;          // what it was asked for
  std::size_t lateness = 0;          // chosen there: index of its minutes
  std::string taker;                 // chosen on Hand-over while the kits do not add up
  std::string note;                  // being typed, not yet recorded
  bool note_open = false;
  ReportCodes codes;  // on screen, for the coordinator's camera
  std::vector<Notice> notices;

  bool elsewhere = false;             // another page of this phone writes; this one only shows
  bool names_allowed = false;         // said so on this opening
  std::optional<StorageUse> storage;  // as the phone told last
  std::int64_t storage_asked = 0;     // when, ms since 1970 UTC
  bool settings_loaded = false;
  bool brief_is_new = false;       // the open visit's brief came by a link or a file just now
  std::optional<Screen> shortcut;  // of the home screen, to show once the visit is here
  std::string fragment;            // of the link to open once the settings are here
  std::string sheet_shown;         // language of the sheet on screen
  std::map<std::int64_t, std::function<void(bool)>> writes;  // waiting for the store, by token
  std::int64_t next_token = 1;
  SteadyClock clock;
  std::int64_t now = 0;         // of this frame, ms since 1970 UTC; a practice has its own
  std::int64_t real_now = 0;    // the same without practice
  std::int64_t redraw_in = 0;   // s of that clock until a time on screen reads differently
  std::size_t walked_from = 0;  // the sprout's walk on the bed: from this step ...
  std::size_t walked_to = 0;
  std::int64_t walk_began = 0;  // ... begun at this moment of the frame clock
  std::size_t spoken_step = static_cast<std::size_t>(-1);  // what was announced last
  std::int64_t spoken_minutes = -1;
  std::pair<std::int64_t, Delivery> spoken_report{0, Delivery::sending};  // revision, and its fate
  std::vector<Node> shown_nodes;
  std::string shown_title;
  bool awake = false;

  // What the phone itself prefers, asked when it has changed: every question leaves C++.
  struct Phone {
    std::string language = "en";
    bool dark = false, still = false;
  } phone;
  void ask_phone();

  // Tag of the language on screen.
  const std::string& language() const {
    return settings.language.empty() ? phone.language : settings.language;
  }
  // Words in that language.
  const Language& words() const;
  std::string say(std::string_view key, std::initializer_list<Arg> args = {}) const {
    return words().say(key, args);
  }
  const std::string& in(const LocalText& text) const { return text.in(words().tag()); }
  bool dark() const;

  std::int64_t read_clock() {
    real_now = clock.now(host.wall_ms(), host.monotonic_ms());
    return now = practice ? practice->now(host.monotonic_ms()) : real_now;
  }

  // A time on screen will read differently in that many seconds of the visit's clock.
  void redraw_within(std::int64_t seconds) { redraw_in = std::min(redraw_in, seconds); }

  // Taps. Where another page writes, they ask whether to go on here instead.
  void record(std::string_view kind, Json data = Json::object()) {
    if (may_write()) visit->record(read_clock(), kind, std::move(data));
  }
  void undo() {
    if (may_write()) visit->undo(read_clock());
  }
  bool may_write();
  void go(Screen to);
  void open_panel(Panel to);
  void close_panel();
  void set(const Json& setting);
  void notify(std::string_view key, std::string_view detail = "");
  // A visit that could not be read.
  void notify_unread(std::string_view key, const Problems& problems);

  // Opening a visit.
  void open_fragment(std::string_view fragment);
  void open_brief(Brief brief, bool is_new);
  // Puts it on screen, from its Brief.
  void show_visit(std::shared_ptr<Visit> shown);
  bool ready() const;
  // What the store has; once more after another page has written.
  void take_settings(const std::vector<std::string>& records);
  void take_visit(const std::vector<std::string>& records);
  // The open visit, not a practice of it.
  std::shared_ptr<Visit>& kept_visit() { return practice ? practice->before : visit; }
  // A report of everything recorded so far, as a new revision: to the outbox, or as a file.
  void send_report();
  const OutboxEntry* newest_report() const;  // of this visit; nullptr before the first
  void save_report();
  void save_report(const OutboxEntry& entry);  // its exact bytes
  // Its bytes, for every way but sending: those of the newest revision where nothing came after it.
  std::string report_in_hand();
  void keep_note();  // what is typed in the note's field, where that is not recorded yet
  std::string journal_file() const;
  // A journal file of another phone on this visit: its events become part of it.
  void join_journal(const Json& document);

  // First names of places of the open visit.
  bool names_too_late() const;  // a report was received: they would go at once
  void set_name(int place, std::string_view name);
  void wipe_names(std::string_view of_visit);
  void wipe_due_names();
  void keep_names() { host.keep_names(names.text()); }

  Write writer();

  // Whether a tap that leads on counts: not when a finger comes down right after another.
  bool forward();

 private:
  std::optional<std::int64_t> forward_at_;  // monotonic, of the last tap that led on
  struct MadeReport {
    std::int64_t revision;
    std::string body;
  };
  MadeReport make_revision();
  MadeReport made_report(std::int64_t revision) const;
};

}  // namespace trowelbell
