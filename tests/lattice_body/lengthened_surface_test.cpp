#include "crushwright/errors.hpp"
#include "lattice_body/trim_samples.hpp"
#include "surface/surface_probe.hpp"

#include <catch2/catch.hpp>

#include <map>

using namespace crushwright;
using namespace crushwright::trim_samples;

namespace {

/// Every edge runs once each way.
bool closed(const TriangleMesh& mesh) {
  std::map<std::pair<std::int32_t, std::int32_t>, int> edges;
  for (const auto& t : mesh.triangles)
    for (std::size_t i = 0; i < 3; ++i)
      ++edges[{t[i], t[(i + 1) % 3]}];
  for (const auto& [edge, count] : edges)
    if (count != 1 || !edges.contains({edge.second, edge.first}))
      return false;
  return true;
}

double volume(const TriangleMesh& mesh) {
  double sum = 0;
  for (const auto& t : mesh.triangles) {
    const Point &a = mesh.points[std::size_t(t[0])], &b = mesh.points[std::size_t(t[1])],
                &c = mesh.points[std::size_t(t[2])];
    sum += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) +
            a[2] * (b[0] * c[1] - b[1] * c[0])) /
           6;
  }
  return sum;
}

} // namespace

TEST_CASE("A lengthened body is closed and larger by its end faces times the length") {
  const TriangleMesh box = lengthened(made_surfaces::box({0, 0, 0}, {0.03, 0.02, 0.01}), 0.004);
  CHECK(closed(box));
  CHECK(volume(box) == Approx(0.038 * 0.02 * 0.01));
  const TriangleMesh cone = made_surfaces::tapered_cone({}, 10, 4);
  const TriangleMesh longer = lengthened(cone, 0.005);
  CHECK(closed(longer));
  // The rounded corners of the ends have four points each: three steps of 30 degrees leave 3/4 of a squared radius,
  // so four corners take away just one squared radius.
  const double ends = 0.09 * 0.11 - 0.02 * 0.02 + 0.15 * 0.19 - 0.03 * 0.03;
  CHECK(volume(longer) - volume(cone) == Approx(0.005 * ends).epsilon(1e-9));
}

TEST_CASE("A pointed or rounded end has no face to push out") {
  const TriangleMesh ball = made_surfaces::sphere(0.01, 10);
  CHECK(volume(lengthened(ball, 0.002)) == Approx(volume(ball)));
}

TEST_CASE("With a lengthened surface the skin stands around only, and the lattice runs from end to end") {
  TrimOptions options;
  options.inset = 1e-3;
  options.skin = true;
  options.first_station = 0;
  options.last_station = 0.03;
  const auto report =
      fill_with_struts(shipped("octet"), placed(0.005), constant(0.6e-3),
                       lengthened(made_surfaces::box({0, 0, 0}, {0.03, 0.022, 0.012}), 0.003), options)
          .report;
  CHECK(report.room == Approx(0.03 * 0.02 * 0.01).epsilon(1e-3));
  CHECK_THROWS_AS(lengthened({}, 0.003), OutOfDomain);
}
