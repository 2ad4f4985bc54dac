// Which of all reports that came in count: one a visit.
#pragma once

#include <span>

#include "report.h"

namespace trowelbell {

// A visit that several phones reported: their newest reports, as indices.
struct SharedVisit {
  std::size_t counts = 0;
  std::vector<std::size_t> others;
};

struct CountedReports {
  std::vector<std::size_t> counted;  // one a visit, by the visit's id
  std::vector<SharedVisit> shared;   // by the visit's id
  std::size_t repeated = 0;          // older revisions of a phone's report, and the same one again
};

// Of one phone's reports of a visit the newest revision counts. Of several phones' the one that
// knows the visit's end; among those the one made of more events, since a phone that has heard of
// the other's taps has them all; then the higher revision, then the lower device id. The order of
// `reports` makes no difference, but for reports that are alike in all of this.
CountedReports count_reports(std::span<const ReportFacts> reports);

}  // namespace trowelbell
