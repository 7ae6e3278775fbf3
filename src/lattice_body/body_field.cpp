#include "lattice_body/body_field.hpp"

#include "crushwright/errors.hpp"
#include "lattice_body/lattice_field.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace crushwright {

namespace {

/// Of several conditions the nearest boundary counts, and where one decides the sign alone, the others need not be
/// asked; but nearer to its boundary than this they are, because there a value is taken for a distance. A mesher's
/// tolerance, a thousandth of its grid, is far below it.
double margin_of(const LatticeSolid& solid) {
  return 0.01 * solid.placement.cell_edge;
}

/// The lattice between two planes across the crush axis.
FieldAt between_stations(const FieldAt& lattice, double first, double last, double margin) {
  if (first == 0 && last == 0)
    return lattice;
  if (!(last > first))
    throw OutOfDomain(fmt::format("a lattice lies between two stations, not from {:g} to {:g} m", first, last));
  return [=](const std::array<double, 3>& point) {
    const double beyond = std::max(first - point[0], point[0] - last);
    return beyond > margin ? beyond : std::max(beyond, lattice(point));
  };
}

} // namespace

FieldAt body_field(const LatticeSolid& solid) {
  const FieldAt lattice = between_stations(lattice_field(solid.cell, solid.placement, solid.size),
                                           solid.first_station, solid.last_station, margin_of(solid));
  if (!solid.outer) {
    if (solid.with_skin || solid.inset != 0)
      throw OutOfDomain("a skin needs an outer surface");
    return lattice;
  }
  if (!(solid.inset >= 0) || (solid.with_skin && !(solid.inset > 0)))
    throw OutOfDomain(fmt::format("a skin is thicker than 0, not {:g} mm", 1e3 * solid.inset));
  const FieldAt outer = solid.outer;
  const double inset = solid.inset, margin = margin_of(solid);
  if (!solid.with_skin)
    return [=](const std::array<double, 3>& point) {
      // Distances to the surface cost the most; in the gaps of the lattice they decide nothing.
      const double metal = lattice(point);
      return metal > margin ? metal : std::max(metal, outer(point) + inset);
    };
  return [=](const std::array<double, 3>& point) {
    const double depth = outer(point), to_skin = -depth - inset;
    // In the skin, and outside, the lattice decides nothing; its size may not even be defined there.
    return to_skin < -margin ? std::max(depth, to_skin) : std::max(depth, std::min(lattice(point), to_skin));
  };
}

} // namespace crushwright
