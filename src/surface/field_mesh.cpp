#include "surface/field_mesh.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <utility>

namespace crushwright {
namespace {

// A grid cell is cut into six tetrahedra, one for each order in which its axes can be walked from its low to its high
// corner. Every edge then runs from a low corner along one, two or three axes at once, and is named by that corner
// and a mask of axes, 1 to 7; mask 0 names the corner itself. Neighbouring cells agree on the diagonals of their
// faces.
constexpr std::array<std::array<int, 3>, 6> axis_orders{
    {{0, 1, 2}, {1, 2, 0}, {2, 0, 1}, {0, 2, 1}, {2, 1, 0}, {1, 0, 2}}};
constexpr int right_handed_orders = 3; // the first three; the others are mirrored

constexpr double nearest_to_corner = 1e-3; // of an edge: keeps every triangle from shrinking to nothing
constexpr double on_boundary = 1e-3;       // of an edge
constexpr int most_steps = 24;             // enough to halve down to on_boundary with every other step

using Triangle = std::array<std::int32_t, 3>;
using Corner = std::array<int, 3>;

int bit(int mask, std::size_t axis) {
  return mask >> axis & 1;
}

/// What a corner of the grid owns: one bit for each of its edges that the boundary crosses, bit 0 for itself where it
/// is needed in a cap; `before` counts what corners with a lower place own.
class PointNames {
public:
  PointNames(const FieldGrid& grid, const std::vector<float>& samples)
      : grid_(grid), samples_(samples), owned_(samples.size(), 0), before_(samples.size(), 0) {
    tbb::parallel_for(0, grid.corners(2), [&](int z) {
      for (int y = 0; y < grid_.corners(1); ++y)
        for (int x = 0; x < grid_.corners(0); ++x)
          owned_[grid_.index(x, y, z)] = owned_by({x, y, z});
    });
    for (std::size_t place = 0; place < owned_.size(); ++place) {
      before_[place] = static_cast<std::uint32_t>(count_);
      count_ += std::size_t(std::popcount(owned_[place]));
    }
  }
  std::size_t count() const { return count_; }
  std::uint8_t owned(std::size_t place) const { return owned_[place]; }
  std::size_t before(std::size_t place) const { return before_[place]; }
  bool inside(std::size_t place) const { return samples_[place] < 0; }
  float value(std::size_t place) const { return samples_[place]; }

  std::int32_t name(std::size_t place, int mask) const {
    const unsigned lower = owned_[place] & ((1U << mask) - 1U);
    return static_cast<std::int32_t>(before_[place] + std::uint32_t(std::popcount(lower)));
  }

private:
  std::uint8_t owned_by(const Corner& at) const {
    const std::size_t place = grid_.index(at[0], at[1], at[2]);
    bool on_face = false;
    for (std::size_t axis = 0; axis < 3; ++axis)
      on_face = on_face || at[axis] == 0 || at[axis] == grid_.cells[axis];
    unsigned bits = on_face && inside(place) ? 1 : 0;
    for (int mask = 1; mask < 8; ++mask) {
      const Corner end{at[0] + bit(mask, 0), at[1] + bit(mask, 1), at[2] + bit(mask, 2)};
      if (end[0] <= grid_.cells[0] && end[1] <= grid_.cells[1] && end[2] <= grid_.cells[2] &&
          inside(place) != inside(grid_.index(end[0], end[1], end[2])))
        bits |= 1U << mask;
    }
    return static_cast<std::uint8_t>(bits);
  }

