#include "review_pack/chart.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace crushwright {

namespace {

double chord_at(const ChartPoint& from, const ChartPoint& to, double x) {
  return to.x > from.x ? from.y + (to.y - from.y) * (x - from.x) / (to.x - from.x) : from.y;
}

std::size_t farthest_from_chord(const std::vector<ChartPoint>& points, std::size_t from, std::size_t to,
                                double tolerance) {
  std::size_t found = from;
  double farthest = tolerance;
  for (std::size_t i = from + 1; i < to; ++i) {
    const double distance = std::abs(points[i].y - chord_at(points[from], points[to], points[i].x));
    if (distance > farthest) {
      farthest = distance;
      found = i;
    }
  }
  return found;
}

void keep_extremes(const std::vector<ChartPoint>& points, std::vector<bool>& kept) {
  const auto by_y = [](const ChartPoint& a, const ChartPoint& b) { return a.y < b.y; };
  const auto [least, greatest] = std::minmax_element(points.begin(), points.end(), by_y);
  kept[static_cast<std::size_t>(least - points.begin())] = true;
  kept[static_cast<std::size_t>(greatest - points.begin())] = true;
}

} // namespace

std::vector<ChartPoint> thinned(const std::vector<ChartPoint>& points, double tolerance) {
  if (points.size() < 3) {
    return points;
  }
  std::vector<bool> kept(points.size(), false);
  kept.front() = kept.back() = true;
  keep_extremes(points, kept);
  std::vector<std::pair<std::size_t, std::size_t>> open;
  for (std::size_t from = 0, i = 1; i < points.size(); ++i) {
    if (kept[i]) {
      open.emplace_back(from, i);
      from = i;
    }
  }
  while (!open.empty()) {
    const auto [from, to] = open.back();
    open.pop_back();
    const std::size_t split = farthest_from_chord(points, from, to, tolerance);
    if (split != from) {
      kept[split] = true;
      open.emplace_back(from, split);
      open.emplace_back(split, to);
    }
  }
  std::vector<ChartPoint> result;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (kept[i]) {
      result.push_back(points[i]);
    }
  }
  return result;
}

double rounded_up(double value) {
  if (!(value > 0) || !std::isfinite(value)) {
    return 1;
  }
  const double decade = std::pow(10.0, std::floor(std::log10(value)));
  for (const double step : {1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0}) {
    if (step * decade >= value * (1 - 1e-9)) {
      return step * decade;
    }
  }
  return 10 * decade;
}

} // namespace crushwright
