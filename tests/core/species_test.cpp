#include "core/species.h"

#include "documents.h"

using namespace trowelbell;

namespace {

const documents::Read kRead = documents::reader_of(read_species);

Json with_root_in_days() {
  return documents::with(documents::species(), "/root", {{"least_days", 3}, {"most_days", 5}});
}

}  // namespace

TEST_CASE("a species is read field by field") {
  Problems problems;
  const Species pea = read_species(documents::species(), problems);
  CHECK(problems.empty());
  CHECK(pea.id == "garden-pea");
  CHECK(pea.plural.en == "peas");
  CHECK(pea.legal_minimum_percent == 80);
  REQUIRE(pea.emergence.size() == 2);
  CHECK(pea.emergence[1].celsius == 10.5);
  CHECK(pea.emergence[1].days == 13.5);
  CHECK(pea.emergence[1].percent == 94);
  CHECK(pea.root_base_celsius == -0.98);
  CHECK(pea.root_degree_days == 55.9);
  CHECK(pea.root_warmest_celsius == 27.5);
  CHECK_FALSE(pea.seed_leaves_rise);
  CHECK(pea.sources.size() == 1);
  const Species bean = read_species(with_root_in_days(), problems);
  CHECK(problems.empty());
  CHECK(bean.root_degree_days == 0);
  CHECK(bean.root_least_days == 3);
  CHECK(bean.root_most_days == 5);
}

TEST_CASE("the species' reader is strict") {
  documents::wrong_types_are_told_where_they_are(documents::species(), kRead);
  documents::wrong_types_are_told_where_they_are(with_root_in_days(), kRead);
  documents::only_optional_fields_may_be_missing(
      documents::species(), kRead, {"/name/es", "/plural/es", "/legal_minimum_percent"});
  documents::header_is_checked(documents::species(), kRead);
  documents::bad_rows_are_told(
      documents::species(), kRead,
      {{"/legal_minimum_percent", "101", ""},
       {"/legal_minimum_percent", "80.0", ""},
       {"/emergence", R"([{"celsius": 5, "days": 36, "percent": 89}])", ""},
       {"/emergence/1/celsius", "5", ""},
       {"/emergence/1/celsius", "4.9", ""},
       {"/emergence/0/celsius", "-11", ""},
       {"/emergence/0/days", "0", ""},
       {"/emergence/0/percent", "100.1", ""},
       {"/root/degree_days", "0", ""},
       {"/root/warmest_celsius", "-0.98", "/root/warmest_celsius"},
       {"/root", "{}", "/root/least_days"},
       {"/root", R"({"least_days": 5, "most_days": 4})", "/root/most_days"},
       {"/sources", "[]", ""}});
}
