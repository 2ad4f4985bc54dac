// What the screens show: a pure fold of the journal over the brief and the lesson.
#pragma once

#include <map>
#include <set>

#include "brief.h"
#include "event.h"
#include "lesson.h"

namespace trowelbell {

enum class Presence { unknown, present, late, absent, left_early };
inline constexpr std::string_view kPresenceNames[] = {"unknown", "present", "late", "absent",
                                                      "left_early"};

enum class Phase { before, running, held, finished };

enum class Choice { automatic, keep, drop };

struct HeadCount {
  std::int64_t places = 0, present = 0, late = 0, absent = 0, left_early = 0, unknown = 0;
  // Children who were in the room at some time: present, late and left early.
  std::int64_t came() const { return present + late + left_early; }
};

// Kits brought end in one of four piles; whatever is left over is unaccounted (negative: more than
// were brought).
struct KitPiles {
  std::int64_t brought = 0, given = 0, spoiled = 0, with_teacher = 0, spare = 0;
  std::int64_t unaccounted() const { return brought - given - spoiled - with_teacher - spare; }
};

inline constexpr std::int64_t kMostChildren = 60;
inline constexpr std::int64_t kMostAdults = 20;
inline constexpr std::int64_t kMostKits = 999;     // in one pile
inline constexpr std::int64_t kMostLacking = 999;  // pieces of one kit item
inline constexpr std::int64_t kMostMishaps = 999;
inline constexpr std::size_t kMostMishapKinds = 100;

struct StepTime {
  bool entered = false;
  // Of all stays in the step, holds left out; the stay under way is not in it: see step_ms().
  std::int64_t ms = 0;
};

struct HoldTime {
  std::string reason;
  std::int64_t since = 0;
  std::int64_t ms = 0;  // 0 while it lasts (the last one, in Phase::held)
};

struct VisitState {
  Phase phase = Phase::before;
  std::int64_t started_at = 0;   // 0: not yet
  std::int64_t finished_at = 0;  // 0: not yet, or reopened
  std::int64_t bell_at = 0;
  std::size_t step = 0;  // index of the current step; the last one stays current after the finish
  std::int64_t counting_since = 0;  // the current step's time runs from here (0: it stands still)
  std::vector<StepTime> steps;      // as the lesson's
  std::vector<Choice> choices;      // as the lesson's
  std::int64_t page = 0;
  // The page's time runs from here (0: it stands still: held, or not in the reading step).
  std::int64_t page_since = 0;
  // As StepTime::ms, for each page up to the last one read; see page_spent_ms().
  std::vector<std::int64_t> page_ms;
  std::vector<HoldTime> holds;
  std::vector<Presence> places;  // place n at [n - 1]
  std::int64_t adults = 0;
  std::int64_t readers = 1;  // 2: they take turns, page by page
  KitPiles kits;
  std::map<std::string, std::int64_t> lacking;  // pieces short at the packing table, by kit item
  std::set<std::string> ticks;                  // "list/item"
  std::map<std::string, std::int64_t> mishaps;  // by card id
  std::string taken_by;                         // "" until handed over
  std::string sheet_language;
  std::string note;

  HeadCount head_count() const;
  bool ticked(std::string_view list, std::string_view item) const;
  // Time spent in a step or on a page by `now` (ms), holds left out; 0 where there is none such.
  std::int64_t step_ms(std::size_t index, std::int64_t now) const;
  std::int64_t page_spent_ms(std::size_t index, std::int64_t now) const;
};

// `events` in their one order. Total: an event that read_event would refuse, of an unknown kind,
// about something the lesson does not have or a place beyond the count, changes nothing.
// What an event does:
// - start: once. Enters the first step the lead has not dropped.
// - step: before the start nothing; to the current step nothing. While held it resumes (the lead
//   went on); after the finish it reopens the visit, even in the last step. The time between a
//   finish and a reopening is no step's.
// - hold, resume, finish: where they do not apply (held already, not held, not under way) nothing.
// - page: from the start on; time runs on the page shown while the reading step's time runs.
//   Entering that step again goes on with the page left.
// - children: places already known keep their word, also through a smaller count and back.
// - kit: a pile stays within 0..kMostKits, event by event in the one order.
// - mishap: at most kMostMishaps of a kind, kMostMishapKinds kinds.
VisitState fold(const Brief& brief, const Lesson& lesson, std::span<const Event> events);
// Every field, for the replay tests: same state, same bytes.
Json state_json(const VisitState& state);

}  // namespace trowelbell
