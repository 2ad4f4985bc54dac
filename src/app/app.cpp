#include "app/app.h"

#include <algorithm>
#include <utility>

#include "app/app_state.h"
#include "app/screens/screens.h"
#include "core/journal_file.h"

namespace trowelbell {
namespace {

constexpr std::int64_t kSecond = 1000;
constexpr std::int64_t kMinute = 60 * kSecond;

// A frame when the minute turns, and when a time that a screen has shown reads differently.
std::int64_t until_next_tick(const AppState& app) {
  std::int64_t wait = std::min(kMinute - app.now % kMinute, app.redraw_in * kSecond);
  if (app.practice) wait /= Practice::kSpeed;
  if (const std::int64_t due = app.sender.due(); due >= 0)
    wait = std::min(wait, std::max<std::int64_t>(due - app.real_now, 0));
  if (const std::int64_t due = app.codes.due(); due >= 0 && app.panel == Panel::codes)
    wait = std::min(wait, due - app.ui.now());
  return std::max<std::int64_t>(wait, 20);
}

void draw_screen(AppState& app) {
  if (!app.ready()) return draw_opening(app);
  switch (app.panel) {
    case Panel::plan:
      return draw_plan(app);
    case Panel::big:
      if (app.visit->state().phase == Phase::running) return draw_big(app);
      app.close_panel();  // nothing to lead through
      break;
    case Panel::hold:
      return draw_hold(app);
    case Panel::outlook:
      return draw_outlook(app);
    case Panel::packing:
      return draw_packing(app);
    case Panel::uneven:
      return draw_uneven(app);
    case Panel::sheet:
      return draw_sheet(app);
    case Panel::names:
      return draw_names(app);
    case Panel::elsewhere:
      return draw_elsewhere(app);
    case Panel::codes:
      return draw_codes(app);
    case Panel::none:
    case Panel::card:
      break;
  }
  switch (app.screen) {
    case Screen::brief:
      return draw_brief(app);
    case Screen::lesson:
      return draw_lesson(app);
    case Screen::room:
      return draw_room(app);
    case Screen::care:
      return draw_care(app);
    case Screen::handover:
      return draw_handover(app);
    case Screen::report:
      return draw_report(app);
  }
}

void buzz(AppState& app, Buzz kind) {
  if (app.settings.sound) app.host.buzz(kind);
}

// What became of the report, once it is known.
void announce_delivery(AppState& app) {
  const OutboxEntry* report = app.newest_report();
  if (report == nullptr) return;
  const Delivery delivery = report->delivery;
  const bool tried =
      delivery != Delivery::sending && (delivery != Delivery::waiting || report->attempts > 0);
  const auto spoken = std::pair(report->revision, tried ? delivery : Delivery::sending);
  const auto before = app.spoken_report;
  if (before.first != spoken.first) {
    app.spoken_report = spoken;  // just made, or of an earlier opening
  } else if (tried && before != spoken) {
    app.spoken_report = spoken;
    app.host.announce(delivery_title(app, *report) + ". " + delivery_detail(app, *report),
                      delivery == Delivery::refused);
  }
}

// What a listener should hear without asking: what became of the report, a new step, and five, two
// and one minute to the bell.
void announce(AppState& app) {
  if (!app.ready()) return;
  announce_delivery(app);
  const VisitState& state = app.visit->state();
  if (state.phase != Phase::running) return;
  if (app.spoken_step != state.step) {
    const bool first = app.spoken_step == static_cast<std::size_t>(-1);
    app.spoken_step = state.step;
    const Step& step = app.visit->lesson()->steps[state.step];
    app.host.announce(app.say("speak.step", {{"title", app.in(step.title)}}), false);
    if (!first) buzz(app, Buzz::step_end);
  }
  const std::int64_t minutes =
      (state.bell_at - app.now) / kMinute + 1;  // the minute that is running
  if (state.bell_at <= app.now) return;
  for (const std::int64_t mark : {5, 2, 1}) {
    if (minutes == mark && app.spoken_minutes != mark) {
      app.spoken_minutes = mark;
      app.host.announce(app.words().count("speak.bell", mark), true);
      if (mark != 1) buzz(app, mark == 5 ? Buzz::five_minutes : Buzz::two_minutes);
    }
  }
}

// Languages and lessons come late and by themselves; the visit takes them when they are here.
void join_lesson(AppState& app) {
  if (!app.visit) return;
  app.library.want_lesson(app.visit->brief().lesson);
  const Lesson* lesson = app.library.lesson(app.visit->brief().lesson);
  if (lesson != nullptr)
    app.visit->set_lesson(lesson, &app.library.story(*lesson), app.words().tag());
}

}  // namespace

App::App(Host& host) : state_(std::make_unique<AppState>(host)) {}
App::~App() = default;

void App::open(std::string_view fragment) {
  state_->ask_phone();
  state_->fragment = fragment;
  state_->library.open();
  state_->host.open_stream(Settings::kStream);
  state_->host.open_stream(Sender::kStream);
  state_->host.open_names();
}

void App::open_link(std::string_view fragment) {
  state_->open_fragment(fragment);
}

std::int64_t App::frame(const Viewport& viewport, const Fonts& fonts) {
  AppState& app = *state_;
  app.read_clock();
  join_lesson(app);
  app.sender.step(app.real_now);
  app.wipe_due_names();

  app.redraw_in = kMinute / kSecond;
  app.ui.begin({.viewport = viewport,
                .fonts = fonts,
                .dark = app.dark(),
                .scale = static_cast<float>(app.settings.text_percent) / 100.0f,
                .still = app.phone.still,
                .left_handed = app.settings.left_handed,
                .now = app.host.monotonic_ms()});
  draw_screen(app);
  app.ui.end();
  if (const auto change = std::exchange(app.after_frame, nullptr)) {
    change();
    app.ui.animate();  // and draw what it made
  }

  if (app.ui.nodes() != app.shown_nodes) {
    app.shown_nodes = app.ui.nodes();
    app.host.show_nodes(app.shown_nodes, app.words().tag());
  }
  const std::string title =
      app.visit ? app.visit->brief().room + ", " + app.visit->brief().school : "Trowelbell";
  const std::string page = title + (app.dark() ? "\n1" : "\n0") + app.words().tag();
  if (page != app.shown_title) {
    app.shown_title = page;
    app.host.set_page(title, app.words().tag(), app.dark());
  }
  announce(app);
  if (!app.words().tag().empty()) app.library.want_all_languages();  // a switch must not wait
  // A camera needs the screen on as well.
  const bool live =
      app.ready() && (app.visit->state().phase == Phase::running || app.panel == Panel::codes);
  if (live != app.awake) app.host.keep_awake(app.awake = live);
  return app.ui.animating() ? 0 : until_next_tick(app);
}

void App::activate(std::string_view node) {
  state_->ui.activate(node);
}
void App::focus(std::string_view node) {
  state_->ui.focus(node);
}
void App::type(std::string_view node, std::string_view text) {
  state_->ui.type(node, text);
}

void App::back() {
  AppState& app = *state_;
  if (app.panel != Panel::none) {
    app.close_panel();
  } else if (app.ready()) {
    app.screen = app.visit->state().phase == Phase::before ? Screen::brief : Screen::lesson;
  }
}

void App::shown(bool visible) {
  if (visible) state_->sender.hurry();
}

void App::phone_changed() {
  state_->ask_phone();
}

void App::online() {
  state_->sender.hurry();
}

std::span<const Node> App::nodes() const {
  return state_->ui.nodes();
}
const std::vector<std::string>& App::spilled() const {
  return state_->ui.spilled();
}

void App::stream_opened(std::string_view stream, std::vector<std::string> records,
                        StreamHealth health) {
  AppState& app = *state_;
  if (health.lost > 0) app.notify("notice.records_lost", std::to_string(health.lost));
  if (!health.file && !health.copy && !app.elsewhere) app.notify("notice.no_store");
  if (stream == Settings::kStream) {
    app.take_settings(records);
  } else if (stream == Sender::kStream) {
    app.sender.load(records);
    app.sender.hurry();
  } else if (const auto& visit = app.kept_visit(); visit && stream == visit->stream()) {
    app.take_visit(records);
  }
}

void App::writes_here(bool here) {
  AppState& app = *state_;
  app.elsewhere = !here;
  app.sender.pause(app.elsewhere);
  if (here && app.panel == Panel::elsewhere) app.close_panel();
}

void App::appended(std::int64_t token, bool ok) {
  AppState& app = *state_;
  const auto found = app.writes.find(token);
  if (found == app.writes.end()) return;
  const auto then = std::move(found->second);
  app.writes.erase(found);
  if (!ok) app.notify("notice.not_stored");
  then(ok);
}

void App::names_opened(std::string text) {
  AppState& app = *state_;
  app.names.load(text, app.read_clock());
  app.keep_names();  // what was too old is gone
}

void App::storage_told(StorageUse use) {
  state_->storage = use;
}

void App::fetched(std::string_view path, bool ok, std::string text) {
  state_->library.fetched(path, ok, text);
}

void App::sent(const SendResult& result) {
  AppState& app = *state_;
  app.read_clock();
  app.sender.sent(result, app.real_now);
}

void App::file_opened(std::string text) {
  AppState& app = *state_;
  Problems problems;
  if (const auto document = parse_json(text, kJournalLimits, problems);
      document && is_journal_file(*document))
    return app.join_journal(*document);
  problems.clear();
  auto brief = brief_from_text(text, problems);
  if (brief) {
    app.open_brief(std::move(*brief), true);
  } else {
    app.notify_unread("notice.bad_file", problems);
  }
}

}  // namespace trowelbell
