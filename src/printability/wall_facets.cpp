#include "printability/wall_facets.hpp"

#include "crushwright/errors.hpp"
#include "printability/level_triangles.hpp"
#include "printability/periodic_clusters.hpp"
#include "unit_cell/honeycomb_walls.hpp"
#include "unit_cell/skeletal_level.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <limits>
#include <map>
#include <mutex>
#include <numbers>

namespace crushwright {
namespace {

constexpr int cubes_along_edge = 32;
/// Angles that differ by rounding alone are equal: a wall at 45 degrees stands where 45 degrees stand.
constexpr double same_cosine = 1e-9;

bool hangs_over(const CellFacets& facets, const Facet& facet, const Vector& direction, double self_supporting_angle) {
  const double area = norm(facet.area);
  const double upward = dot(facet.area, direction);
  const double facing_down = facets.two_sided ? std::abs(upward) : -upward;
  return facing_down > area * (std::cos(self_supporting_angle) + same_cosine);
}

std::shared_ptr<const CellFacets> surface_facets(const UnitCell& cell, double size_ratio) {
  const SheetSurface surface = sheet_surface(cell.surface);
  const bool sheet = cell.cell_class == CellClass::sheet;
  const double level = sheet ? 0 : level_of_neck(surface, size_ratio);
  static std::mutex guard;
  static std::map<std::pair<int, double>, std::shared_ptr<const CellFacets>> known;
  const std::pair<int, double> key{2 * static_cast<int>(surface) + (sheet ? 1 : 0), level};
  const std::lock_guard<std::mutex> lock(guard);
  std::shared_ptr<const CellFacets>& facets = known[key];
  if (!facets)
    facets = std::make_shared<CellFacets>(CellFacets{sheet, level_triangles(surface, level, cubes_along_edge), {}});
  return facets;
}

/// Narrowest width of a flat convex polygon.
double narrowest_width(const std::vector<std::array<double, 3>>& corners, const Vector& unit_normal) {
  double narrowest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Vector edge = minus(corners[(i + 1) % corners.size()], corners[i]);
    const Vector inward = cross(unit_normal, scaled(edge, 1 / norm(edge)));
    double farthest = 0;
    for (const auto& corner : corners)
      farthest = std::max(farthest, std::abs(dot(inward, minus(corner, corners[i]))));
    narrowest = std::min(narrowest, farthest);
  }
  return narrowest;
}

CellFacets plate_facets(const std::vector<Plate>& plates) {
  CellFacets facets;
  for (const Plate& plate : plates) {
    Facet facet{{0, 0, 0}, plate.corners.front()};
    for (std::size_t i = 1; i + 1 < plate.corners.size(); ++i) {
      const Vector part = area_vector(plate.corners[0], plate.corners[i], plate.corners[i + 1]);
      for (std::size_t k = 0; k < 3; ++k)
        facet.area[k] += part[k];
    }
    facets.flat_width.push_back(narrowest_width(plate.corners, scaled(facet.area, 1 / norm(facet.area))));
    facets.facets.push_back(facet);
  }
  return facets;
}

/// The three walls that meet in a corner of the hexagons, one cell edge of tube.
CellFacets honeycomb_facets(const UnitCell& cell) {
  const double side = honeycomb_form(cell.nominal_density_coefficients.front()).side;
  CellFacets facets;
  for (const int turn : {0, 1, 2}) {
    // Walls along y are the ones that a doubled honeycomb has doubled; their normal is x.
    const double angle = turn * std::numbers::pi / 3;
    facets.facets.push_back({{side * std::cos(angle), side * std::sin(angle), 0}, {0, 0, 0}});
    facets.flat_width.push_back(side);
  }
  return facets;
}

CellFacets solid_facets(const TriangleMesh& mesh) {
  CellFacets facets;
  facets.two_sided = false;
  constexpr double on_face = 1e-9;
  for (const auto& triangle : mesh.triangles) {
    std::array<Vector, 3> corners;
    for (std::size_t i = 0; i < 3; ++i)
      corners[i] = mesh.points[static_cast<std::size_t>(triangle[i])];
    bool cell_face = false;
    for (std::size_t axis = 0; axis < 3; ++axis)
      for (const double place : {0.0, 1.0})
        cell_face = cell_face || std::all_of(corners.begin(), corners.end(), [&](const Vector& corner) {
                      return std::abs(corner[axis] - place) < on_face;
                    });
    if (cell_face)
      continue;
    Facet facet{area_vector(corners[0], corners[1], corners[2]), {}};
    for (std::size_t i = 0; i < 3; ++i)
      facet.centre[i] = (corners[0][i] + corners[1][i] + corners[2][i]) / 3;
    facets.facets.push_back(facet);
  }
  return facets;
}

} // namespace

std::shared_ptr<const CellFacets> cell_facets(const UnitCell& cell, double size_ratio) {
  switch (cell.cell_class) {
  case CellClass::sheet:
  case CellClass::skeletal:
    return surface_facets(cell, size_ratio);
  case CellClass::plate:
    return std::make_shared<CellFacets>(plate_facets(cell.plates));
  case CellClass::honeycomb:
    return std::make_shared<CellFacets>(honeycomb_facets(cell));
  case CellClass::solid:
    return std::make_shared<CellFacets>(solid_facets(*cell.mesh));
  case CellClass::strut:
  case CellClass::foam:
    break;
  }
  throw OutOfDomain(fmt::format("the cell '{}' has no walls", cell.id));
}

