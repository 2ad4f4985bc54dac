// Texts with parts of reports, as the coordinator's page gets them from anywhere; and any bytes as
// a report.
#include "core/report_parts.h"

#include "core/report.h"
#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  const GatheredParts gathered = gather_parts(text);
  fuzz::must(gathered.sets.size() <= kMostPartSets);
  for (const PartSet& set : gathered.sets) {
    fuzz::must(set.of >= 1 && set.of <= kMostParts && set.missing.size() < set.of);
    fuzz::must(set.report.size() <= kReportLimits.bytes);
    fuzz::must(set.report.empty() == (set.damaged || !set.missing.empty()));
  }
  std::string parts;
  for (const std::string& part : report_parts(text)) parts += part;
  if (parts.empty()) return;
  const GatheredParts again = gather_parts(parts);
  fuzz::must(again.sets.size() == 1 && again.sets[0].report == text && again.unread == 0);
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
