#include "printability/void_passage.hpp"

#include "crushwright/errors.hpp"
#include "printability/periodic_clusters.hpp"
#include "unit_cell/boundary_distance.hpp"
#include "unit_cell/cell_solid.hpp"
#include "unit_cell/plate_pieces.hpp"
#include "unit_cell/skeletal_level.hpp"
#include "unit_cell/strut_axis.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <functional>
#include <limits>
#include <map>
#include <mutex>
#include <numeric>
#include <tbb/parallel_for.h>

namespace crushwright {
namespace {

/// A pocket counts as a void of its own when a ball larger by this fits inside it [cell edges].
constexpr double pocket_depth = 0.05;
/// Farther from a skeleton than this a place need not know how far: no window of a cell is wider.
constexpr double farthest = 0.75;

/// Nodes of the grid and their neighbours through faces, edges and corners, in the next cell where they lie there.
class NodeGrid {
public:
  explicit NodeGrid(std::size_t n) : n_(static_cast<int>(n)) {}

  template <class Visit>
  void visit_neighbours(std::size_t node, const Visit& visit) const {
    const int x = static_cast<int>(node) % n_, y = static_cast<int>(node) / n_ % n_,
              z = static_cast<int>(node) / (n_ * n_);
    for (int k = -1; k <= 1; ++k)
      for (int j = -1; j <= 1; ++j)
        for (int i = -1; i <= 1; ++i)
          if (i != 0 || j != 0 || k != 0) {
            const PeriodicClusters::Shift shift{cell_of(x + i), cell_of(y + j), cell_of(z + k)};
            visit(index(x + i - n_ * shift[0], y + j - n_ * shift[1], z + k - n_ * shift[2]), shift);
          }
  }

private:
  int n_;
  int cell_of(int place) const { return place < 0 ? -1 : place >= n_ ? 1 : 0; }
  std::size_t index(int x, int y, int z) const { return static_cast<std::size_t>((z * n_ + y) * n_ + x); }
};

/// Void clusters while the distance falls.
struct FallingLevel {
  PeriodicClusters clusters;
  std::vector<double> top;       ///< largest distance in a root's cluster
  std::vector<double> open_from; ///< distance at which a root's cluster became open; 0: not yet
  double tightest = std::numeric_limits<double>::infinity();

  explicit FallingLevel(std::size_t nodes) : clusters(nodes), top(nodes, 0), open_from(nodes, 0) {}

  void join(std::size_t node, std::size_t other, const PeriodicClusters::Shift& shift, double level) {
    const std::size_t a = clusters.root_of(node).place, b = clusters.root_of(other).place;
    clusters.join(node, other, shift);
    const std::size_t root = clusters.root_of(node).place;
    if (a != b) {
      const std::size_t closed = open_from[a] > 0 ? b : a;
      // A void that was closed so far has found the way out through this place.
      if ((open_from[a] > 0) != (open_from[b] > 0) && top[closed] - level > pocket_depth)
        tightest = std::min(tightest, level);
      top[root] = std::max(top[a], top[b]);
      open_from[root] = std::max(open_from[a], open_from[b]);
    }
    if (open_from[root] == 0 && clusters.ways_on(root) > 0) {
      open_from[root] = level;
      tightest = std::min(tightest, level);
    }
  }
};

} // namespace

VoidPassage void_passage(const std::vector<double>& distance, std::size_t n) {
  const double hidden_wall = 0.5 * std::sqrt(3.0) / static_cast<double>(n);
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < distance.size(); ++i)
    if (distance[i] > hidden_wall)
      order.push_back(i);
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return distance[a] != distance[b] ? distance[a] > distance[b] : a < b;
  });
  const NodeGrid grid(n);
  FallingLevel level(distance.size());
  std::vector<char> reached(distance.size(), 0);
  for (const std::size_t node : order) {
    reached[node] = 1;
    level.top[node] = distance[node];
    grid.visit_neighbours(node, [&](std::size_t other, const PeriodicClusters::Shift& shift) {
      if (reached[other] != 0)
        level.join(node, other, shift, distance[node]);
    });
  }
  for (const std::size_t node : order) {
    const std::size_t root = level.clusters.root_of(node).place;
    if (root == node && level.open_from[root] == 0 && level.top[root] > hidden_wall + pocket_depth)
      return {true, 0};
  }
  return order.empty() ? VoidPassage{true, 0} : VoidPassage{false, level.tightest};
}

