#include "packaging/triangle_tree.hpp"

#include "packaging/triangle_pieces.hpp"
#include "packaging/vectors.hpp"

#include <algorithm>
#include <limits>

namespace crushwright {

using namespace vectors;

namespace {

constexpr std::int32_t most_in_a_leaf = 4;
constexpr double infinite = std::numeric_limits<double>::infinity();

/// Distance between two boxes along the axes; 0 when they overlap.
double gap(const Place& low, const Place& high, const Place& other_low, const Place& other_high) {
  double square = 0;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double apart = std::max({0.0, other_low[axis] - high[axis], low[axis] - other_high[axis]});
    square += apart * apart;
  }
  return std::sqrt(square);
}

/// Whether a ray from a point meets a box.
bool ray_meets(const Place& from, const Vector& direction, const Place& low, const Place& high) {
  double enter = 0, leave = infinite;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double one = (low[axis] - from[axis]) / direction[axis],
                 other = (high[axis] - from[axis]) / direction[axis];
    enter = std::max(enter, std::min(one, other));
    leave = std::min(leave, std::max(one, other));
  }
  return enter <= leave;
}

double radius_about(const Place& middle, const Corners3& triangle) {
  double radius = 0;
  for (const Place& corner : triangle)
    radius = std::max(radius, length(corner - middle));
  return radius;
}

/// Directions without a rational relation to anything that is drawn, so that a ray all but never runs along an edge;
/// where two of them disagree the third decides.
constexpr Vector rays[] = {{0.7548776662, 0.5698402910, 0.3247179572},
                           {-0.3819660113, 0.8812714616, -0.2781194846},
                           {0.2360679775, -0.4142135624, 0.8790588763}};

} // namespace

TriangleTree::TriangleTree(const TriangleMesh& mesh, const std::vector<double>& borders)
    : triangles_(triangle_pieces(mesh, borders)) {
  nodes_.reserve(triangles_.size());
  nodes_.push_back({{}, {}, 0, static_cast<std::int32_t>(triangles_.size()), -1});
  for (std::size_t node = 0; node < nodes_.size(); ++node)
    build(node);
}

/// Bounds a node, and parts it across its longest side where it holds too many.
void TriangleTree::build(std::size_t index) {
  Place low{infinite, infinite, infinite}, high{-infinite, -infinite, -infinite};
  const std::int32_t first = nodes_[index].begin, last = nodes_[index].end;
  for (std::int32_t i = first; i < last; ++i)
    for (const Place& corner : triangles_[static_cast<std::size_t>(i)])
      for (std::size_t axis = 0; axis < 3; ++axis) {
        low[axis] = std::min(low[axis], corner[axis]);
        high[axis] = std::max(high[axis], corner[axis]);
      }
  nodes_[index].low = low;
  nodes_[index].high = high;
  if (last - first <= most_in_a_leaf)
    return;
  const Vector size = high - low;
  const auto axis = static_cast<std::size_t>(std::max_element(size.begin(), size.end()) - size.begin());
  const std::int32_t middle = first + (last - first) / 2;
  const auto centre = [axis](const Corners3& each) { return each[0][axis] + each[1][axis] + each[2][axis]; };
  std::nth_element(triangles_.begin() + first, triangles_.begin() + middle, triangles_.begin() + last,
                   [&](const Corners3& a, const Corners3& b) { return centre(a) < centre(b); });
  nodes_[index].left = static_cast<std::int32_t>(nodes_.size());
  nodes_.push_back({{}, {}, first, middle, -1});
  nodes_.push_back({{}, {}, middle, last, -1});
}

TriangleTree::Box TriangleTree::box_of(const Node& node, const CrushedStations* moved) const {
  Box box{node.low, node.high};
  if (moved != nullptr) {
    box.low[0] = moved->at(box.low[0]);
    box.high[0] = moved->at(box.high[0]);
  }
  return box;
}

Corners3 TriangleTree::triangle(std::int32_t index, const CrushedStations* moved) const {
  Corners3 corners = triangles_[static_cast<std::size_t>(index)];
  if (moved != nullptr)
    for (Place& corner : corners)
      corner[0] = moved->at(corner[0]);
  return corners;
}

NearestPair TriangleTree::nearest(const TriangleTree& other, const CrushedStations* moved) const {
  NearestPair best{infinite, {}, {}};
  struct Pair {
    std::int32_t mine;
    std::int32_t theirs;
    double gap;
  };
  const auto gap_of = [&](std::int32_t mine, std::int32_t theirs) {
    const Box box = box_of(nodes_[static_cast<std::size_t>(mine)], moved);
    const Node& node = other.nodes_[static_cast<std::size_t>(theirs)];
    return gap(box.low, box.high, node.low, node.high);
  };
  std::vector<Pair> open{{0, 0, gap_of(0, 0)}};
  while (!open.empty() && best.distance > 0) {
    const Pair pair = open.back();
    open.pop_back();
    if (pair.gap >= best.distance)
      continue;
    const Node& mine = nodes_[static_cast<std::size_t>(pair.mine)];
    const Node& theirs = other.nodes_[static_cast<std::size_t>(pair.theirs)];
    if (mine.left < 0 && theirs.left < 0) {
      for (std::int32_t i = mine.begin; i < mine.end; ++i)
        for (std::int32_t j = theirs.begin; j < theirs.end; ++j) {
          const NearestPair found = nearest_of(triangle(i, moved), other.triangle(j, nullptr));
          if (found.distance < best.distance)
            best = found;
        }
      continue;
    }
    // Part the larger of the two; the nearer half is looked at first.
    const bool part_mine =
        theirs.left < 0 || (mine.left >= 0 && length(mine.high - mine.low) > length(theirs.high - theirs.low));
    Pair one{part_mine ? mine.left : pair.mine, part_mine ? pair.theirs : theirs.left, 0};
    Pair two{part_mine ? mine.left + 1 : pair.mine, part_mine ? pair.theirs : theirs.left + 1, 0};
    one.gap = gap_of(one.mine, one.theirs);
    two.gap = gap_of(two.mine, two.theirs);
    if (one.gap < two.gap)
      std::swap(one, two);
    open.push_back(one);
    open.push_back(two);
  }
  return best;
}

