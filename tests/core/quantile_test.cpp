// Values of definition 7 from another hand: Python 3.11,
//   [statistics.quantiles(v, n=100, method='inclusive')[p - 1] for p in (10, 50, 90, 25)]
#include "core/quantile.h"

#include <doctest/doctest.h>

#include <vector>

using namespace trowelbell;

TEST_CASE("quantiles of definition 7 as another program has them") {
  struct Row {
    std::vector<double> values;
    double tenth, half, ninetieth, quarter;
  };
  const Row rows[] = {
      {{1, 2, 3}, 1.2, 2, 2.8, 1.5},
      {{15, 20, 35, 40, 50}, 17, 35, 46, 20},
      {{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, 1.9, 5.5, 9.1, 3.25},
      {{0.5, 2.25, 2.25, 7, 11.5, 12, 40}, 1.55, 7, 23.2, 2.25},
  };
  for (const Row& row : rows) {
    CAPTURE(row.values.size());
    CHECK(quantile(row.values, 10) == doctest::Approx(row.tenth).epsilon(1e-12));
    CHECK(quantile(row.values, 50) == doctest::Approx(row.half).epsilon(1e-12));
    CHECK(quantile(row.values, 90) == doctest::Approx(row.ninetieth).epsilon(1e-12));
    CHECK(quantile(row.values, 25) == doctest::Approx(row.quarter).epsilon(1e-12));
    CHECK(quantile(row.values, 0) == row.values.front());
    CHECK(quantile(row.values, 100) == row.values.back());
  }
  const double one[] = {42};
  for (const int percent : {0, 10, 50, 90, 100}) CHECK(quantile(one, percent) == 42);
}