namespace {

using DistanceAt = std::function<double(const CellPoint&)>;

template <class Piece>
DistanceAt nearest_of(std::vector<Piece> pieces) {
  return [pieces = std::move(pieces)](const CellPoint& point) {
    const Eigen::Vector3d p(point.data());
    double nearest = farthest;
    for (const Piece& piece : pieces)
      nearest = std::min(nearest, piece.distance(p));
    return nearest;
  };
}

/// Distance to the cell's skeleton, or to the metal itself where there is no skeleton that the size grows from.
DistanceAt distance_of(const UnitCell& cell, double size_ratio) {
  switch (cell.cell_class) {
  case CellClass::strut:
    return nearest_of(strut_axes(CellSkeleton::of_struts(cell.struts).copies_within(farthest), 0));
  case CellClass::plate:
    return nearest_of(plate_pieces(cell.plates, 1e-6, farthest));
  case CellClass::sheet: {
    const SheetSurface surface = sheet_surface(cell.surface);
    return [surface](const CellPoint& point) { return distance_to_level(surface, 0, point); };
  }
  case CellClass::skeletal: {
    const SheetSurface surface = sheet_surface(cell.surface);
    const double level = level_of_neck(surface, size_ratio);
    return [surface, level](const CellPoint& point) {
      return surface_value(surface, point) > level ? 0 : distance_to_level(surface, level, point);
    };
  }
  case CellClass::solid:
  case CellClass::honeycomb:
  case CellClass::foam:
    break;
  }
  throw OutOfDomain(fmt::format("no passage through the void of the cell '{}' can be computed", cell.id));
}

std::vector<double> sampled(const DistanceAt& distance, std::size_t n) {
  std::vector<double> field(n * n * n);
  // Each layer writes its own slots.
  tbb::parallel_for(std::size_t{0}, n, [&](std::size_t z) {
    for (std::size_t y = 0; y < n; ++y)
      for (std::size_t x = 0; x < n; ++x) {
        const double step = 1.0 / static_cast<double>(n);
        field[(z * n + y) * n + x] =
            distance({static_cast<double>(x) * step, static_cast<double>(y) * step, static_cast<double>(z) * step});
      }
  });
  return field;
}

/// A solid's own boundary; its grid lies at the centres of the grid cells, and its distances are known up to 0.1.
std::vector<double> sampled_solid(const UnitCell& cell, std::size_t n) {
  const std::vector<float> field = boundary_distance(cell, 1, static_cast<int>(n));
  return {field.begin(), field.end()};
}

bool grows_from_skeleton(const UnitCell& cell) {
  return cell.cell_class == CellClass::strut || cell.cell_class == CellClass::sheet ||
         cell.cell_class == CellClass::plate;
}

/// All that the passage of a cell depends on, as numbers.
std::vector<double> geometry_key(const UnitCell& cell, double size_ratio, std::size_t nodes) {
  std::vector<double> key{static_cast<double>(cell.cell_class), static_cast<double>(nodes),
                          grows_from_skeleton(cell) ? 0 : size_ratio};
  const auto add = [&](const std::array<double, 3>& point) { key.insert(key.end(), point.begin(), point.end()); };
  for (const Strut& strut : cell.struts) {
    add(strut.from);
    add(strut.to);
  }
  for (const Plate& plate : cell.plates) {
    key.push_back(static_cast<double>(plate.corners.size()));
    for (const auto& corner : plate.corners)
      add(corner);
  }
  for (const char letter : cell.surface)
    key.push_back(letter);
  if (cell.mesh)
    for (const auto& point : cell.mesh->points)
      add(point);
  return key;
}

VoidPassage computed_passage(const UnitCell& cell, double size_ratio, std::size_t nodes) {
  return cell.cell_class == CellClass::solid ? void_passage(sampled_solid(cell, nodes), nodes)
                                             : void_passage(sampled(distance_of(cell, size_ratio), nodes), nodes);
}

} // namespace

VoidPassage void_passage(const UnitCell& cell, double size_ratio, std::size_t nodes) {
  static std::mutex guard;
  static std::map<std::vector<double>, VoidPassage> known;
  const std::vector<double> key = geometry_key(cell, size_ratio, nodes);
  VoidPassage passage;
  bool found = false;
  {
    const std::lock_guard<std::mutex> lock(guard);
    const auto place = known.find(key);
    found = place != known.end();
    if (found)
      passage = place->second;
  }
  if (!found) {
    // Computed without the lock: the sampling runs other tasks on this thread, and one of those may come here too.
    passage = computed_passage(cell, size_ratio, nodes);
    const std::lock_guard<std::mutex> lock(guard);
    known.emplace(key, passage);
  }
  if (grows_from_skeleton(cell) && !passage.closed)
    passage.radius = std::max(0.0, passage.radius - 0.5 * size_ratio);
  if (passage.radius <= 0)
    passage.closed = true;
  return passage;
}

} // namespace crushwright
