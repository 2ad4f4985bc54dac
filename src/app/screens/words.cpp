// Sentences that more than one screen says.
#include <cstdlib>

#include "app/screens/screens.h"

namespace trowelbell {

std::string n(std::int64_t value) {
  return std::to_string(value);
}

std::string uneven_words(const AppState& app, std::int64_t off) {
  return app.words().count(off > 0 ? "kits.missing" : "kits.over", std::llabs(off));
}

std::string minutes_words(const AppState& app, std::int64_t seconds) {
  // Whole minutes from two minutes up; below that the seconds matter.
  if (std::llabs(seconds) >= 120) return app.words().count("time.minutes", seconds / 60);
  return app.words().count("time.seconds", seconds);
}

std::int64_t shown_seconds(AppState& app, std::int64_t left) {
  const auto nearest = [](std::int64_t value, std::int64_t unit) {
    const std::int64_t up = value + unit / 2;
    return up - ((up % unit) + unit) % unit;
  };
  const std::int64_t shown = nearest(left, left >= 60 ? 30 : 15);
  const std::int64_t reads_so_down_to = shown - (shown > 60 ? 15 : 7);
  app.redraw_within(left - reads_so_down_to + 1);
  return shown;
}

std::string bell_words(AppState& app, const VisitPace& pace) {
  if (pace.to_bell < 0) {
    const std::int64_t past = -shown_seconds(app, pace.to_bell);
    return app.say("bell.past", {{"time", minutes_words(app, past)}});
  }
  if (pace.to_bell > 3 * 60 * 60) {
    const std::int64_t offset = app.visit->brief().utc_offset_minutes;
    return app.say("bell.at",
                   {{"time", format_clock(local_minutes(app.visit->state().bell_at, offset))}});
  }
  const bool soon = pace.to_bell < 120;
  if (!soon) app.redraw_within(pace.to_bell % 60 + 1);
  const std::int64_t shown = soon ? shown_seconds(app, pace.to_bell) : pace.to_bell;
  return app.say("bell.ahead", {{"time", minutes_words(app, shown)}});
}

bool late(const VisitPace& pace) {
  return pace.short_by > 0 || pace.to_bell < 0;
}

std::string step_left_words(AppState& app, const VisitPace& pace) {
  const std::int64_t left = shown_seconds(app, pace.step_left);
  return app.say(left < 0 ? "lesson.over" : "lesson.left",
                 {{"time", minutes_seconds(std::abs(left))}});
}

std::string why_words(const AppState& app, const PacedItem& step, std::string_view title) {
  const std::string name(title);
  switch (step.why) {
    case PaceWhy::as_planned:
      return "";
    case PaceWhy::shortened:
      return app.say("why.shortened", {{"step", name}, {"time", minutes_seconds(step.ms / 1000)}});
    case PaceWhy::left_out_hurry:
      return app.say("why.left_out_hurry", {{"step", name}});
    case PaceWhy::left_out_time:
      return app.say("why.left_out_time", {{"step", name}});
    case PaceWhy::left_out_lead:
      return app.say("why.left_out_lead", {{"step", name}});
  }
  return "";
}

std::string delivery_title(const AppState& app, const OutboxEntry& entry) {
  const std::int64_t offset = app.visit->brief().utc_offset_minutes;
  switch (entry.delivery) {
    case Delivery::waiting:
      return app.say("send.waiting");
    case Delivery::sending:
      return app.say("send.sending");
    case Delivery::received:
      return app.say("send.received",
                     {{"time", format_clock(local_minutes(entry.received_at, offset))}});
    case Delivery::refused:
      return app.say("send.refused");
  }
  return "";
}

std::string delivery_detail(const AppState& app, const OutboxEntry& entry) {
  switch (entry.delivery) {
    case Delivery::waiting:
      return app.say("send.waiting.words");
    case Delivery::sending:
      return "";
    case Delivery::received:
      return app.say("send.received.words", {{"digest", entry.digest.substr(0, 8)}});
    case Delivery::refused:
      return app.say("send.refused.words", {{"why", entry.refusal}});
  }
  return "";
}

}  // namespace trowelbell
