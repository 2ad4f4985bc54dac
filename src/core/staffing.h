// How many adults a visit needs, and what it means if fewer come or the team is late.
#pragma once

#include "lesson_time.h"
#include "pacing.h"
#include "rehearsal.h"

namespace trowelbell {

struct StaffingQuestion {
  std::int64_t children = 0;
  std::int64_t seconds = 0;  // from the planned start to the bell
  std::vector<std::int64_t> minutes_late{0, 5, 10, 15, 20};
  std::int64_t most_adults = 8;
  std::int64_t visits = 2000;  // rehearsed for each answer; 0: only the plan
  std::uint64_t seed = 1;
};

struct StaffingRow {
  std::int64_t adults = 0;
  Pace pace;                    // beginning on time
  std::vector<Rehearsal> late;  // as the question's minutes_late

  // Beginning on time, no step is left out.
  bool fits() const;
};

// The whole lesson paced to a bell that is `seconds` off, with times from step_times().
Pace lesson_pace(const Lesson& lesson, std::span<const StepSeconds> times, std::int64_t seconds);

// The late visit and the short-handed one that are looked at beside the planned one: so many
// minutes late; two adults fewer, but never none.
inline constexpr std::int64_t kLateMinutes = 10;
std::int64_t short_handed(std::int64_t adults);

// The answers one by one, so that a screen can go on drawing between them.
class Staffing {
 public:
  // The lesson must outlive this.
  Staffing(const Lesson& lesson, const Story& story, std::string_view language,
           StaffingQuestion question);

  const StaffingQuestion& question() const { return question_; }
  // A row each for 1..most_adults; `late` is as long as what has been rehearsed.
  std::span<const StaffingRow> rows() const { return rows_; }
  bool done() const { return row_ == rows_.size(); }
  // One more answer: the next lateness, or with one adult more; nothing once done.
  void rehearse_next();

 private:
  const Lesson* lesson_;
  StaffingQuestion question_;
  std::vector<StaffingRow> rows_;
  std::vector<std::vector<StepSeconds>> times_;  // as rows_
  std::optional<Rehearser> rehearser_;           // of rows_[row_]
  std::size_t row_ = 0;
};

// All of them at once.
std::vector<StaffingRow> staffing(const Lesson& lesson, const Story& story,
                                  std::string_view language, const StaffingQuestion& question);

// The fewest adults with whom the lesson fits, but never fewer than it asks for; nothing where it
// fits with none of the rows. Where the school asks for more, the school's number counts.
std::optional<std::int64_t> least_adults(const Lesson& lesson, std::span<const StaffingRow> rows);

}  // namespace trowelbell
