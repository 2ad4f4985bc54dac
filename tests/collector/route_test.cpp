#include "collector/route.h"

#include <doctest/doctest.h>

#include <string>

namespace trowelbell::collector {

TEST_CASE("addresses lead to their places") {
  struct Row {
    std::string target;
    Endpoint endpoint;
  };
  const Row rows[] = {
      {"/v1/health", Endpoint::health},
      {"/v1/visits", Endpoint::visits},
      {"/v1/visits?show=waiting", Endpoint::visits},
      {"/v1/visits/fern-k1/reports/latest", Endpoint::latest_report},
      {"/v1/visits/fern-k1/reports/0011223344556677/1", Endpoint::report},
      {"http://127.0.0.1:8321/v1/health", Endpoint::health},  // absolute form, RFC 9112, 3.2.2
      {"/", Endpoint::site},
      {"/index.html", Endpoint::site},
      {"/v1", Endpoint::unknown},
      {"/v1/", Endpoint::unknown},
      {"/v1/health/", Endpoint::unknown},
      {"/v1/visits/fern-k1", Endpoint::unknown},
      {"/v1/visits/Fern/reports/latest", Endpoint::unknown},
      {"/v1/visits/-a/reports/latest", Endpoint::unknown},
      {"/v1/visits//reports/latest", Endpoint::unknown},
      {"/v1/visits/fern-k1/reports/001122334455667/1", Endpoint::unknown},
      {"/v1/visits/fern-k1/reports/001122334455667G/1", Endpoint::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/0", Endpoint::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/01", Endpoint::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/-1", Endpoint::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/1x", Endpoint::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/9999999999999999", Endpoint::unknown},
      {"/v1/visits/fern-k1/reports/0011223344556677/1/2", Endpoint::unknown},
      {"v1/health", Endpoint::unknown},
      {"", Endpoint::unknown},
      {"*", Endpoint::unknown},
      {"http://", Endpoint::unknown},
      {"/%", Endpoint::unknown},
      {"/%0", Endpoint::unknown},
      {"/%zz", Endpoint::unknown},
      {"/a%00b", Endpoint::unknown},
  };
  for (const Row& row : rows) {
    CAPTURE(row.target);
    CHECK(find_route(row.target).endpoint == row.endpoint);
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
