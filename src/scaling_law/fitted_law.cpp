#include "scaling_law/fitted_law.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {

namespace {

void require_points(const std::vector<LawPoint>& points) {
  if (points.size() < fewest_law_points) {
    throw OutOfDomain(fmt::format("a power law is fitted to at least {} points, and there are {}", fewest_law_points,
                                  points.size()));
  }
  for (const LawPoint& point : points) {
    if (!(point.relative_density > 0 && point.relative_density < 1)) {
      throw OutOfDomain(fmt::format("a point of a law has relative density {:g}; it must lie between 0 and 1",
                                    point.relative_density));
    }
    if (!(point.value > 0) || !std::isfinite(point.value)) {
      throw OutOfDomain(
          fmt::format("a point of a law at relative density {:g} has the value {:g}; it must be above 0 "
                      "and finite",
                      point.relative_density, point.value));
    }
  }
}

struct Line {
  double intercept;
  double slope;
};

/// Straight line through (ln ρ̄, ln y), about the mean so that nothing cancels.
Line line_through(const std::vector<LawPoint>& points) {
  const auto count = static_cast<double>(points.size());
  double mean_x = 0, mean_y = 0;
  for (const LawPoint& point : points) {
    mean_x += std::log(point.relative_density) / count;
    mean_y += std::log(point.value) / count;
  }
  double square = 0, product = 0;
  for (const LawPoint& point : points) {
    const double x = std::log(point.relative_density) - mean_x;
    square += x * x;
    product += x * (std::log(point.value) - mean_y);
  }
  // Densities closer together than this are one density with rounding, and any slope would fit.
  if (!(square > 1e-12)) {
    throw OutOfDomain(fmt::format("the points of a law all have relative density {:g}; an exponent needs a range",
                                  points.front().relative_density));
  }
  const double slope = product / square;
  return {mean_y - slope * mean_x, slope};
}

PowerLawFit judged(const std::vector<LawPoint>& points, const Line& line, double parameters) {
  PowerLawFit fit;
  fit.coefficient = std::exp(line.intercept);
  fit.exponent = line.slope;
  const auto by_density = [](const LawPoint& a, const LawPoint& b) {
    return a.relative_density < b.relative_density;
  };
  const auto ends = std::minmax_element(points.begin(), points.end(), by_density);
  fit.range = {ends.first->relative_density, ends.second->relative_density};
  double squares = 0;
  for (const LawPoint& point : points) {
    const double miss = line.intercept + line.slope * std::log(point.relative_density) - std::log(point.value);
    fit.largest_residual = std::max(fit.largest_residual, std::abs(std::expm1(miss)));
    squares += miss * miss;
  }
  fit.coefficient_of_variation = std::sqrt(squares / (static_cast<double>(points.size()) - parameters));
  return fit;
}

} // namespace

PowerLawFit fitted_law(const std::vector<LawPoint>& points) {
  require_points(points);
  return judged(points, line_through(points), 2);
}

PowerLawFit fitted_constant(const std::vector<LawPoint>& points) {
  require_points(points);
  double mean = 0;
  for (const LawPoint& point : points) {
    mean += std::log(point.value) / static_cast<double>(points.size());
  }
  return judged(points, {mean, 0}, 1);
}

} // namespace crushwright
