// A rehearsed visit as text for people and as JSON.
#pragma once

#include "cli/visit_files.h"
#include "core/staffing.h"

namespace trowelbell {

// One way the visit may go, step by step.
struct RehearsedCase {
  std::string_view name, title;
  std::int64_t adults = 0, minutes_late = 0;
  std::vector<StepSeconds> times;
  Pace pace;
  Rehearsal rehearsal;
};

struct RehearsedVisit {
  const VisitFiles& files;
  StaffingQuestion question;
  std::int64_t adults = 0;  // the team as planned
  std::vector<StaffingRow> rows;
  std::vector<RehearsedCase> cases;
};

void write_rehearsal_words(std::ostream& out, const RehearsedVisit& visit);
void write_rehearsal_json(std::ostream& out, const RehearsedVisit& visit);

}  // namespace trowelbell
