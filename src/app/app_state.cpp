#include "app/app_state.h"

#include <algorithm>
#include <utility>

#include "core/journal_file.h"
#include "core/report.h"

namespace trowelbell {
namespace {

// A second tap this soon on the button that goes on is a slip of a hurried thumb.
constexpr std::int64_t kSlipMs = 400;

// What the app's icon on a home screen offers beside opening it (wasm/app.webmanifest).
std::optional<Screen> shortcut_of(std::string_view link) {
  if (link == "#care") return Screen::care;
  if (link == "#report") return Screen::report;
  return std::nullopt;
}

// A language with no texts: its keys show as they are until the real one is here.
const Language kNoLanguage;

}  // namespace

AppState::AppState(Host& host_of_page)
    : host(host_of_page), library(host_of_page), sender(host_of_page, writer()) {}

void AppState::ask_phone() {
  phone = {.language = host.preferred_language().starts_with("es") ? "es" : "en",
           .dark = host.prefers_dark(),
           .still = host.prefers_still()};
  library.want_language(language());
}

const Language& AppState::words() const {
  const Language* known = library.language(language());
  return known != nullptr ? *known : kNoLanguage;
}

bool AppState::dark() const {
  return settings.theme == Theme::dark || (settings.theme == Theme::phone && phone.dark);
}

Write AppState::writer() {
  return
      [this](const std::string& stream, const std::string& record, std::function<void(bool)> then) {
        if (elsewhere) return then(false);
        const std::int64_t token = next_token++;
        writes[token] = std::move(then);
        host.append(stream, record, token);
      };
}

void AppState::go(Screen to) {
  if (screen == to && panel == Panel::none) return;
  screen = to;
  panel = Panel::none;
  host.push_history();
}

void AppState::open_panel(Panel to) {
  panel = to;
  host.push_history();
}

void AppState::close_panel() {
  panel = Panel::none;
}

void AppState::set(const Json& setting) {
  settings.apply(setting);
  library.want_language(language());
  writer()(std::string(Settings::kStream), dump_json(setting), [](bool) {});
}

void AppState::notify(std::string_view key, std::string_view detail) {
  for (const Notice& notice : notices) {
    if (notice.key == key) return;
  }
  notices.push_back({std::string(key), std::string(detail)});
}

// What exactly is wrong with it is for the command line to say, in one language.
void AppState::notify_unread(std::string_view key, const Problems& problems) {
  const bool newer = problems.size() == 1 && problems[0].path == "/version" &&
                     problems[0].what.find("newer") != std::string::npos;
  notify(newer ? "notice.newer" : key);
}

void AppState::open_fragment(std::string_view link) {
  fragment = link;
  if (!settings_loaded || fragment.empty() || fragment == "#") return;
  shortcut = shortcut_of(fragment);
  if (shortcut) {
    fragment.clear();
    if (ready()) go(*std::exchange(shortcut, std::nullopt));
    return;
  }
  Problems problems;
  auto brief = brief_from_fragment(fragment, problems);
  fragment.clear();
  if (brief) {
    open_brief(std::move(*brief), true);
  } else {
    notify_unread("notice.bad_link", problems);
  }
}

void AppState::show_visit(std::shared_ptr<Visit> shown) {
  visit = std::move(shown);
  screen = Screen::brief;
  panel = Panel::none;
  note_open = false;
  names_allowed = false;
  taker.clear();
  staffing_for.clear();
  walked_from = walked_to = 0;
  spoken_step = static_cast<std::size_t>(-1);
  spoken_minutes = -1;
}

void AppState::open_brief(Brief brief, bool is_new) {
  if (practice) end_practice(*this);
  if (visit && visit->brief().visit == brief.visit &&
      brief_json(visit->brief()) == brief_json(brief))
    return;
  const std::string id = brief.visit;
  show_visit(std::make_shared<Visit>(std::move(brief), settings.device, writer()));
  brief_is_new = is_new;
  if (settings.visit != id) set({{"open", id}});
  host.open_stream(visit->stream());
}

void AppState::take_settings(const std::vector<std::string>& records) {
  for (const std::string& record : records) {
    Problems problems;
    if (const auto document = parse_json(record, {4096, 4}, problems)) settings.apply(*document);
  }
  library.want_language(language());
  const auto& open = kept_visit();
  if (settings_loaded) {
    if (open && !elsewhere && settings.visit != open->brief().visit)
      set({{"open", open->brief().visit}});
    return;
  }
  if (settings.device.empty()) set({{"device", host.random_hex(16)}});
  settings_loaded = true;
  open_fragment(std::string(fragment));
  if (!visit && !settings.visit.empty()) {
    Brief last;
    last.visit = settings.visit;
    open_brief(std::move(last), false);
  }
}

void AppState::take_visit(const std::vector<std::string>& records) {
  auto& open = kept_visit();
  const bool again = open->loaded();
  // Made anew, so that nothing stays that another page has not kept.
  if (again) open = std::make_shared<Visit>(open->brief(), settings.device, writer());
  const std::size_t unread = open->load(records, brief_is_new);
  if (unread > 0) notify("notice.records_unread", std::to_string(unread));
  if (!open->loaded()) return open.reset();
  library.want_lesson(open->brief().lesson);
  const auto events = open->journal().events();
  clock.not_before(open->journal().last_at());
  const bool begun = std::any_of(events.begin(), events.end(),
                                 [](const Event& event) { return event.kind == "start"; });
  if (begun && !again) screen = Screen::lesson;
  if (shortcut) screen = *std::exchange(shortcut, std::nullopt);
}

bool AppState::ready() const {
  return visit && visit->loaded() && visit->lesson() != nullptr && library.care() != nullptr &&
         !words().tag().empty();
}

AppState::MadeReport AppState::make_revision() {
  return made_report(visit->record(read_clock(), "report"));
}

AppState::MadeReport AppState::made_report(std::int64_t revision) const {
  // Made of everything known at this moment, the tap itself included. The plan it compares with is
  // that of the brief's class and team, in English pages, so that the command line makes the same
  // bytes from brief and journal.
  const Brief& brief = visit->brief();
  const auto plan = step_times(*visit->lesson(), *visit->story(), "en", brief.children,
                               std::max<std::int64_t>(1, brief.adults));
  const Json report = make_report(brief, *visit->lesson(), plan, visit->journal().events(),
                                  settings.device, revision);
  return {revision, dump_json(report)};
}

bool AppState::forward() {
  const std::int64_t at = host.monotonic_ms();
  if (ui.by_finger() && forward_at_ && at - *forward_at_ < kSlipMs) return false;
  forward_at_ = at;
  return true;
}

bool AppState::may_write() {
  if (elsewhere && !practice) open_panel(Panel::elsewhere);
  return !elsewhere || practice;
}

void AppState::send_report() {
  if (!may_write()) return;
  const MadeReport made = make_revision();
  sender.enqueue(visit->brief().visit, visit->brief().key, settings.device, made.revision,
                 made.body, now);
}

const OutboxEntry* AppState::newest_report() const {
  if (practice) return nullptr;
  const OutboxEntry* newest = nullptr;
  for (const OutboxEntry* entry : sender.outbox().entries()) {
    if (entry->visit != visit->brief().visit) continue;
    if (newest == nullptr || entry->revision > newest->revision) newest = entry;
  }
  return newest;
}

void AppState::save_report() {
  if (!may_write()) return;
  host.save_file("report-" + visit->brief().visit + ".json", "application/json", report_in_hand());
}

std::string AppState::report_in_hand() {
  keep_note();
  const auto events = visit->journal().events();
  const bool made =
      !events.empty() && events.back().kind == "report" && events.back().device == settings.device;
  return made ? made_report(events.back().seq).body : make_revision().body;
}

void AppState::keep_note() {
  if (note_open && note != visit->state().note) record("note", {{"text", note}});
}

void AppState::save_report(const OutboxEntry& entry) {
  host.save_file("report-" + entry.visit + ".json", "application/json", entry.body);
}

bool AppState::names_too_late() const {
  const auto entries = sender.outbox().entries();
  return std::any_of(entries.begin(), entries.end(), [this](const OutboxEntry* entry) {
    return entry->visit == visit->brief().visit && entry->delivery == Delivery::received;
  });
}

void AppState::set_name(int place, std::string_view name) {
  if (!may_write()) return;
  names.set(visit->brief().visit, place, name, real_now);
  keep_names();
}

void AppState::wipe_names(std::string_view of_visit) {
  if (!may_write() || !names.wipe(of_visit)) return;
  names_allowed = false;
  keep_names();
}

void AppState::wipe_due_names() {
  if (names.empty() || elsewhere) return;
  bool went = names.wipe_old(real_now);
  for (const OutboxEntry* entry : sender.outbox().entries()) {
    if (entry->delivery == Delivery::received && names.wipe(entry->visit)) went = true;
  }
  if (went) keep_names();
}

std::string AppState::journal_file() const {
  return dump_json(journal_file_json(visit->brief().visit, visit->journal().events()));
}

void AppState::join_journal(const Json& document) {
  if (!ready() || practice) return notify("notice.journal_alone");
  if (!may_write()) return;
  Problems problems;
  const JournalFile file = read_journal_file(document, problems);
  if (problems.empty()) {
    if (file.visit != visit->brief().visit) return notify("notice.other_visit");
    check_joining(file, read_clock(), problems);
  }
  if (!problems.empty()) return notify_unread("notice.bad_journal", problems);
  const bool fresh = visit->join(
      file.events, [this](std::size_t count) { notify("notice.joined", std::to_string(count)); });
  if (!fresh) notify("notice.nothing_new");
}

}  // namespace trowelbell
