#include "review_pack/chart.hpp"
#include "review_pack/label_layout.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace crushwright;

namespace {

std::vector<ChartPoint> damped_wave() {
  std::vector<ChartPoint> points;
  for (int i = 0; i <= 2000; ++i) {
    const double x = i * 0.01;
    points.push_back({x, std::exp(-0.1 * x) * std::sin(x)});
  }
  return points;
}

double on_line(const std::vector<ChartPoint>& line, double x) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (line[i].x >= x) {
      const double part = (x - line[i - 1].x) / (line[i].x - line[i - 1].x);
      return line[i - 1].y + part * (line[i].y - line[i - 1].y);
    }
  }
  return line.back().y;
}

} // namespace

TEST_CASE("a thinned line stays within its tolerance and keeps its peak and its ends") {
  const std::vector<ChartPoint> full = damped_wave();
  const std::vector<ChartPoint> thin = thinned(full, 1e-3);
  CHECK(thin.size() < full.size() / 10);
  for (const ChartPoint& point : full) {
    CHECK(std::abs(on_line(thin, point.x) - point.y) <= 1e-3 + 1e-12);
  }
  const auto by_y = [](const ChartPoint& a, const ChartPoint& b) { return a.y < b.y; };
  CHECK(std::max_element(thin.begin(), thin.end(), by_y)->y == std::max_element(full.begin(), full.end(), by_y)->y);
  CHECK(thin.front().x == full.front().x);
  CHECK(thin.back().x == full.back().x);
}

TEST_CASE("names on a chart do not run into each other") {
  LabelLayout layout(230, 200);
  for (int i = 0; i < 6; ++i) {
    layout.place({{"limit 95 kN", 4, 100, Anchor::start, false}, {"limit 95 kN", 226, 100, Anchor::end, false}});
  }
  std::vector<double> left, right;
  for (const PlacedLabel& label : layout.placed()) {
    (label.anchor == Anchor::start ? left : right).push_back(label.y);
  }
  CHECK(left.size() + right.size() == 6);
  for (std::vector<double>* column : {&left, &right}) {
    std::sort(column->begin(), column->end());
    for (std::size_t i = 1; i < column->size(); ++i) {
      CHECK((*column)[i] - (*column)[i - 1] >= 14);
    }
  }
}

TEST_CASE("a name keeps off a line where it can") {
  LabelLayout layout(230, 200);
  layout.avoid(115, 50, 230, 3);
  layout.place({{"weak", 100, 50, Anchor::middle, false}, {"weak", 100, 70, Anchor::middle, false}});
  CHECK(layout.placed().front().y == 70);
}

TEST_CASE("the end of an axis is a round number not below the value") {
  CHECK(rounded_up(17.2) == Approx(20));
  CHECK(rounded_up(101) == Approx(120));
  CHECK(rounded_up(0.4) == Approx(0.4));
  CHECK(rounded_up(0) == 1);
}
