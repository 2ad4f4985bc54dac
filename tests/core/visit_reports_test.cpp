#include "core/visit_reports.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace trowelbell;

namespace {

const std::string kOne(16, 'a'), kTwo(16, 'b'), kThree(16, 'c');

ReportFacts report(std::string visit, std::string device, std::int64_t revision,
                   std::int64_t events, std::int64_t ended_at = 1000) {
  ReportFacts facts;
  facts.visit = std::move(visit);
  facts.device = std::move(device);
  facts.revision = revision;
  facts.events = events;
  facts.ended_at = ended_at;
  return facts;
}

}  // namespace

TEST_CASE("of one phone's reports the newest revision counts, each once") {
  const ReportFacts reports[] = {report("b", kOne, 3, 3), report("a", kOne, 9, 9),
                                 report("b", kOne, 12, 12), report("b", kOne, 5, 5),
                                 report("b", kOne, 12, 12)};
  const CountedReports counted = count_reports(reports);
  CHECK(counted.counted == std::vector<std::size_t>{1, 2});
  CHECK(counted.repeated == 3);
  CHECK(counted.shared.empty());
}

TEST_CASE("of several phones' the one that knows the end, then the most taps, revision, id") {
  struct Row {
    ReportFacts counts, other;
  };
  const Row rows[] = {
      {report("a", kTwo, 1, 5), report("a", kOne, 9, 50, 0)},
      {report("a", kTwo, 1, 51), report("a", kOne, 9, 50)},
      {report("a", kTwo, 1, 51, 0), report("a", kOne, 9, 50, 0)},
      {report("a", kTwo, 10, 50), report("a", kOne, 9, 50)},
      {report("a", kOne, 9, 50), report("a", kTwo, 9, 50)},
      // An older revision does not help its phone, however much it was made of.
      {report("a", kTwo, 3, 20), report("a", kOne, 9, 10)},
  };
  for (const Row& row : rows) {
    CAPTURE(&row - rows);
    const ReportFacts older = report("a", kOne, 1, 99);
    for (const bool first : {true, false}) {
      std::vector<ReportFacts> reports = {older, row.other, row.counts};
      if (first) std::reverse(reports.begin(), reports.end());
      const CountedReports counted = count_reports(reports);
      REQUIRE(counted.counted.size() == 1);
      CHECK(reports[counted.counted[0]].device == row.counts.device);
      CHECK(reports[counted.counted[0]].revision == row.counts.revision);
      CHECK(counted.repeated == 1);
      REQUIRE(counted.shared.size() == 1);
      CHECK(counted.shared[0].counts == counted.counted[0]);
      REQUIRE(counted.shared[0].others.size() == 1);
      CHECK(reports[counted.shared[0].others[0]].device == row.other.device);
    }
  }
}

TEST_CASE("three phones on one visit and one on another") {
  const ReportFacts reports[] = {report("z", kOne, 1, 1), report("a", kThree, 1, 7),
                                 report("a", kOne, 1, 8), report("a", kTwo, 1, 9)};
  const CountedReports counted = count_reports(reports);
  CHECK(counted.counted == std::vector<std::size_t>{3, 0});
  REQUIRE(counted.shared.size() == 1);
  CHECK(counted.shared[0].others == std::vector<std::size_t>{2, 1});
  CHECK(counted.repeated == 0);
  CHECK(count_reports({}).counted.empty());
}