NearestPair TriangleTree::nearest(const Place& point, const CrushedStations* moved) const {
  NearestPair best{infinite, {}, point};
  std::vector<std::pair<std::int32_t, double>> open{{0, 0}};
  const auto gap_of = [&](std::int32_t index) {
    const Box box = box_of(nodes_[static_cast<std::size_t>(index)], moved);
    return gap(box.low, box.high, point, point);
  };
  while (!open.empty()) {
    const auto [index, apart] = open.back();
    open.pop_back();
    if (apart >= best.distance)
      continue;
    const Node& node = nodes_[static_cast<std::size_t>(index)];
    if (node.left < 0) {
      for (std::int32_t i = node.begin; i < node.end; ++i) {
        const Place place = nearest_on(triangle(i, moved), point);
        const double distance = length(place - point);
        if (distance < best.distance)
          best = {distance, place, point};
      }
      continue;
    }
    std::pair<std::int32_t, double> one{node.left, gap_of(node.left)}, two{node.left + 1, gap_of(node.left + 1)};
    if (one.second < two.second)
      std::swap(one, two);
    open.push_back(one);
    open.push_back(two);
  }
  return best;
}

bool TriangleTree::inside(const Place& point, const CrushedStations* moved) const {
  const auto odd_crossings = [&](const Vector& direction) {
    bool odd = false;
    std::vector<std::int32_t> open{0};
    while (!open.empty()) {
      const Node& node = nodes_[static_cast<std::size_t>(open.back())];
      open.pop_back();
      const Box box = box_of(node, moved);
      if (!ray_meets(point, direction, box.low, box.high))
        continue;
      if (node.left >= 0) {
        open.push_back(node.left);
        open.push_back(node.left + 1);
        continue;
      }
      for (std::int32_t i = node.begin; i < node.end; ++i)
        odd = odd != meets(point, direction, triangle(i, moved));
    }
    return odd;
  };
  const bool first = odd_crossings(rays[0]), second = odd_crossings(rays[1]);
  return first == second ? first : odd_crossings(rays[2]);
}

Place TriangleTree::any_place(const CrushedStations* moved) const {
  return triangle(0, moved)[0];
}

NearestPair TriangleTree::deepest_in(const TriangleTree& other, const CrushedStations* moved,
                                     const CrushedStations* other_moved, double fineness) const {
  NearestPair deepest{0, {}, {}};
  const auto depth_at = [&](const Place& place) {
    const NearestPair near = other.nearest(place, other_moved);
    const double depth = other.inside(place, other_moved) ? near.distance : -near.distance;
    if (depth > deepest.distance)
      deepest = {depth, place, near.on_first};
    return depth;
  };
  // No place is deeper than the middle's depth and its distance from the middle.
  const auto cannot_be_deeper = [&](const Place& middle, double radius) {
    return depth_at(middle) + radius <= deepest.distance;
  };
  std::vector<std::int32_t> open{0};
  std::vector<Corners3> pieces;
  while (!open.empty()) {
    const Node& node = nodes_[static_cast<std::size_t>(open.back())];
    open.pop_back();
    const Box box = box_of(node, moved);
    const double apart = gap(box.low, box.high, other.box_of(other.nodes_.front(), other_moved).low,
                             other.box_of(other.nodes_.front(), other_moved).high);
    if (apart > 0)
      continue;
    if (node.left >= 0) {
      open.push_back(node.left);
      open.push_back(node.left + 1);
      continue;
    }
    for (std::int32_t i = node.begin; i < node.end; ++i)
      pieces.push_back(triangle(i, moved));
    while (!pieces.empty()) {
      const Corners3 piece = pieces.back();
      pieces.pop_back();
      const Place middle = (1.0 / 3) * (piece[0] + piece[1] + piece[2]);
      const double radius = radius_about(middle, piece);
      for (const Place& corner : piece)
        depth_at(corner);
      if (cannot_be_deeper(middle, radius) || radius <= fineness)
        continue;
      const Place a = 0.5 * (piece[0] + piece[1]), b = 0.5 * (piece[1] + piece[2]), c = 0.5 * (piece[2] + piece[0]);
      for (const Corners3& quarter :
           {Corners3{piece[0], a, c}, Corners3{a, piece[1], b}, Corners3{c, b, piece[2]}, Corners3{a, b, c}})
        pieces.push_back(quarter);
    }
  }
  return deepest;
}

} // namespace crushwright
