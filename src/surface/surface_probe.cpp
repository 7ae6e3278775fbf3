#include "surface/surface_probe.hpp"

#include "surface/segment_meeting.hpp"
#include "surface/wall_tree.hpp"

#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/AABB_triangle_primitive.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Side_of_triangle_mesh.h>
#include <CGAL/Surface_mesh.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <mutex>
#include <optional>

namespace crushwright {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Triangles = std::vector<Kernel::Triangle_3>;
using ListedTriangle = CGAL::AABB_triangle_primitive<Kernel, Triangles::const_iterator>;

/// Side_of_triangle_mesh holds code that would fill a tree from the faces of its mesh. It is given a filled tree here
/// and never runs that code, but it has to compile.
struct Primitive : ListedTriangle {
  using ListedTriangle::ListedTriangle;
  template <class Face, class Mesh, class Places>
  Primitive(const Face&, const Mesh&, const Places&) : ListedTriangle(Triangles::const_iterator{}) {}
};

using Boxes = CGAL::AABB_tree<CGAL::AABB_traits<Kernel, Primitive>>;
using Side = CGAL::Side_of_triangle_mesh<CGAL::Surface_mesh<Kernel::Point_3>, Kernel, CGAL::Default, Boxes>;
using Point = std::array<double, 3>;

constexpr double shortest_part = 1e-9; // of a segment; shorter ones may be rounding and need a closer look

Kernel::Point_3 exact(const Point& point) {
  return {point[0], point[1], point[2]};
}

Point between(const Point& from, const Point& to, double part) {
  Point place{};
  for (std::size_t axis = 0; axis < 3; ++axis)
    place[axis] = from[axis] + part * (to[axis] - from[axis]);
  return place;
}

/// Triangles without area bound nothing, and the predicates do not take them.
Triangles prepared(const TriangleMesh& mesh) {
  Triangles triangles;
  triangles.reserve(mesh.triangles.size());
  for (const auto& triangle : mesh.triangles) {
    const auto corner = [&](std::size_t i) { return exact(mesh.points[std::size_t(triangle[i])]); };
    Kernel::Triangle_3 ready(corner(0), corner(1), corner(2));
    if (!ready.is_degenerate())
      triangles.push_back(ready);
  }
  return triangles;
}

/// What a segment does, when every passage is clear of corners, edges and of other passages.
std::optional<std::vector<Passage>> clear_passages(const std::vector<Meeting>& meetings) {
  std::vector<Passage> passages;
  for (const Meeting& meeting : meetings) {
    if (!meeting.passage)
      return std::nullopt;
    passages.push_back(*meeting.passage);
  }
  std::sort(passages.begin(), passages.end(), [](const Passage& a, const Passage& b) { return a.at < b.at; });
  double last = 0;
  int last_turn = 0;
  for (const Passage& passage : passages) {
    if (passage.at - last < shortest_part || passage.turn == last_turn)
      return std::nullopt;
    last = passage.at;
    last_turn = passage.turn;
  }
  if (1 - last < shortest_part)
    return std::nullopt;
  return passages;
}

} // namespace

struct SurfaceProbe::Tree {
  Triangles triangles;
  Boxes boxes;
  std::unique_ptr<Side> side;
  double on_surface = 0; ///< rounding of a coordinate, with room
  mutable std::once_flag walls_made;
  mutable std::unique_ptr<WallTree> walls;

  explicit Tree(const TriangleMesh& mesh) : triangles(prepared(mesh)) {
    boxes.insert(triangles.cbegin(), triangles.cend());
    if (triangles.empty())
      return;
    boxes.build();
    side = std::make_unique<Side>(boxes);
    for (const Point& point : mesh.points)
      for (double coordinate : point)
        on_surface = std::max(on_surface, 1e-12 * std::abs(coordinate));
  }

