// The samples are made up.
#include "column_check/column_samples.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace column_samples;

namespace {

constexpr double degree = std::numbers::pi / 180;

double use_at(const Sample& sample, ColumnLoading loading, double angle) {
  loading.angle = angle;
  return column_under_force(sample.column, sample.layers, loading, nullptr).section.use;
}

} // namespace

TEST_CASE("at the critical angle the worst section is just plastic") {
  const Sample cone = taper(0.3, 0.06, 0.12);
  const ColumnLoading loading = cone.loading(12, 0.2); // its angle plays no part
  const double critical = critical_angle(cone.column, cone.layers, loading, nullptr);
  REQUIRE(critical > 0);
  REQUIRE(critical < 45 * degree);
  CHECK(use_at(cone, loading, critical) == Approx(1).epsilon(1e-3));
  CHECK(use_at(cone, loading, critical - 0.2 * degree) < 1);
  CHECK(use_at(cone, loading, critical + 0.2 * degree) > 1);
}

TEST_CASE("a taper whose root carries twice the crush force can still tip at seven degrees") {
  const Sample cone = taper(0.32, 0.06, 0.1);
  const ColumnLoading loading = cone.loading(0, 0.08);
  const double root = 6e6 * 0.1 * 0.1;
  REQUIRE(root / cone.curve.peak_force_up_to(loading.peak_crush) > 2);
  const double critical = critical_angle(cone.column, cone.layers, loading, nullptr);
  CHECK(critical > 1 * degree);
  CHECK(critical < 7 * degree);
}

TEST_CASE("an even column of lattice has nothing left to bend with") {
  const Sample even = taper(0.3, 0.08, 0.08);
  CHECK(critical_angle(even.column, even.layers, even.loading(0), nullptr) < 1 * degree);
}

TEST_CASE("a stocky column with a strong root does not tip below 45 degrees") {
  Sample stocky = taper(0.1, 0.1, 0.1);
  for (BeamSection& section : stocky.column.sections) {
    section.lattice.collapse_stress *= 20;
    section.lattice.shear_strength *= 20;
    section.lattice.youngs_modulus *= 20;
    section.lattice.shear_modulus *= 20;
  }
  CHECK(critical_angle(stocky.column, stocky.layers, stocky.loading(0), nullptr) == Approx(std::numbers::pi / 2));
}

TEST_CASE("a longer taper tips earlier") {
  const Sample shorter = taper(0.2, 0.06, 0.12), longer = taper(0.4, 0.06, 0.12);
  CHECK(critical_angle(longer.column, longer.layers, longer.loading(0, 0.2), nullptr) <
        critical_angle(shorter.column, shorter.layers, shorter.loading(0, 0.2), nullptr));
}

TEST_CASE("the map spans 0 to 30 degrees and a quarter to five quarters of the peak, and rises with the angle") {
  const Sample cone = taper(0.3, 0.06, 0.12);
  const ColumnMap map = column_map(cone.column, cone.layers, cone.loading(10, 0.2), nullptr);
  CHECK(map.angles.front() == 0);
  CHECK(map.angles.back() == Approx(30 * degree));
  CHECK(map.shares.front() == 0.25);
  CHECK(map.shares.back() == 1.25);
  REQUIRE(map.use.size() == map.angles.size());
  for (std::size_t i = 0; i < map.use.size(); ++i) {
    REQUIRE(map.use[i].size() == map.shares.size());
    for (std::size_t j = 0; i > 0 && j < map.shares.size(); ++j)
      CHECK(map.use[i][j] > map.use[i - 1][j]);
  }
  // Below the first collapse everything stands: without an angle the section nearest the tip carries most of itself.
  CHECK(map.use[0][0] < 1);
  const ColumnLoading loading = cone.loading(0, 0.2);
  const auto full = std::find(map.shares.begin(), map.shares.end(), 1.0) - map.shares.begin();
  CHECK(map.use[2][static_cast<std::size_t>(full)] <= use_at(cone, loading, 10 * degree) * (1 + 1e-9));
}
