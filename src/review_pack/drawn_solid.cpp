#include "crushwright/errors.hpp"
#include "review_pack/cell_raster.hpp"
#include "unit_cell/boundary_distance.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::size_t sample_at(const DrawnSolid& solid, const std::array<int, 3>& place) {
  const auto wrapped = [&](std::size_t axis) { return static_cast<std::size_t>(place[axis] % solid.cells[axis]); };
  return (wrapped(2) * static_cast<std::size_t>(solid.cells[1]) + wrapped(1)) *
             static_cast<std::size_t>(solid.cells[0]) +
         wrapped(0);
}

/// Samples of metal in one plane across an axis.
int metal_in_plane(const DrawnSolid& solid, std::size_t axis, int plane) {
  const std::size_t second = (axis + 1) % 3, third = (axis + 2) % 3;
  int metal = 0;
  std::array<int, 3> place{};
  place[axis] = plane;
  for (place[second] = 0; place[second] < solid.cells[second]; ++place[second]) {
    for (place[third] = 0; place[third] < solid.cells[third]; ++place[third]) {
      metal += solid.distance[sample_at(solid, place)] < 0 ? 1 : 0;
    }
  }
  return metal;
}

/// A box whose faces are plates shows nothing of its inside, so the shown box begins half or a quarter of an edge
/// farther where that leaves less than half the metal in its face.
std::array<int, 3> open_start(const DrawnSolid& solid) {
  std::array<int, 3> start{};
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const int n = solid.cells[axis];
    int least = metal_in_plane(solid, axis, 0) / 2;
    for (const int plane : {n / 2, n / 4}) {
      if (const int metal = metal_in_plane(solid, axis, plane); metal < least) {
        least = metal;
        start[axis] = plane;
      }
    }
  }
  return start;
}

std::vector<float> moved(const DrawnSolid& solid, const std::array<int, 3>& start) {
  std::vector<float> distance;
  distance.reserve(solid.distance.size());
  for (int z = 0; z < solid.cells[2]; ++z) {
    for (int y = 0; y < solid.cells[1]; ++y) {
      for (int x = 0; x < solid.cells[0]; ++x) {
        distance.push_back(solid.distance[sample_at(solid, {x + start[0], y + start[1], z + start[2]})]);
      }
    }
  }
  return distance;
}

/// Whole struts that lie in the box of some cells, its faces included.
std::vector<Strut> struts_of_box(const std::vector<Strut>& struts, int copies) {
  constexpr double close = 1e-9;
  const auto inside = [&](const std::array<double, 3>& point) {
    return std::all_of(point.begin(), point.end(), [&](double x) { return x > -close && x < copies + close; });
  };
  std::vector<Strut> whole;
  for (int x = -1; x <= copies; ++x) {
    for (int y = -1; y <= copies; ++y) {
      for (int z = -1; z <= copies; ++z) {
        for (Strut strut : struts) {
          const double shift[] = {static_cast<double>(x), static_cast<double>(y), static_cast<double>(z)};
          for (std::size_t a = 0; a < 3; ++a) {
            strut.from[a] += shift[a];
            strut.to[a] += shift[a];
          }
          if (inside(strut.from) && inside(strut.to)) {
            whole.push_back(strut);
          }
        }
      }
    }
  }
  return whole;
}

/// The struts of the box as a cell of their own in a larger, otherwise empty box, so that nothing is cut.
DrawnSolid struts_solid(const UnitCell& cell, double size_ratio, int samples, int copies) {
  // Room for the round ends and for the field about them, so that what is left of one box is not felt in the next.
  const double room = 0.5 * size_ratio + 0.12;
  const double edge = copies + 2 * room;
  UnitCell boxed = cell;
  boxed.struts = struts_of_box(cell.struts, copies);
  for (Strut& strut : boxed.struts) {
    for (std::size_t a = 0; a < 3; ++a) {
      strut.from[a] = (strut.from[a] + room) / edge;
      strut.to[a] = (strut.to[a] + room) / edge;
    }
  }
  boxed.size_ratio_range = {0, 1};
  DrawnSolid solid;
  const int n = static_cast<int>(std::lround(samples * edge));
  solid.cells = {n, n, n};
  solid.edges = {edge, edge, edge};
  solid.origin = {-room, -room, -room};
  solid.distance = boundary_distance(boxed, size_ratio / edge, n);
  for (float& distance : solid.distance) {
    distance *= static_cast<float>(edge);
  }
  const double size = copies;
  const double beyond = 0.5 * size_ratio + 1.0 / samples;
  solid.box = {size, size, size};
  solid.low = {-beyond, -beyond, -beyond};
  solid.high = {size + beyond, size + beyond, size + beyond};
  return solid;
}

/// Boxes side by side along each axis. A honeycomb's box holds two hexagons in a row; two such rows show how they
/// join, and as many along the axis as make it look neither flat nor tall.
std::array<int, 3> shown_boxes(const UnitCell& cell, const ViewVector& edges, int copies) {
  if (cell.cell_class != CellClass::honeycomb) {
    return {copies, copies, copies};
  }
  return {2 * copies, copies, copies * std::max(1, static_cast<int>(std::lround(edges[0])))};
}

} // namespace

DrawnSolid drawn_solid(const UnitCell& cell, double size_ratio, int samples, int copies) {
  if (cell.cell_class == CellClass::foam) {
    throw OutOfDomain(fmt::format("cell {}: a foam is stated by its density and has no shape to draw", cell.id));
  }
  if (samples < 8) {
    throw OutOfDomain(fmt::format("a cell is drawn from at least 8 samples along its edge, not {}", samples));
  }
  // The cell's own range and form are checked here, as a box of its struts has none.
  solid_body(cell, size_ratio);
  if (cell.cell_class == CellClass::strut) {
    return struts_solid(cell, size_ratio, samples, copies);
  }
  DrawnSolid solid;
  solid.edges = repeating_box(cell);
  const std::array<int, 3> boxes = shown_boxes(cell, solid.edges, copies);
  for (std::size_t axis = 0; axis < 3; ++axis) {
    solid.cells[axis] = static_cast<int>(std::lround(samples * solid.edges[axis]));
    solid.box[axis] = boxes[axis] * solid.edges[axis];
  }
  solid.high = solid.box;
  if (cell.cell_class == CellClass::honeycomb) {
    solid.cells[2] = 4; // alike all along its axis
  }
  solid.distance = boundary_distance(cell, size_ratio, SampleGrid{solid.cells, solid.edges});
  if (cell.cell_class == CellClass::plate) {
    solid.distance = moved(solid, open_start(solid));
  }
  return solid;
}

} // namespace crushwright
