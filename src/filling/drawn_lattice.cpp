#include "filling/drawn_lattice.hpp"

#include "crushwright/errors.hpp"
#include "lattice_body/lattice_field.hpp"
#include "surface/surface_probe.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>

#include <tbb/parallel_for.h>

namespace crushwright {
namespace {

using Place = std::array<double, 3>;

/// Stations between the end plates.
struct Stations {
  double first, last;
};

Stations stations_of(const FilledStructure& filled) {
  return {filled.tip_plate, filled.length - filled.root_plate};
}

/// What one run of samples found.
struct Tally {
  std::int64_t in_room = 0, in_metal = 0;
  double density = 0;
  double smallest = 1e300;
};

/// Samples by the additive recurrence of the root of x^4 = x + 1, which fills a box evenly however many are taken.
Place spread(std::size_t index) {
  constexpr double root = 1.2207440846057596;
  const double step = static_cast<double>(index) + 0.5;
  Place place{};
  double part = 1;
  for (double& coordinate : place) {
    part /= root;
    coordinate = std::fmod(0.5 + part * step, 1.0);
  }
  return place;
}

} // namespace

TriangleMesh cutting_surface(const FilledStructure& filled) {
  return filled.skin_thickness > 0 ? lengthened(filled.outer, 2 * filled.skin_thickness) : filled.outer;
}

LatticeSolid drawn_lattice(const FilledStructure& filled, bool with_skin) {
  LatticeSolid solid;
  solid.cell = filled.cell;
  solid.placement = filled.placement;
  solid.size = filled.size;
  const SurfaceBounds bounds = bounds_of(filled.outer);
  solid.box = {bounds.low, bounds.high};
  const auto [first, last] = stations_of(filled);
  solid.box.low[0] = std::max(solid.box.low[0], first);
  solid.box.high[0] = std::min(solid.box.high[0], last);
  // Drawn out, so that the box and not the surface ends lattice and skin, and neither lies in the other's face.
  const double beyond = 2 * filled.skin_thickness + 0.02 * filled.length;
  const auto probe = std::make_shared<SurfaceProbe>(lengthened(filled.outer, beyond));
  solid.flat_ends = true;
  solid.outer = [probe](const Place& point) { return probe->signed_distance(point); };
  solid.inset = filled.skin_thickness;
  solid.with_skin = with_skin;
  return solid;
}

WallFill sampled_fill(const FilledStructure& filled, std::size_t samples) {
  const LatticeSolid solid = drawn_lattice(filled);
  const FieldAt metal = lattice_field(filled.cell, filled.placement, filled.size);
  constexpr std::size_t run = 4096;
  std::vector<Tally> tallies((samples + run - 1) / run);
  tbb::parallel_for(std::size_t{0}, tallies.size(), [&](std::size_t slot) {
    Tally& tally = tallies[slot];
    for (std::size_t i = slot * run; i < std::min(samples, (slot + 1) * run); ++i) {
      Place point = spread(i);
      for (std::size_t axis = 0; axis < 3; ++axis)
        point[axis] = solid.box.low[axis] + (solid.box.high[axis] - solid.box.low[axis]) * point[axis];
      if (solid.outer(point) > -solid.inset)
        continue;
      const double size = filled.size(point);
      ++tally.in_room;
      tally.in_metal += metal(point) < 0 ? 1 : 0;
      tally.density += relative_density(filled.cell, size / filled.placement.cell_edge);
      tally.smallest = std::min(tally.smallest, size);
    }
  });
  Tally all;
  for (const Tally& tally : tallies) {
    all.in_room += tally.in_room;
    all.in_metal += tally.in_metal;
    all.density += tally.density;
    all.smallest = std::min(all.smallest, tally.smallest);
  }
  if (all.in_room == 0)
    throw OutOfDomain("skin and end plates leave no room for a lattice");
  double each = 1 / static_cast<double>(samples);
  for (std::size_t axis = 0; axis < 3; ++axis)
    each *= solid.box.high[axis] - solid.box.low[axis];
  const double part = static_cast<double>(all.in_metal) / static_cast<double>(all.in_room);
  WallFill fill;
  fill.room = each * static_cast<double>(all.in_room);
  fill.metal.value = each * static_cast<double>(all.in_metal);
  // That of samples thrown at random; spread evenly they do better.
  fill.metal.error = fill.room * std::sqrt(part * (1 - part) / static_cast<double>(all.in_room));
  fill.estimated = each * all.density;
  fill.cells = fill.room / std::pow(filled.placement.cell_edge, 3);
  fill.smallest = all.smallest;
  return fill;
}

} // namespace crushwright
