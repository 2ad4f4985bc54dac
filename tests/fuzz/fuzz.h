// What the fuzz targets share. A target gets any bytes; besides not crashing it must keep its
// promises, checked by `must`. Build and run, with the content as seeds:
//
//   CC=clang CXX=clang++ cmake -S . -B build/fuzz -DTROWELBELL_FUZZ=ON
//   cmake --build build/fuzz --target brief_fuzz
//   build/fuzz/tests/brief_fuzz -max_total_time=60 -max_len=8192 corpus content
#pragma once

#include <cstdlib>

#include "core/json.h"

namespace trowelbell::fuzz {

inline void must(bool promise) {
  if (!promise) {
    std::abort();
  }
}

// The document in `text`, read by `read`; `use` gets it only when no problem was found.
template <class Thing, class Use>
void read_document(std::string_view text, const JsonLimits& limits,
                   Thing (*read)(const Json&, Problems&), Use use) {
  Problems problems;
  const auto document = parse_json(text, limits, problems);
  must(document.has_value() == problems.empty());
  if (!document) {
    return;
  }
  const std::string printed = dump_json(*document);
  Problems none;
  // Printing can lengthen a document (a raw control character cannot stand in it, a long number
  // can): only bytes differ.
  const auto again = parse_json(printed, {printed.size(), limits.depth}, none);
  must(again.has_value() && dump_json(*again) == printed);
  const Thing thing = read(*document, problems);
  must(problems.size() <= kMostProblems);
  for (const Problem& problem : problems) {
    must(!problem.what.empty() && (problem.path.empty() || problem.path.front() == '/'));
  }
  if (problems.empty()) {
    use(*document, thing);
  }
}

}  // namespace trowelbell::fuzz

// fuzz_one(std::string_view) is the target's own.
#define TROWELBELL_FUZZ_TARGET(fuzz_one)                                               \
  extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) { \
    fuzz_one({reinterpret_cast<const char*>(data), size});                             \
    return 0;                                                                          \
  }