  /// Made when first asked for: many users want no distances.
  double distance(const Point& point) const {
    std::call_once(walls_made, [this] {
      std::vector<std::array<Point, 3>> corners;
      corners.reserve(triangles.size());
      for (const auto& triangle : triangles) {
        std::array<Point, 3> own{};
        for (std::size_t i = 0; i < 3; ++i)
          own[i] = {triangle[int(i)].x(), triangle[int(i)].y(), triangle[int(i)].z()};
        corners.push_back(own);
      }
      walls = std::make_unique<WallTree>(corners);
    });
    return walls->distance(point);
  }

  bool inside(const Point& point) const { return side && (*side)(exact(point)) != CGAL::ON_UNBOUNDED_SIDE; }

  std::vector<Meeting> meetings(const Point& from, const Point& to) const {
    std::vector<Meeting> found;
    if (triangles.empty() || from == to)
      return found;
    std::vector<Triangles::const_iterator> met;
    boxes.all_intersected_primitives(Kernel::Segment_3(exact(from), exact(to)), std::back_inserter(met));
    for (const auto& place : met) {
      std::array<Point, 3> corners{};
      for (std::size_t i = 0; i < 3; ++i)
        corners[i] = {(*place)[int(i)].x(), (*place)[int(i)].y(), (*place)[int(i)].z()};
      found.push_back(meeting_of(corners, from, to));
    }
    return found;
  }

  /// Cuts the segment wherever it meets a triangle, and asks the middle of every piece for its side.
  std::vector<std::array<double, 2>> parts_piece_by_piece(const std::vector<Meeting>& meetings, const Point& from,
                                                          const Point& to) const {
    std::vector<double> cuts{0, 1};
    for (const Meeting& meeting : meetings)
      for (double at : {meeting.begin, meeting.end})
        if (at > 0 && at < 1)
          cuts.push_back(at);
    std::sort(cuts.begin(), cuts.end());
    std::vector<std::array<double, 2>> parts;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      if (cuts[i + 1] - cuts[i] < shortest_part)
        continue;
      const Point middle = between(from, to, 0.5 * (cuts[i] + cuts[i + 1]));
      if (!inside(middle) && distance(middle) > on_surface)
        continue;
      if (!parts.empty() && cuts[i] - parts.back()[1] < shortest_part)
        parts.back()[1] = cuts[i + 1];
      else
        parts.push_back({cuts[i], cuts[i + 1]});
    }
    return parts;
  }
};

SurfaceProbe::SurfaceProbe(const TriangleMesh& mesh) : tree_(std::make_unique<Tree>(mesh)) {}
SurfaceProbe::~SurfaceProbe() = default;

bool SurfaceProbe::inside(const Point& point) const {
  return tree_->inside(point);
}

double SurfaceProbe::signed_distance(const Point& point) const {
  const double distance = tree_->distance(point);
  return tree_->inside(point) ? -distance : distance;
}

std::vector<double> SurfaceProbe::crossings(const Point& from, const Point& to) const {
  const std::vector<Meeting> meetings = tree_->meetings(from, to);
  std::vector<double> places;
  if (const auto passages = clear_passages(meetings)) {
    for (const Passage& passage : *passages)
      places.push_back(passage.at);
    return places;
  }
  for (const auto& [begin, end] : tree_->parts_piece_by_piece(meetings, from, to))
    for (double at : {begin, end})
      if (at >= shortest_part && at <= 1 - shortest_part)
        places.push_back(at);
  return places;
}

std::vector<std::array<double, 2>> SurfaceProbe::parts_inside(const Point& from, const Point& to) const {
  const std::vector<Meeting> meetings = tree_->meetings(from, to);
  const auto passages = clear_passages(meetings);
  if (!passages || passages->empty())
    return tree_->parts_piece_by_piece(meetings, from, to);
  std::vector<std::array<double, 2>> parts;
  double begin = 0;
  for (const Passage& passage : *passages) {
    if (passage.turn < 0)
      parts.push_back({begin, passage.at});
    begin = passage.at;
  }
  if (passages->back().turn > 0)
    parts.push_back({begin, 1});
  return parts;
}

} // namespace crushwright