  const FieldGrid& grid_;
  const std::vector<float>& samples_;
  std::vector<std::uint8_t> owned_;
  std::vector<std::uint32_t> before_;
  std::size_t count_ = 0;
};

/// Where the boundary crosses an edge, as a part of it from `low`: by false position in a bracket, and by halving it
/// where that is slow, so that a kink of the field between the ends, as in the middle of a thin wall, does no harm.
double crossing(const FieldAt& field, const std::array<double, 3>& low, const std::array<double, 3>& high,
                double at_low, double at_high) {
  double from = 0, to = 1, at_from = at_low, at_to = at_high, part = 0.5;
  const double length = std::hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  bool slow = false;
  for (int step = 0; step < most_steps && to - from > on_boundary; ++step) {
    const double width = to - from;
    const double guess = slow ? 0.5 * (from + to) : from + width * at_from / (at_from - at_to);
    part = std::clamp(guess, from + 0.02 * width, to - 0.02 * width);
    const double value = field(
        {low[0] + part * (high[0] - low[0]), low[1] + part * (high[1] - low[1]), low[2] + part * (high[2] - low[2])});
    if (std::abs(value) < on_boundary * length)
      break;
    if ((value < 0) == (at_from < 0)) {
      from = part;
      at_from = value;
    } else {
      to = part;
      at_to = value;
    }
    slow = !slow && to - from > 0.5 * width;
  }
  return std::clamp(part, nearest_to_corner, 1 - nearest_to_corner);
}

std::vector<std::array<double, 3>> points_of(const FieldAt& field, const FieldGrid& grid, const PointNames& names) {
  std::vector<std::array<double, 3>> points(names.count());
  tbb::parallel_for(0, grid.corners(2), [&](int z) {
    for (int y = 0; y < grid.corners(1); ++y)
      for (int x = 0; x < grid.corners(0); ++x) {
        const std::size_t place = grid.index(x, y, z);
        const unsigned owned = names.owned(place);
        if (owned == 0)
          continue;
        const std::array<double, 3> low = grid.corner(x, y, z);
        std::size_t next = names.before(place);
        if ((owned & 1U) != 0)
          points[next++] = low;
        for (int mask = 1; mask < 8; ++mask) {
          if ((owned >> mask & 1U) == 0)
            continue;
          const Corner end{x + bit(mask, 0), y + bit(mask, 1), z + bit(mask, 2)};
          const std::array<double, 3> high = grid.corner(end[0], end[1], end[2]);
          const double part = crossing(field, low, high, double(names.value(place)),
                                       double(names.value(grid.index(end[0], end[1], end[2]))));
          for (std::size_t axis = 0; axis < 3; ++axis)
            // A flat cap stays flat: an edge in a face of the box keeps that coordinate to the last bit.
            points[next][axis] = low[axis] == high[axis] ? low[axis] : low[axis] + part * (high[axis] - low[axis]);
          ++next;
        }
      }
  });
  return points;
}

/// Triangles of one grid cell at a time.
class CellTriangles {
public:
  CellTriangles(const FieldGrid& grid, const PointNames& names, std::vector<Triangle>& triangles)
      : grid_(grid), names_(names), triangles_(triangles) {
    for (int mask = 0; mask < 8; ++mask)
      step_[std::size_t(mask)] = grid.index(bit(mask, 0), bit(mask, 1), bit(mask, 2));
  }

  void add(const Corner& at) {
    base_ = grid_.index(at[0], at[1], at[2]);
    unsigned inside = 0;
    for (int mask = 0; mask < 8; ++mask)
      inside |= names_.inside(base_ + step_[std::size_t(mask)]) ? 1U << mask : 0U;
    if (inside == 0)
      return;
    const bool full = inside == 255;
    for (int order = 0; order < 6; ++order) {
      const auto& axes = axis_orders[std::size_t(order)];
      const int first = 1 << axes[0];
      const std::array<int, 4> tetrahedron{0, first, first | 1 << axes[1], 7};
      const bool mirrored = order >= right_handed_orders;
      if (!full)
        add_patch(tetrahedron, mirrored);
      if (at[std::size_t(axes[2])] == 0)
        add_cap({tetrahedron[0], tetrahedron[2], tetrahedron[1]}, mirrored);
      if (at[std::size_t(axes[0])] == grid_.cells[std::size_t(axes[0])] - 1)
        add_cap({tetrahedron[1], tetrahedron[2], tetrahedron[3]}, mirrored);
    }
  }

private:
  bool inside(int mask) const { return names_.inside(base_ + step_[std::size_t(mask)]); }

  /// Of the crossing between two corners of the cell; one of them lies below the other along every axis.
  std::int32_t between(int one, int other) const {
    return names_.name(base_ + step_[std::size_t(one & other)], one ^ other);
  }
  std::int32_t itself(int mask) const { return names_.name(base_ + step_[std::size_t(mask)], 0); }

  void put(std::int32_t a, std::int32_t b, std::int32_t c, bool mirrored) {
    triangles_.push_back(mirrored ? Triangle{a, c, b} : Triangle{a, b, c});
  }

