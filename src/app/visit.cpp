#include "app/visit.h"

#include <algorithm>

namespace trowelbell {

Visit::Visit(Brief brief, std::string device, Write write)
    : brief_(std::move(brief)), journal_(std::move(device)), write_(std::move(write)) {}

std::size_t Visit::load(const std::vector<std::string>& records, bool brief_is_new) {
  std::size_t unread = 0;
  std::optional<Json> stored_brief;
  for (const std::string& record : records) {
    Problems problems;
    const auto document = parse_json(record, kBriefLimits, problems);
    if (!document || !document->is_object()) {
      ++unread;
    } else if (document->contains("brief")) {
      stored_brief = (*document)["brief"];
    } else if (document->contains("event")) {
      const auto event = read_event((*document)["event"], problems);
      if (event && journal_.events().size() < kMostEvents) journal_.merge(*event);
      if (!event) ++unread;
    }
  }
  if (!brief_is_new) {
    Problems problems;
    if (!stored_brief) return unread;
    Brief stored = read_brief(*stored_brief, problems);
    if (!problems.empty()) return unread + 1;
    brief_ = std::move(stored);
  }
  const Json mine = brief_json(brief_);
  if (!stored_brief || *stored_brief != mine) {
    write_(stream(), dump_json({{"brief", mine}}), [](bool) {});
  }
  loaded_ = true;
  refold();
  return unread;
}

std::int64_t Visit::record(std::int64_t now, std::string_view kind, Json data) {
  const Event event = journal_.append(now, kind, std::move(data));
  pending_.insert(event.seq);
  const std::int64_t seq = event.seq;
  write_(stream(), dump_json({{"event", event_json(event)}}),
         [held = weak_from_this(), seq](bool ok) {
           const auto visit = held.lock();
           if (!visit) return;
           // Without a store the visit goes on in memory; the screen says so.
           if (!ok) visit->store_failed_ = true;
           visit->pending_.erase(seq);
           visit->refold();
         });
  return seq;
}

bool Visit::join(std::span<const Event> events, const std::function<void(std::size_t)>& done) {
  std::vector<const Event*> fresh;
  for (const Event& event : events) {
    const Event* known = journal_.find(event.device, event.seq);
    if (known == nullptr || event < *known) fresh.push_back(&event);
  }
  if (fresh.empty() || journal_.events().size() + fresh.size() > kMostEvents) return false;
  joining_ += fresh.size();
  for (const Event* event : fresh) {
    journal_.merge(*event);
    write_(stream(), dump_json({{"event", event_json(*event)}}),
           [held = weak_from_this(), done, count = fresh.size()](bool ok) {
             const auto visit = held.lock();
             if (!visit) return;
             if (!ok) visit->store_failed_ = true;
             if (--visit->joining_ > 0) return;
             visit->refold();
             done(count);
           });
  }
  return true;
}

void Visit::undo(std::int64_t now) {
  const Event* last = journal_.undoable();
  if (last == nullptr) return;
  record(now, "undo", {{"device", last->device}, {"seq", last->seq}});
}

std::span<const Event> Visit::shown() const {
  const auto events = journal_.events();
  const auto first_pending = std::find_if(events.begin(), events.end(), [this](const Event& event) {
    return event.device == journal_.device() && pending_.contains(event.seq);
  });
  return events.first(static_cast<std::size_t>(first_pending - events.begin()));
}

void Visit::set_lesson(const Lesson* lesson, const Story* story, std::string_view language) {
  if (lesson == lesson_ && story == story_ && language == language_) return;
  lesson_ = lesson;
  story_ = story;
  language_ = language;
  refold();
}

void Visit::refold() {
  if (lesson_ == nullptr || story_ == nullptr || joining_ > 0) return;
  state_ = fold(brief_, *lesson_, shown());
  const HeadCount count = state_.head_count();
  // Until the head count is taken, plan for everyone.
  const std::int64_t children = count.places - count.absent - count.left_early;
  times_ =
      step_times(*lesson_, *story_, language_, children, std::max<std::int64_t>(1, state_.adults));
}

VisitPace Visit::pace(std::int64_t now) const {
  return pace_visit(*lesson_, times_, state_, brief_.start_ms(), now);
}

}  // namespace trowelbell
