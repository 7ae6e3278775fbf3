#include "crushwright/column_check.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {
namespace {

using Place = std::array<double, 2>;
using Loop = std::vector<Place>;

/// Integrals over the area inside loops, about a place; by Bending.
struct AreaIntegrals {
  double area = 0;
  std::array<double, 2> second{0, 0};   ///< of the square of the distance [m^4]
  std::array<double, 2> absolute{0, 0}; ///< of the distance's size [m^3]
};

double mean_cube(double a, double b) {
  return (a + b) * (a * a + b * b) / 4;
}

/// Mean of x |x| on a straight line from a to b.
double mean_signed_square(double a, double b) {
  if (a >= 0 && b >= 0)
    return (a * a + a * b + b * b) / 3;
  if (a <= 0 && b <= 0)
    return -(a * a + a * b + b * b) / 3;
  return (std::abs(b * b * b) - std::abs(a * a * a)) / (3 * (b - a));
}

/// Green's theorem, edge by edge: exact for polygons; loops that go clockwise are holes.
AreaIntegrals integrals(const std::vector<Loop>& loops, const Place& about) {
  AreaIntegrals sum;
  for (const Loop& loop : loops) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Place& from = loop[i];
      const Place& to = loop[(i + 1) % loop.size()];
      const double y0 = from[0] - about[0], z0 = from[1] - about[1];
      const double y1 = to[0] - about[0], z1 = to[1] - about[1];
      sum.area += (y0 * z1 - y1 * z0) / 2;
      sum.second[about_vertical] += mean_cube(y0, y1) / 3 * (z1 - z0);
      sum.second[about_lateral] -= mean_cube(z0, z1) / 3 * (y1 - y0);
      sum.absolute[about_vertical] += mean_signed_square(y0, y1) / 2 * (z1 - z0);
      sum.absolute[about_lateral] -= mean_signed_square(z0, z1) / 2 * (y1 - y0);
    }
  }
  return sum;
}

std::vector<Loop> loops_of(const Section& section) {
  if (section.shape == SectionShape::sliced)
    return *section.figure.loops;
  constexpr std::size_t points = 144;
  return {outline(section, points)};
}

std::array<double, 2> farthest(const std::vector<Loop>& loops, const Place& about) {
  std::array<double, 2> depth{0, 0};
  for (const Loop& loop : loops)
    for (const Place& place : loop)
      for (std::size_t k = 0; k < 2; ++k)
        depth[k] = std::max(depth[k], std::abs(place[k] - about[k]));
  return depth;
}

/// Every edge moved to its left by t and cut with its neighbours.
Loop edges_moved(const Loop& loop, double t) {
  Loop moved;
  moved.reserve(loop.size());
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Place& before = loop[(i + loop.size() - 1) % loop.size()];
    const Place& at = loop[i];
    const Place& after = loop[(i + 1) % loop.size()];
    const double in = std::hypot(at[0] - before[0], at[1] - before[1]);
    const double out = std::hypot(after[0] - at[0], after[1] - at[1]);
    const Place n0{-(at[1] - before[1]) / in, (at[0] - before[0]) / in};
    const Place n1{-(after[1] - at[1]) / out, (after[0] - at[0]) / out};
    const double stretch = t / (1 + n0[0] * n1[0] + n0[1] * n1[1]);
    moved.push_back({at[0] + stretch * (n0[0] + n1[0]), at[1] + stretch * (n0[1] + n1[1])});
  }
  return moved;
}

/// Shrunk in y and z by what the skin takes of the extents: for loops whose edges get lost on the way inwards.
std::vector<Loop> shrunk(std::vector<Loop> loops, const Place& about, const std::array<double, 2>& depth, double t) {
  for (Loop& loop : loops)
    for (Place& place : loop)
      for (std::size_t k = 0; k < 2; ++k)
        place[k] = about[k] + (place[k] - about[k]) * std::max(0.0, 1 - t / depth[k]);
  return loops;
}

/// The same figure at the area that the estimate's masses and forces are made with.
AreaIntegrals at_area(AreaIntegrals figure, double area) {
  const double scale = std::sqrt(area / figure.area);
  for (std::size_t k = 0; k < 2; ++k) {
    figure.second[k] *= std::pow(scale, 4);
    figure.absolute[k] *= std::pow(scale, 3);
  }
  figure.area = area;
  return figure;
}

AreaIntegrals inner_integrals(const Section& section, const std::vector<Loop>& loops, const Place& about,
                              const std::array<double, 2>& depth, double thickness, double area) {
  if (section.shape == SectionShape::rounded_rectangle || section.shape == SectionShape::rectangle) {
    Section inner = section;
    inner.width -= 2 * thickness;
    inner.height -= 2 * thickness;
    inner.corner_radius = std::max(0.0, section.corner_radius - thickness);
    return at_area(integrals(loops_of(inner), about), area);
  }
  std::vector<Loop> moved;
  for (const Loop& loop : loops)
    moved.push_back(edges_moved(loop, thickness));
  const AreaIntegrals offset = integrals(moved, about);
  constexpr double same = 0.01;
  if (std::abs(offset.area - area) <= same * area)
    return at_area(offset, area);
  return at_area(integrals(shrunk(loops, about, depth, thickness), about), area);
}

} // namespace

BeamSection beam_section(const Section& section, double skin_thickness) {
  if (!(skin_thickness >= 0))
    throw OutOfDomain(fmt::format("the thickness of a skin must not be negative, but is {:g} m", skin_thickness));
  const SectionProperties properties = properties_of(section);
  const std::vector<Loop> loops = loops_of(section);
  BeamSection beam;
  beam.station = section.station;
  beam.skin_thickness = skin_thickness;
  beam.centroid = centroid_of(section);
  beam.half_depth = farthest(loops, beam.centroid);
  const AreaIntegrals whole = at_area(integrals(loops, beam.centroid), properties.area);
  AreaIntegrals inner = whole;
  if (skin_thickness > 0) {
    const double area = area_inside(properties, skin_thickness);
    inner = area > 0 ? inner_integrals(section, loops, beam.centroid, beam.half_depth, skin_thickness, area)
                     : AreaIntegrals{};
  }
  beam.lattice_area = inner.area;
  beam.skin_area = whole.area - inner.area;
  for (std::size_t k = 0; k < 2; ++k) {
    beam.lattice_second_moment[k] = inner.second[k];
    beam.skin_second_moment[k] = std::max(0.0, whole.second[k] - inner.second[k]);
    beam.lattice_plastic_modulus[k] = inner.absolute[k];
    beam.skin_plastic_modulus[k] = std::max(0.0, whole.absolute[k] - inner.absolute[k]);
  }
  return beam;
}

} // namespace crushwright
