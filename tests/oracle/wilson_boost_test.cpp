// Wilson's interval against its definition: the shares p from which the count is exactly z standard
// errors away, |yes / n - p| = z sqrt(p (1 - p) / n), found by bisection, with z from Boost.Math's
// normal distribution. (Boost's own intervals of a binomial share are others: Clopper and
// Pearson's, and Jeffreys'.) As a second witness, how often the interval holds the true share,
// summed over Boost's binomial distribution.
#include <doctest/doctest.h>

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "core/proportion.h"

using namespace trowelbell;

namespace {

// A hair off the count itself: of none and of all, that is a false root.
constexpr double kHair = 1e-9;

// The share between `low` and `high` where the count is as surprising as may be.
double edge(double yes, double n, double low, double high) {
  const double z = quantile(boost::math::normal(), 0.975);
  const auto surprise = [&](double p) {
    return (yes / n - p) * (yes / n - p) - z * z * p * (1 - p) / n;
  };
  const auto found = boost::math::tools::bisect(surprise, low, high,
                                                boost::math::tools::eps_tolerance<double>(50));
  return (found.first + found.second) / 2;
}

}  // namespace

TEST_CASE("both ends are where the definition puts them") {
  for (std::int64_t all = 1; all <= 60; ++all) {
    for (std::int64_t yes = 0; yes <= all; ++yes) {
      const auto k = static_cast<double>(yes), n = static_cast<double>(all);
      const Interval interval = wilson_95(yes, all);
      CAPTURE(yes);
      CAPTURE(all);
      CHECK(std::abs(interval.low - (yes == 0 ? 0 : edge(k, n, 0, k / n - kHair))) < 1e-12);
      CHECK(std::abs(interval.high - (yes == all ? 1 : edge(k, n, k / n + kHair, 1))) < 1e-12);
    }
  }
  const Interval many = wilson_95(1234, 56'789);
  CHECK(std::abs(many.low - edge(1234, 56'789, 0, 1234.0 / 56'789)) < 1e-12);
  CHECK(std::abs(many.high - edge(1234, 56'789, 1234.0 / 56'789, 1)) < 1e-12);
}

TEST_CASE("the interval holds the true share about 95 times of 100") {
  for (const double share : {0.5, 0.7, 0.9}) {
    const boost::math::binomial distribution(200, share);
    double held = 0;
    for (int yes = 0; yes <= 200; ++yes) {
      const Interval interval = wilson_95(yes, 200);
      if (interval.low <= share && share <= interval.high) held += pdf(distribution, yes);
    }
    CAPTURE(share);
    CHECK(std::abs(held - 0.95) < 0.02);
  }
}
