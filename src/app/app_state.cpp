#include "app/app_state.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include "core/report.h"

namespace trowelbell {
namespace {

// A second tap this soon on the button that goes on is a slip of a hurried thumb.
constexpr std::int64_t kSlipMs = 400;

// A language with no texts: its keys show as they are until the real one is here.
const Language kNoLanguage;

}  // namespace

AppState::AppState(Host& host_of_page)
    : host(host_of_page), library(host_of_page), sender(host_of_page, writer()) {}

const Language& AppState::words() const {
  std::string tag = settings.language;
  if (tag.empty()) tag = host.preferred_language().starts_with("es") ? "es" : "en";
  const Language* language = library.language(tag);
  return language != nullptr ? *language : kNoLanguage;
}

bool AppState::dark() const {
  return settings.theme == Theme::dark || (settings.theme == Theme::phone && host.prefers_dark());
}

Write AppState::writer() {
  return
      [this](const std::string& stream, const std::string& record, std::function<void(bool)> then) {
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

void AppState::send_report() {
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

std::string AppState::journal_file() const {
  Json events = Json::array();
  for (const Event& event : visit->journal().events()) events.push_back(event_json(event));
  return dump_json({{"format", "trowelbell.journal"},
                    {"version", 1},
                    {"visit", visit->brief().visit},
                    {"events", std::move(events)}});
}

std::string clock_text(std::int64_t seconds) {
  char text[32];
  const std::int64_t size = std::llabs(seconds);
  std::snprintf(text, sizeof text, "%s%lld:%02lld", seconds < 0 ? "-" : "",
                static_cast<long long>(size / 60), static_cast<long long>(size % 60));
  return text;
}

}  // namespace trowelbell
