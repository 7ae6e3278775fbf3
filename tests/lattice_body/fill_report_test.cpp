#include "crushwright/errors.hpp"
#include "lattice_body/trim_samples.hpp"
#include "surface/surface_probe.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace crushwright;
using namespace crushwright::trim_samples;
using std::numbers::pi;

namespace {

struct Counted {
  double all = 0, inside = 0;
};

/// Volume of the struts by filling in the cubes of a fine grid, strut by strut and ball by ball: nothing of the way
/// in which the program finds it.
template <class InRoom>
Counted counted(const StrutBody& body, const InRoom& in_room, double half_width, int n) {
  const double h = 2 * half_width / n;
  std::vector<std::uint8_t> filled(std::size_t(n) * std::size_t(n) * std::size_t(n), 0);
  const auto fill = [&](const Point& a, const Point& b, double r, double s) {
    const double reach = std::max(r, s), length = std::hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
    std::array<int, 3> low{}, high{};
    for (std::size_t k = 0; k < 3; ++k) {
      low[k] = std::max(0, int((std::min(a[k], b[k]) - reach + half_width) / h) - 1);
      high[k] = std::min(n - 1, int((std::max(a[k], b[k]) + reach + half_width) / h) + 1);
    }
    for (int z = low[2]; z <= high[2]; ++z)
      for (int y = low[1]; y <= high[1]; ++y)
        for (int x = low[0]; x <= high[0]; ++x) {
          const Point p{(x + 0.5) * h - half_width, (y + 0.5) * h - half_width, (z + 0.5) * h - half_width};
          double run = 0, squared = 0;
          for (std::size_t k = 0; k < 3; ++k) {
            run += (p[k] - a[k]) * (b[k] - a[k]) / length;
            squared += (p[k] - a[k]) * (p[k] - a[k]);
          }
          const double radius = r + (s - r) * run / length;
          const bool in_bar = run >= 0 && run <= length && squared - run * run <= radius * radius;
          const double to_b = squared - run * run + (run - length) * (run - length);
          if (in_bar || squared <= r * r || to_b <= s * s)
            filled[(std::size_t(z) * std::size_t(n) + std::size_t(y)) * std::size_t(n) + std::size_t(x)] = 1;
        }
  };
  for (const BodyStrut& strut : body.struts)
    fill(body.nodes[std::size_t(strut.from)], body.nodes[std::size_t(strut.to)], strut.from_radius, strut.to_radius);
  Counted volume;
  std::size_t place = 0;
  for (int z = 0; z < n; ++z)
    for (int y = 0; y < n; ++y)
      for (int x = 0; x < n; ++x)
        if (filled[place++]) {
          const Point p{(x + 0.5) * h - half_width, (y + 0.5) * h - half_width, (z + 0.5) * h - half_width};
          volume.all += h * h * h;
          volume.inside += in_room(p) ? h * h * h : 0;
        }
  return volume;
}

} // namespace

TEST_CASE("A box of whole cells holds the catalogue's density times its volume") {
  // Half of every strut in its faces lies inside, as a cell's share does; the other half sticks out. Struts that end
  // free in its edges are kept.
  const TriangleMesh box = made_surfaces::box({0, 0, 0}, {0.04, 0.03, 0.02});
  for (const char* id : {"octet", "bcc", "simple_cubic", "kelvin"}) {
    CAPTURE(id);
    const UnitCell& cell = shipped(id);
    const auto [lattice, report] = fill_with_struts(cell, placed(0.01), constant(1.2e-3), box, everything());
    const double volume = 0.04 * 0.03 * 0.02;
    CHECK(report.room == Approx(volume).epsilon(1e-5));
    CHECK(report.estimated == Approx(relative_density(cell, 0.12) * volume).epsilon(1e-5));
    CHECK(report.metal_inside.error < 1e-3 * report.metal_inside.value);
    CHECK(std::abs(report.metal_inside.value - report.estimated) <
          4 * report.metal_inside.error + cell.density_fit_error * report.estimated);
    CHECK(report.metal.value > report.metal_inside.value);
    CHECK(report.whole_cells == 24);
  }
}

TEST_CASE("The metal of a trimmed and graded body is what a fine grid counts, to 0.2 %") {
  const double radius = 0.011, inset = 0.8e-3;
  const TriangleMesh ball = made_surfaces::sphere(radius, 40);
  const SurfaceProbe probe(ball);
  const SizeAt size = [](const Point& p) { return 0.9e-3 * (1 + 20 * p[0]); };
  for (const auto& [id, ends] : {std::pair{"octet", LooseEnds::keep}, std::pair{"bcc", LooseEnds::tie}}) {
    CAPTURE(id);
    TrimOptions options;
    options.inset = inset;
    options.loose_ends = ends;
    const auto [lattice, report] = fill_with_struts(shipped(id), placed(7e-3, {0.001, 0, 0}), size, ball, options);
    // The mesh lies inside the ball, by less than 0.1 mm; only between is it asked.
    const auto in_room = [&](const Point& p) {
      const double off = std::hypot(p[0], p[1], p[2]);
      return off < radius - inset - 1e-4 || (off <= radius - inset && probe.signed_distance(p) <= -inset);
    };
    const Counted fine = counted(lattice.body, in_room, radius + 1e-3, 300);
    CHECK(report.metal.value == Approx(fine.all).epsilon(2e-3));
    CHECK(report.metal_inside.value == Approx(fine.inside).epsilon(2e-3));
    CHECK(report.metal.error < 5e-4 * report.metal.value);
  }
}

