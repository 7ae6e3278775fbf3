#include "crushwright/errors.hpp"
#include "crushwright/sample_statistics.hpp"

#include <cmath>
#include <functional>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/format.h>

namespace crushwright {

namespace {

const boost::math::normal standard_normal;

void require_claim(std::size_t count, double population, double confidence) {
  if (count < 2) {
    throw OutOfDomain(fmt::format("a tolerance factor needs two specimens or more, not {}", count));
  }
  for (const auto& [name, share] :
       {std::pair{"share of the population", population}, std::pair{"confidence", confidence}}) {
    if (!(share > 0 && share < 1)) {
      throw OutOfDomain(fmt::format("the {} is {}, not between 0 and 1", name, share));
    }
  }
}

double root(const std::function<double(double)>& f, double low, double high) {
  std::uintmax_t steps = 200;
  const auto ends =
      boost::math::tools::toms748_solve(f, low, high, boost::math::tools::eps_tolerance<double>(45), steps);
  return 0.5 * (ends.first + ends.second);
}

/// Half width r, in standard deviations, that holds the share when the middle is off by `offset` of them.
double half_width(double offset, double population) {
  const auto missing = [&](double r) {
    return cdf(standard_normal, offset + r) - cdf(standard_normal, offset - r) - population;
  };
  return root(missing, 0, offset + 12);
}

/// Confidence that mean ± k s holds the share.
double confidence_of(double k, std::size_t count, double population) {
  const auto freedom = static_cast<double>(count - 1);
  const double spread = 1 / std::sqrt(static_cast<double>(count));
  const boost::math::chi_squared variance(freedom);
  const auto density = [&](double u) {
    const double r = half_width(u * spread, population);
    return 2 * pdf(standard_normal, u) * cdf(complement(variance, freedom * r * r / (k * k)));
  };
  // Beyond 8 standard deviations the normal density is under 1e-14.
  return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(density, 0.0, 8.0, 10, 1e-12);
}

} // namespace

double one_sided_tolerance_factor(std::size_t count, double population, double confidence) {
  require_claim(count, population, confidence);
  const double root_count = std::sqrt(static_cast<double>(count));
  const boost::math::non_central_t t(static_cast<double>(count - 1),
                                     quantile(standard_normal, population) * root_count);
  return quantile(t, confidence) / root_count;
}

double two_sided_tolerance_factor(std::size_t count, double population, double confidence) {
  require_claim(count, population, confidence);
  const auto missing = [&](double k) { return confidence_of(k, count, population) - confidence; };
  double high = 2 * quantile(standard_normal, 0.5 * (1 + population));
  while (missing(high) < 0) {
    high *= 2;
  }
  double low = 0.5 * high;
  while (missing(low) > 0) {
    low *= 0.5;
  }
  return root(missing, low, high);
}

} // namespace crushwright
