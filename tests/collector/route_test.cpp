#include "collector/route.h"

#include <doctest/doctest.h>

#include <string>

namespace trowelbell::collector {

TEST_CASE("addresses lead to their places") {
  struct Row {
    std::string target;
    Place place;
  };
  const Row rows[] = {
      {"/v1/health", Place::health},
      {"/v1/visits", Place::visits},
      {"/v1/visits?show=waiting", Place::visits},
      {"/v1/visits/fern-k1/reports/latest", Place::latest_report},
      {"/v1/visits/fern-k1/reports/0011223344556677/1", Place::report},
      {"http://127.0.0.1:8321/v1/health", Place::health},  // absolute form, RFC 9112, 3.2.2
      {"/", Place::site},
      {"/index.html", Place::site},
      {"/v1", Place::unknown},
      {"/v1/", Place::unknown},
      {"/v1/health/", Place::unknown},
      {"/v1/visits/fern-k1", Place::unknown},
      {"/v1/visits/Fern/reports/latest", Place::unknown},
      {"/v1/visits/-a/reports/latest", Place::unknown},
      {"/v1/visits//reports/latest", Place::unknown},
      {"/v1/visits/fern-k1/reports/001122334455667/1", Place::unknown},
      {"/v1/visits/fern-k1/reports/001122334455667G/1", Place::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/0", Place::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/01", Place::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/-1", Place::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/1x", Place::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/9999999999999999", Place::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/1/2", Place::unknown},
      {"v1/health", Place::unknown},
      {"", Place::unknown},
      {"*", Place::unknown},
      {"http://", Place::unknown},
      {"/%", Place::unknown},
      {"/%0", Place::unknown},
      {"/%zz", Place::unknown},
      {"/a%00b", Place::unknown},
  };
  for (const Row& row : rows) {
    CAPTURE(row.target);
    CHECK(find_route(row.target).place == row.place);
  }
}

TEST_CASE("a report's address is taken apart") {
  const Route route = find_route("/v1/visits/fern-k1/reports/0011223344556677/9007199254740991");
  CHECK(route.visit == "fern-k1");
  CHECK(route.device == "0011223344556677");
  CHECK(route.revision == 9007199254740991);
  CHECK(route.pattern == "/v1/visits/{visit}/reports/{device}/{revision}");
}

TEST_CASE("escapes are decoded once") {
  // RFC 3986, 2.1 and 2.4: "must not percent-encode or decode the same string more than once".
  std::string decoded;
  CHECK(percent_decode("a%2Fb%2fc", decoded));
  CHECK(decoded == "a/b/c");
  CHECK(percent_decode("%252e", decoded));
  CHECK(decoded == "%2e");
}

TEST_CASE("a query gives the value of a key") {
  CHECK(query_value("show=in&limit=3", "limit") == "3");
  CHECK(query_value("show=in&limit=3", "show") == "in");
  CHECK(query_value("a=%41", "a") == "A");
  CHECK(query_value("a=%4", "a").empty());
  CHECK(query_value("ab=1&b", "b").empty());
  CHECK(query_value("", "b").empty());
}

}  // namespace trowelbell::collector
