#pragma once
#include <array>
#include <memory>
#include <vector>

namespace crushwright {

/// Nearest point of many triangles, by a tree of boxes; may be asked from several threads at once.
class WallTree {
public:
  explicit WallTree(const std::vector<std::array<std::array<double, 3>, 3>>& triangles);
  ~WallTree();
  WallTree(const WallTree&) = delete;
  WallTree& operator=(const WallTree&) = delete;

  bool empty() const;
  /// Distance to the nearest triangle; the tree is not empty.
  double distance(const std::array<double, 3>& point) const;

private:
  struct Boxes;
  std::unique_ptr<Boxes> boxes_;
};

} // namespace crushwright
