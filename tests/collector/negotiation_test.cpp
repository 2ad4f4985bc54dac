#include "collector/negotiation.h"

#include <doctest/doctest.h>

#include <string>

namespace trowelbell::collector {

TEST_CASE("If-None-Match compares weakly and knows lists and the star") {
  // RFC 9110, 13.1.2 (the examples) and 8.8.3.2 (the comparison table: W/"1" matches "1" weakly).
  struct Row {
    std::string field;
    std::string etag;
    bool match;
  };
  const Row rows[] = {
      {"\"xyzzy\"", "\"xyzzy\"", true},
      {"W/\"xyzzy\"", "\"xyzzy\"", true},
      {"\"xyzzy\", \"r2d2xxxx\", \"c3piozzzz\"", "\"r2d2xxxx\"", true},
      {"W/\"xyzzy\", W/\"r2d2xxxx\", W/\"c3piozzzz\"", "\"c3piozzzz\"", true},
      {"*", "\"xyzzy\"", true},
      {"\"1\"", "\"2\"", false},
      {"W/\"1\"", "\"2\"", false},
      {"xyzzy", "\"xyzzy\"", false},
      {"", "\"xyzzy\"", false},
      {",,", "\"xyzzy\"", false},
  };
  for (const Row& row : rows) {
    CAPTURE(row.field);
    CHECK(names_etag(row.field, row.etag) == row.match);
  }
}

TEST_CASE("Accept-Encoding: names, weights and the star") {
  // RFC 9110, 12.5.3: the examples there, and "a weight of 0 is not acceptable".
  struct Row {
    std::string field;
    std::string coding;
    bool accepted;
  };
  const Row rows[] = {
      {"compress, gzip", "gzip", true},
      {"", "gzip", false},
      {"*", "gzip", true},
      {"compress;q=0.5, gzip;q=1.0", "gzip", true},
      {"gzip;q=1.0, identity; q=0.5, *;q=0", "gzip", true},
      {"gzip;q=1.0, identity; q=0.5, *;q=0", "br", false},
      {"gzip, deflate, br", "br", true},
      {"gzip, br;q=0", "br", false},
      {"br ; Q=0.000, *", "br", false},
      {"br;q=0.001", "br", true},
      {"BR", "br", true},
      {"brotli", "br", false},
  };
  for (const Row& row : rows) {
    CAPTURE(row.field);
    CHECK(accepts_coding(row.field, row.coding) == row.accepted);
  }
}

}  // namespace trowelbell::collector
