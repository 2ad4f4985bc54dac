// A county: every visit of a good county makes a good brief, unless its school still has a zone or
// a calendar file to be looked up.
#include "core/county.h"

#include "core/school_days.h"
#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  fuzz::read_document(text, kCountyLimits, read_county, [](const Json&, const County& county) {
    for (std::size_t i = 0; i < county.visits.size() && i < 20; ++i) {
      Problems problems;
      const auto brief =
          make_brief(county, county.visits[i].id, {}, {}, "0123456789abcdef", problems);
      fuzz::must(brief.has_value() == problems.empty());
      if (!brief) {
        fuzz::must(text.find("time_zone") != text.npos || text.find("calendar") != text.npos);
        continue;
      }
      is_school_day(*brief, brief->date);
    }
  });
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
