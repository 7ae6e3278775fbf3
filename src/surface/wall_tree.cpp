#include "surface/wall_tree.hpp"

#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/AABB_triangle_primitive.h>
#include <CGAL/Simple_cartesian.h>

#include <cmath>

namespace crushwright {

struct WallTree::Boxes {
  using Kernel = CGAL::Simple_cartesian<double>;
  using Triangles = std::vector<Kernel::Triangle_3>;
  using Primitive = CGAL::AABB_triangle_primitive<Kernel, Triangles::const_iterator>;
  Triangles triangles;
  CGAL::AABB_tree<CGAL::AABB_traits<Kernel, Primitive>> tree;
};

WallTree::WallTree(const std::vector<std::array<std::array<double, 3>, 3>>& triangles)
    : boxes_(std::make_unique<Boxes>()) {
  using Point = Boxes::Kernel::Point_3;
  for (const auto& triangle : triangles) {
    const auto corner = [&](std::size_t i) { return Point(triangle[i][0], triangle[i][1], triangle[i][2]); };
    const Boxes::Kernel::Triangle_3 prepared(corner(0), corner(1), corner(2));
    if (prepared.squared_area() > 0)
      boxes_->triangles.push_back(prepared);
  }
  boxes_->tree.insert(boxes_->triangles.cbegin(), boxes_->triangles.cend());
  if (!boxes_->triangles.empty()) {
    boxes_->tree.build();
    boxes_->tree.accelerate_distance_queries();
  }
}

WallTree::~WallTree() = default;

bool WallTree::empty() const {
  return boxes_->triangles.empty();
}

double WallTree::distance(const std::array<double, 3>& point) const {
  return std::sqrt(boxes_->tree.squared_distance({point[0], point[1], point[2]}));
}

} // namespace crushwright
