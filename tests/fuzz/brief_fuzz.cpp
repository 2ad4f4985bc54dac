// A brief as a file, and as a link: what is read is written back to the same brief.
#include "core/brief.h"

#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  fuzz::read_document(text, kBriefLimits, read_brief, [](const Json&, const Brief& brief) {
    fuzz::must(brief.start_ms() < brief.bell_ms());
    Problems problems;
    const auto back = brief_from_fragment(brief_fragment(brief), problems);
    // A brief near the size limit may grow beyond it when its defaults are written out.
    fuzz::must(back.has_value() ? dump_json(brief_json(*back)) == dump_json(brief_json(brief))
                                : dump_json(brief_json(brief)).size() > kBriefLimits.bytes);
  });
  Problems problems;
  const auto brief = brief_from_fragment(text, problems);
  fuzz::must(brief.has_value() == problems.empty());
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
