// The seed tables that ship against the published ones in harrington.h, typed in separately.
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "tests/core/harrington.h"

using namespace trowelbell;

namespace {

Species shipped(const std::string& id) {
  std::ifstream file(std::string(TROWELBELL_CONTENT_DIR) + "/species/" + id + ".json");
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  Problems problems;
  const auto document = parse_json(text, JsonLimits{}, problems);
  REQUIRE(document);
  Species species = read_species(*document, problems);
  REQUIRE(problems.empty());
  return species;
}

void check_same(const Species& shipped, const Species& published) {
  CAPTURE(shipped.id);
  CHECK(shipped.legal_minimum_percent == published.legal_minimum_percent);
  CHECK(shipped.root_base_celsius == published.root_base_celsius);
  CHECK(shipped.root_degree_days == published.root_degree_days);
  CHECK(shipped.root_warmest_celsius == published.root_warmest_celsius);
  CHECK(shipped.root_least_days == published.root_least_days);
  CHECK(shipped.root_most_days == published.root_most_days);
  REQUIRE(shipped.emergence.size() == published.emergence.size());
  for (std::size_t index = 0; index < published.emergence.size(); ++index) {
    CHECK(shipped.emergence[index].celsius == published.emergence[index].celsius);
    CHECK(shipped.emergence[index].days == published.emergence[index].days);
    CHECK(shipped.emergence[index].percent == published.emergence[index].percent);
  }
}

}  // namespace

TEST_CASE("the beans and peas that ship are those of the published tables") {
  check_same(shipped("garden-bean"), harrington::snap_bean());
  check_same(shipped("garden-pea"), harrington::pea());
}

TEST_CASE("which seed leaves rise above the soil: 7 CFR 201.56-6(a) for bean; pea from memory") {
  CHECK(shipped("garden-bean").seed_leaves_rise);
  CHECK_FALSE(shipped("garden-pea").seed_leaves_rise);
}