TEST_CASE("The room inside a skin is the ball that is smaller by the skin, or the box") {
  TrimOptions options;
  options.skin = true;
  options.inset = 1.5e-3;
  const auto ball =
      fill_with_struts(shipped("bcc"), placed(6e-3), constant(0.8e-3), made_surfaces::sphere(0.02, 100), options);
  CHECK(ball.report.room == Approx(4 * pi / 3 * std::pow(0.0185, 3)).epsilon(1e-3));
  options.first_station = 5e-3;
  options.last_station = 33e-3;
  const auto box = fill_with_struts(shipped("bcc"), placed(6e-3), constant(0.8e-3),
                                    made_surfaces::box({0, 0, 0}, {0.04, 0.03, 0.02}), options);
  CHECK(box.report.room == Approx(0.028 * 0.027 * 0.017).epsilon(1e-3));
}

TEST_CASE("The parts of the difference add up to it, and without grading there is no part for grading") {
  TrimOptions options;
  options.inset = 1e-3;
  const auto [lattice, report] =
      fill_with_struts(shipped("octet"), placed(5e-3), constant(0.6e-3), made_surfaces::sphere(0.02, 60), options);
  CHECK(report.difference.total() == Approx(report.metal_inside.value - report.estimated));
  CHECK(std::abs(report.difference.grading) < 1e-9 * report.estimated);
  CHECK(report.difference.loose_ends == -lattice.loose.volume);
  CHECK(report.difference.loose_ends < 0);
  CHECK(std::abs(report.difference.method) < 4 * report.metal_inside.error + 1e-3 * report.estimated);
}

TEST_CASE("What grading does in a simple cubic lattice is as integrated by hand") {
  // Bars across the grade lie in the cells' faces, so they stand for the mean over the two faces: for a size d + g x
  // that exceeds the mean over the cell by g² a²/6 in d², and by d g² a²/2 in d³, d at the middle. Bars along it are
  // exact. Three bars cross in a node, with 8√2 r³ in common.
  const double a = 5e-3, g = 0.02, d0 = 0.5e-3;
  const SizeAt size = [=](const Point& p) { return d0 + g * p[0]; };
  const TriangleMesh box = made_surfaces::box({0, 0, 0}, {10 * a, 5 * a, 5 * a});
  const auto report = fill_with_struts(shipped("simple_cubic"), placed(a), size, box, {}).report;
  double expected = 0;
  // The core lies two cells inside the box's faces, behind cells that the boundary touches and their neighbours: six
  // cells in one row.
  for (int i = 2; i < 8; ++i) {
    const double d = d0 + g * a * (i + 0.5);
    expected += pi / 4 * a * 2 * g * g * a * a / 6 - std::sqrt(2.0) * d * g * g * a * a / 2;
  }
  CHECK(report.difference.grading == Approx(expected).epsilon(1e-6));
}

TEST_CASE("In a large body the true mass is the homogenised one but for the cells at the surface") {
  TrimOptions options;
  options.inset = 1e-3;
  options.skin = true;
  const auto report = fill_with_struts(shipped("octet"), placed(4e-3, {0.0013, 0.0007, 0.0004}), constant(0.4e-3),
                                       made_surfaces::sphere(0.04, 60), options)
                          .report;
  CHECK(report.struts > 50000);
  // Bars whose axis just misses the room are not there, and bars cut short next to a node still share its overlap.
  CHECK(std::abs(report.difference.total()) < 0.02 * report.estimated);
  CHECK(std::abs(report.difference.method) < 1e-3 * report.estimated);
  CHECK(report.difference.cut_cells < 0);
}

TEST_CASE("A report counts what the body holds") {
  const SizeAt size = graded_size(0.8e-3, 1.6e-3, 0.03);
  const auto [lattice, report] = fill_with_struts(shipped("bcc"), placed(0.01), size,
                                                  made_surfaces::box({0, 0, 0}, {0.03, 0.02, 0.02}), everything());
  CHECK(report.struts == 8 * 12);
  CHECK(report.nodes == 12 + 4 * 3 * 3);
  CHECK(report.strut_length == Approx(8 * 12 * 0.01 * std::sqrt(0.75)));
  CHECK(report.shortest_strut == Approx(0.01 * std::sqrt(0.75)));
  CHECK(report.smallest_diameter == Approx(0.8e-3));
  CHECK(report.largest_diameter == Approx(1.6e-3));
}

TEST_CASE("A size outside the range of the cell's density is refused") {
  CHECK_THROWS_AS(fill_with_struts(shipped("octet"), placed(0.01), constant(3e-3),
                                   made_surfaces::box({0, 0, 0}, {0.03, 0.02, 0.02}), {}),
                  OutOfDomain);
}
