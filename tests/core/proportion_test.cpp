#include "core/proportion.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace trowelbell;

TEST_CASE("8 of 10: 0.4902 to 0.9433, Wilson's interval as it is printed") {
  // Worked anew from its definition in tests/oracle/wilson_boost_test.cpp.
  const Interval interval = wilson_95(8, 10);
  CHECK(std::abs(interval.low - 0.4902) < 0.00005);
  CHECK(std::abs(interval.high - 0.9433) < 0.00005);
}

TEST_CASE("none and all are exact at their end and open at the other") {
  // z^2 / (n + z^2) with z^2 = 3.8414588: what the formula leaves of 0 of n.
  CHECK(wilson_95(0, 10).low == 0);
  CHECK(wilson_95(0, 10).high == doctest::Approx(3.8414588207 / 13.8414588207).epsilon(1e-9));
  CHECK(wilson_95(10, 10).high == 1);
  CHECK(wilson_95(10, 10).low == doctest::Approx(10 / 13.8414588207).epsilon(1e-9));
}

TEST_CASE("of none, nothing is known") {
  CHECK(wilson_95(0, 0).low == 0);
  CHECK(wilson_95(0, 0).high == 1);
}
