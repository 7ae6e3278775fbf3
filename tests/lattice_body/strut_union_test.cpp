#include "lattice_body/strut_union.hpp"

#include "lattice_body/trim_samples.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <tbb/global_control.h>

#include <cmath>
#include <numbers>

using namespace crushwright;
using std::numbers::pi;

namespace {

SampleSite everywhere(const Eigen::Vector3d&, NearestLevel&) {
  return {true, false};
}

StrutBody bars(std::vector<std::array<double, 3>> nodes, std::vector<BodyStrut> struts) {
  return {std::move(nodes), std::move(struts)};
}

/// Against a value that is exact: within four standard errors, and the error itself small.
void check(const SampledVolume& volume, double exact, double most_error) {
  CHECK(volume.error < most_error * exact);
  CHECK(std::abs(volume.value - exact) < 4 * volume.error + 1e-12 * exact);
}

} // namespace

TEST_CASE("One bar is a cylinder with a ball at each end") {
  const double r = 0.5e-3, length = 8e-3;
  const auto volumes = union_volumes(bars({{0, 0, 0}, {length, 0, 0}}, {{0, 1, r, r}}), everywhere, 4e5);
  check(volumes.all, pi * r * r * length + 4 * pi / 3 * r * r * r, 5e-4);
  CHECK(volumes.inside.value == volumes.all.value);
  CHECK(volumes.core.value == 0);
}

TEST_CASE("A tapered bar is a frustum; its balls stick out of its ends") {
  const double r = 1e-3, s = 0.5e-3, length = 10e-3, k = (r - s) / length;
  const auto volumes = union_volumes(bars({{0, 0, 0}, {0, length, 0}}, {{0, 1, r, s}}), everywhere, 4e6);
  const double frustum = pi / 3 * length * (r * r + r * s + s * s);
  // The larger ball's forward half also stands proud of the cone, between x = 0 and 2 k r / (1 + k²):
  // ∫ π [(r² - x²) - (r - k x)²] dx = π [k r x² - (1 + k²) x³ / 3].
  const double x = 2 * k * r / (1 + k * k);
  const double proud = pi * (k * r * x * x - (1 + k * k) * x * x * x / 3);
  // The smaller ball's backward half lies inside the cone.
  const double halves = 2 * pi / 3 * (r * r * r + s * s * s);
  check(volumes.all, frustum + halves + proud, 3e-4);
}

TEST_CASE("Two and three crossing bars share what two and three crossing cylinders share") {
  // 16/3 r³ of two cylinders, and 8 (2 - √2) r³ of three: closed forms, the first known to Archimedes.
  const double r = 1e-3, half = 10e-3;
  const double bar = pi * r * r * 2 * half + 4 * pi / 3 * r * r * r;
  const StrutBody two =
      bars({{-half, 0, 0}, {half, 0, 0}, {0, -half, 0}, {0, half, 0}}, {{0, 1, r, r}, {2, 3, r, r}});
  check(union_volumes(two, everywhere, 2e6).all, 2 * bar - 16.0 / 3 * r * r * r, 3e-4);
  StrutBody three = two;
  three.nodes.push_back({0, 0, -half});
  three.nodes.push_back({0, 0, half});
  three.struts.push_back({4, 5, r, r});
  const double common = 8 * (2 - std::sqrt(2.0)) * r * r * r;
  check(union_volumes(three, everywhere, 2e6).all, 3 * bar - 3 * 16.0 / 3 * r * r * r + common, 3e-4);
}

TEST_CASE("The error told is the error made") {
  // Of 40 bodies that differ only in their place in the list of samples, the spread is the error that each tells.
  const double r = 1e-3, half = 10e-3;
  double sum = 0, squares = 0, told = 0;
  const int bodies = 40;
  for (int i = 0; i < bodies; ++i) {
    StrutBody body;
    for (int k = 0; k < i; ++k) { // far off, to move the count on
      body.nodes.push_back({1.0 + 0.01 * k, 0, 0});
      body.nodes.push_back({1.0 + 0.01 * k, 0.001, 0});
      body.struts.push_back({2 * k, 2 * k + 1, 1e-6, 1e-6});
    }
    const auto first = static_cast<std::int32_t>(body.nodes.size());
    for (const auto& node : {std::array{-half, 0.0, 0.0}, {half, 0.0, 0.0}, {0.0, -half, 0.0}, {0.0, half, 0.0}})
      body.nodes.push_back(node);
    body.struts.push_back({first, first + 1, r, r});
    body.struts.push_back({first + 2, first + 3, r, r});
    const auto volumes = union_volumes(
        body,
        [](const Eigen::Vector3d& p, NearestLevel&) {
          return SampleSite{p.x() < 0.5, false};
        },
        200.0 * (6 + 3 * i));
    sum += volumes.inside.value;
    squares += volumes.inside.value * volumes.inside.value;
    told += volumes.inside.error / bodies;
  }
  const double mean = sum / bodies;
  const double spread = std::sqrt((squares - bodies * mean * mean) / (bodies - 1));
  CHECK(spread / told > 0.6);
  CHECK(spread / told < 1.5);
}

TEST_CASE("The volume does not depend on the number of threads") {
  const double r = 1e-3, half = 10e-3;
  const StrutBody body =
      bars({{-half, 0, 0}, {half, 0, 0}, {0, -half, 0}, {0, half, 0}}, {{0, 1, r, r}, {2, 3, r, r}});
  const double many = union_volumes(body, everywhere, 1e4).all.value;
  const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
  CHECK(union_volumes(body, everywhere, 1e4).all.value == many);
}