FacetArea overhanging_area(const CellFacets& facets, const Vector& direction, double self_supporting_angle) {
  FacetArea area;
  for (const Facet& facet : facets.facets) {
    const double one = norm(facet.area);
    area.whole += one;
    if (hangs_over(facets, facet, direction, self_supporting_angle))
      area.overhanging += one;
  }
  return area;
}

namespace {

/// Overhanging facets by the box of a coarse periodic grid that holds them, joined into patches.
class CeilingPatches {
public:
  CeilingPatches() : clusters_(boxes * boxes * boxes), filled_(boxes * boxes * boxes, 0) {}

  void add(const Vector& centre) { filled_[box_of(centre)] = 1; }

  void join_neighbours() {
    for (std::size_t box = 0; box < filled_.size(); ++box)
      if (filled_[box] != 0)
        for (int i = -1; i <= 1; ++i)
          for (int j = -1; j <= 1; ++j)
            for (int k = -1; k <= 1; ++k)
              join(box, {i, j, k});
  }

  /// Root of a facet's patch and the facet's place in the copies that hang together.
  std::pair<std::size_t, Vector> patch_of(const Vector& centre) {
    const PeriodicClusters::Root root = clusters_.root_of(box_of(centre));
    // The root lies `shift` cells away from this place, so this place lies as far the other way from the root's cell.
    return {root.place, {centre[0] - root.shift[0], centre[1] - root.shift[1], centre[2] - root.shift[2]}};
  }

  bool is_endless(std::size_t root) const { return clusters_.ways_on(root) > 0; }

private:
  static constexpr std::size_t boxes = 16;
  PeriodicClusters clusters_;
  std::vector<char> filled_;

  static int place(double coordinate) {
    return std::clamp(static_cast<int>(coordinate * boxes), 0, static_cast<int>(boxes) - 1);
  }
  static std::size_t index(const std::array<int, 3>& at) {
    return (static_cast<std::size_t>(at[2]) * boxes + static_cast<std::size_t>(at[1])) * boxes +
           static_cast<std::size_t>(at[0]);
  }
  static std::size_t box_of(const Vector& centre) {
    return index({place(centre[0]), place(centre[1]), place(centre[2])});
  }

  void join(std::size_t box, const std::array<int, 3>& step) {
    constexpr int count = static_cast<int>(boxes);
    std::array<int, 3> at{static_cast<int>(box % boxes), static_cast<int>(box / boxes % boxes),
                          static_cast<int>(box / (boxes * boxes))};
    PeriodicClusters::Shift shift{0, 0, 0};
    for (std::size_t i = 0; i < 3; ++i) {
      at[i] += step[i];
      shift[i] = at[i] < 0 ? -1 : at[i] >= count ? 1 : 0;
      at[i] -= count * shift[i];
    }
    if (filled_[index(at)] != 0)
      clusters_.join(box, index(at), shift);
  }
};

/// Extents of a patch along a fan of horizontal directions.
struct Extents {
  static constexpr std::size_t fan = 12;
  std::array<double, fan> low, high;
  Extents() {
    low.fill(std::numeric_limits<double>::infinity());
    high.fill(-std::numeric_limits<double>::infinity());
  }
  void add(const Vector& place, const std::array<Vector, 2>& horizontal) {
    for (std::size_t i = 0; i < fan; ++i) {
      const double angle = std::numbers::pi * static_cast<double>(i) / fan;
      const double along = std::cos(angle) * dot(place, horizontal[0]) + std::sin(angle) * dot(place, horizontal[1]);
      low[i] = std::min(low[i], along);
      high[i] = std::max(high[i], along);
    }
  }
  double narrowest() const {
    double narrowest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < fan; ++i)
      narrowest = std::min(narrowest, high[i] - low[i]);
    return narrowest;
  }
};

} // namespace

double widest_ceiling(const CellFacets& facets, const Vector& direction, double self_supporting_angle) {
  const auto hangs = [&](const Facet& facet) { return hangs_over(facets, facet, direction, self_supporting_angle); };
  double widest = 0;
  for (std::size_t i = 0; i < facets.flat_width.size(); ++i)
    if (hangs(facets.facets[i]))
      widest = std::max(widest, facets.flat_width[i]);
  if (!facets.flat_width.empty())
    return widest;
  CeilingPatches patches;
  for (const Facet& facet : facets.facets)
    if (hangs(facet))
      patches.add(facet.centre);
  patches.join_neighbours();
  std::map<std::size_t, Extents> extents;
  const std::array<Vector, 2> horizontal = across(direction);
  for (const Facet& facet : facets.facets)
    if (hangs(facet)) {
      const auto [root, place] = patches.patch_of(facet.centre);
      extents[root].add(place, horizontal);
    }
  for (const auto& [root, patch] : extents)
    widest = std::max(widest, patches.is_endless(root) ? 1.0 : patch.narrowest());
  return widest;
}

} // namespace crushwright