  void add_patch(const std::array<int, 4>& tetrahedron, bool mirrored) {
    // Corners inside first, in an order that keeps the tetrahedron's hand: `odd` counts the swaps.
    std::array<int, 4> sorted = tetrahedron;
    bool odd = mirrored;
    for (std::size_t pass = 0; pass < 3; ++pass)
      for (std::size_t i = 0; i + 1 < 4; ++i)
        if (!inside(sorted[i]) && inside(sorted[i + 1])) {
          std::swap(sorted[i], sorted[i + 1]);
          odd = !odd;
        }
    const auto [a, b, c, d] = sorted;
    const int count = int(inside(a)) + int(inside(b)) + int(inside(c)) + int(inside(d));
    if (count == 1) {
      put(between(a, b), between(a, c), between(a, d), odd);
    } else if (count == 2) {
      put(between(a, c), between(a, d), between(b, d), odd);
      put(between(a, c), between(b, d), between(b, c), odd);
    } else if (count == 3) {
      put(between(d, a), between(d, b), between(d, c), odd);
    }
  }

  /// The part inside of a triangle that lies in a face of the box.
  void add_cap(std::array<int, 3> face, bool mirrored) {
    const int count = int(inside(face[0])) + int(inside(face[1])) + int(inside(face[2]));
    if (count == 0)
      return;
    // Turned so that the corner that differs from the other two comes first; that keeps its hand.
    while (count < 3 && inside(face[0]) != (count == 1))
      std::rotate(face.begin(), face.begin() + 1, face.end());
    const auto [a, b, c] = face;
    if (count == 3) {
      put(itself(a), itself(b), itself(c), mirrored);
    } else if (count == 1) {
      put(itself(a), between(a, b), between(a, c), mirrored);
    } else if (b < c) { // the same diagonal from both sides of the face
      put(between(a, b), itself(b), between(a, c), mirrored);
      put(itself(b), itself(c), between(a, c), mirrored);
    } else {
      put(between(a, b), itself(b), itself(c), mirrored);
      put(between(a, b), itself(c), between(a, c), mirrored);
    }
  }

  const FieldGrid& grid_;
  const PointNames& names_;
  std::vector<Triangle>& triangles_;
  std::array<std::size_t, 8> step_{};
  std::size_t base_ = 0;
};

std::vector<Triangle> triangles_of(const FieldGrid& grid, const PointNames& names) {
  std::vector<std::vector<Triangle>> layers(std::size_t(grid.cells[2]));
  tbb::parallel_for(0, grid.cells[2], [&](int z) {
    CellTriangles cell(grid, names, layers[std::size_t(z)]);
    for (int y = 0; y < grid.cells[1]; ++y)
      for (int x = 0; x < grid.cells[0]; ++x)
        cell.add({x, y, z});
  });
  std::size_t count = 0;
  for (const auto& layer : layers)
    count += layer.size();
  std::vector<Triangle> triangles;
  triangles.reserve(count);
  for (auto& layer : layers) {
    triangles.insert(triangles.end(), layer.begin(), layer.end());
    layer = {};
  }
  return triangles;
}

void require_grid(const FieldGrid& grid, const FieldMeshLimit& limit) {
  double corners = 1;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    if (grid.cells[axis] < 1 || !(grid.spacing[axis] > 0))
      throw OutOfDomain(
          fmt::format("a body is meshed on at least one grid cell along each axis, of a spacing over 0; "
                      "not on {} cells of {:g}",
                      grid.cells[axis], grid.spacing[axis]));
    corners *= grid.corners(axis);
  }
  if (corners > double(limit.corners))
    throw OutOfDomain(fmt::format("a grid of {:.3g} points is more than the {:.3g} that are allowed: take a spacing "
                                  "of {:.4g} times the present one, or smaller blocks",
                                  corners, double(limit.corners), 1.01 * std::cbrt(corners / double(limit.corners))));
}

} // namespace

double longest_edge(const FieldGrid& grid) {
  return std::hypot(grid.spacing[0], grid.spacing[1], grid.spacing[2]);
}

TriangleMesh mesh_of_field(const FieldAt& field, const FieldGrid& grid, const FieldMeshLimit& limit) {
  require_grid(grid, limit);
  const std::vector<float> samples = field_samples(field, grid);
  const PointNames names(grid, samples);
  const std::size_t expected = 2 * names.count(); // a closed surface has twice as many triangles as points, nearly
  if (expected > limit.triangles)
    throw OutOfDomain(fmt::format("the mesh would hold about {} triangles, more than the {} that are allowed: take a "
                                  "spacing of {:.4g} times the present one, or smaller blocks",
                                  expected, limit.triangles,
                                  1.01 * std::sqrt(double(expected) / double(limit.triangles))));
  TriangleMesh mesh;
  mesh.points = points_of(field, grid, names);
  mesh.triangles = triangles_of(grid, names);
  return mesh;
}

} // namespace crushwright
