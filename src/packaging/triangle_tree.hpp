#pragma once
#include "crushwright/packaging.hpp"
#include "packaging/triangle_distance.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace crushwright {

/// Triangles of a closed surface in a tree of boxes, to be asked where the surface lies or, with CrushedStations,
/// where the crush has moved it: boxes stay boxes, because stations keep their order.
class TriangleTree {
public:
  /// @param borders  stations at which triangles are parted, so that each piece moves as a whole; may be empty
  TriangleTree(const TriangleMesh& mesh, const std::vector<double>& borders);

  /// Nearest places of this surface, moved, and another.
  NearestPair nearest(const TriangleTree& other, const CrushedStations* moved) const;

  /// Nearest place of this surface, moved, to a point.
  NearestPair nearest(const Place& point, const CrushedStations* moved) const;

  /// Whether a point lies inside this surface, moved.
  bool inside(const Place& point, const CrushedStations* moved) const;

  /// Any corner, moved.
  Place any_place(const CrushedStations* moved) const;

  double lowest_station() const { return nodes_.front().low[0]; }

  /// The place of this surface, moved by `moved`, that lies deepest inside another, moved by `other_moved`, and the
  /// place of the other surface nearest to it; distance 0 when none is found inside. Looked for on pieces that are no
  /// larger than `fineness` [m], hence a lower bound where a face is curved.
  NearestPair deepest_in(const TriangleTree& other, const CrushedStations* moved, const CrushedStations* other_moved,
                         double fineness) const;

private:
  struct Node {
    Place low{};
    Place high{};
    std::int32_t begin = 0; ///< of the triangles
    std::int32_t end = 0;
    std::int32_t left = -1; ///< children follow each other; -1 for a leaf
  };
  struct Box {
    Place low;
    Place high;
  };
  Box box_of(const Node& node, const CrushedStations* moved) const;
  Corners3 triangle(std::int32_t index, const CrushedStations* moved) const;
  void build(std::size_t node);

  std::vector<Corners3> triangles_;
  std::vector<Node> nodes_;
};

} // namespace crushwright
