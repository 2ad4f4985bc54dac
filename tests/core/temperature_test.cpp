// Pairs from the published germination table's own heads (tests/core/harrington.h: 41 F is 5 C ...
// 86 F is 30 C), and where the scales meet (-40, from memory).
#include "core/temperature.h"

#include <doctest/doctest.h>

using namespace trowelbell;

TEST_CASE("the table's heads are the same on both scales, exactly") {
  const double pairs[][2] = {{32, 0},  {41, 5},  {50, 10}, {59, 15},  {68, 20},
                             {77, 25}, {86, 30}, {95, 35}, {104, 40}, {-40, -40}};
  for (const auto& [fahrenheit, celsius] : pairs) {
    CHECK(celsius_of(fahrenheit) == celsius);
    CHECK(fahrenheit_of(celsius) == fahrenheit);
  }
}

TEST_CASE("70 F is 190/9 C, not 21") {
  CHECK(celsius_of(70) * 9 == 190);
  CHECK(fahrenheit_of(21) == doctest::Approx(69.8).epsilon(1e-12));
}
