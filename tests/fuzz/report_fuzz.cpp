// A report as the collector gets it: what is accepted adds up.
#include "core/report.h"

#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  fuzz::read_document(
      text, kReportLimits, read_report, [](const Json& document, const ReportFacts& facts) {
        const HeadCount& children = facts.children;
        fuzz::must(children.came() + children.absent + children.unknown == children.places);
        fuzz::must(document["kits"]["unaccounted"] == facts.kits.unaccounted());
        fuzz::must(facts.revision >= 1 && facts.device.size() == 16);
      });
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
