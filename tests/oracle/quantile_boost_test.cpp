// Quantiles against Boost.Math's median, and all of them against the definition: in definition 7 of
// Hyndman and Fan (1996) the k-th of n values in order stands at (k - 1) / (n - 1), and between two
// the quantile is a straight line.
#include <doctest/doctest.h>

#include <algorithm>
#include <boost/math/statistics/univariate_statistics.hpp>
#include <cmath>

#include "core/quantile.h"
#include "random_lessons.h"

using namespace trowelbell;

TEST_CASE("the middle is the median, and every quantile stands where the definition puts it") {
  RandomLessons random(77);
  for (int round = 0; round < 500; ++round) {
    std::vector<double> values(static_cast<std::size_t>(random.between(1, 40)));
    for (double& value : values) value = static_cast<double>(random.between(0, 1200)) / 4;
    std::vector<double> shuffled = values;
    std::sort(values.begin(), values.end());
    CHECK(std::abs(quantile(values, 50) - boost::math::statistics::median(shuffled)) < 1e-9);
    for (std::int64_t percent = 0; percent <= 100; ++percent) {
      const double share = static_cast<double>(percent) / 100;
      double expected = values.front();
      for (std::size_t k = 1; k < values.size(); ++k) {
        const double n1 = static_cast<double>(values.size() - 1);
        const double from = static_cast<double>(k - 1) / n1, to = static_cast<double>(k) / n1;
        if (share >= from) {
          expected = values[k - 1] +
                     (values[k] - values[k - 1]) * std::min((share - from) / (to - from), 1.0);
        }
      }
      CAPTURE(values.size());
      CAPTURE(percent);
      CHECK(std::abs(quantile(values, percent) - expected) < 1e-9);
    }
  }
}
