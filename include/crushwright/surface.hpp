#pragma once
#include <array>
#include <cstdint>
#include <vector>

namespace crushwright {

/// A surface of triangles.
struct TriangleMesh {
  std::vector<std::array<double, 3>> points;          ///< shape = (number of points, 3)
  std::vector<std::array<std::int32_t, 3>> triangles; ///< places in `points`, counter-clockwise seen from outside;
                                                      ///< shape = (number of triangles, 3)
};

} // namespace crushwright
