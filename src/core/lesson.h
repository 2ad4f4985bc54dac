// A lesson: the timed steps of a visit, what goes into a kit, and what is handed over. Format
// "trowelbell.lesson".
#pragma once

#include "json.h"

namespace trowelbell {

// What may happen to a step when time is short: `must` stays; `should` goes only when it cannot fit
// even hurried; `may` is filler and goes before anyone is hurried.
enum class Keep { must, should, may };

inline constexpr std::int64_t kLongestStepSeconds = 2 * 60 * 60;  // in a lesson file

// Seconds; 0 <= min <= plan <= max.
struct StepSeconds {
  std::int64_t min = 0;
  std::int64_t plan = 0;
  std::int64_t max = 0;
  bool operator==(const StepSeconds&) const = default;
};

struct Step {
  std::string id;
  LocalText title;
  Keep keep = Keep::must;
  std::int64_t worth = 0;  // 0..1000; which step to keep when not all fit
  bool reading =
      false;  // the story: its time comes from the story's pages, `seconds` is then all zero
  StepSeconds seconds;    // the whole group's part
  StepSeconds per_child;  // for each child an adult serves; zero where the group works together
  std::string who;        // "lead", "reader", "helper" or "all"
  std::vector<LocalText> say;
  std::vector<LocalText> act;      // JSON "do"
  std::vector<LocalText> watch;    // what to watch for
  bool safety = false;             // a safety line: the lead confirms `watch` before going on
  std::vector<std::string> cards;  // care cards of this step
  std::string drawing;             // name of a drawing, or ""
  LocalText left_with_teacher;  // what the teacher can do later where this step did not happen; may
                                // be empty
};

// As bought: so many stock pieces in one pack.
struct Pack {
  std::int64_t size = 1;
  std::int64_t price_cents = 0;  // 0: not known
  bool operator==(const Pack&) const = default;
};

// One line of the bill of materials.
struct KitItem {
  std::string id;
  LocalText name;
  std::int64_t count = 1;  // of this item, for each `per`
  std::string per;         // "child", "table", "adult" or "visit"
  std::int64_t cut_parts =
      1;  // pieces one stock piece is cut into; 1 is uncut (a stem in thirds: 3)
  std::vector<Pack> packs = {Pack{}};  // 1..6 sizes, all with a price where there are several; JSON
                                       // "packs", or "pack" for one size without a price
  bool reusable = false;               // comes back from a visit and goes to the next; never cut
};

struct CheckItem {
  std::string id;
  LocalText text;
};

struct Lesson {
  std::string id;
  LocalText title;
  std::string story;                 // story id
  std::vector<std::string> species;  // species ids, 1..4
  std::int64_t comfort_percent =
      80;  // filler may stay only while every kept step gets this share of its plan
  std::int64_t reserve_seconds = 60;  // kept free before the bell
  std::int64_t least_adults = 3;
  std::vector<Step> steps;  // 1..60
  std::vector<KitItem> kit;
  std::vector<CheckItem> ready;     // before the visit, on Brief
  std::vector<CheckItem> handover;  // on Hand-over
};

// Adds to `problems` what is wrong; the lesson counts only if nothing was added.
Lesson read_lesson(const Json& document, Problems& problems);
// Index of the step, or steps.size().
std::size_t step_index(const Lesson& lesson, std::string_view id);

}  // namespace trowelbell
