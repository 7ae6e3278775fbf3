#pragma once
#include "crushwright/surface.hpp"

#include <array>
#include <memory>
#include <vector>

namespace crushwright {

/// Questions to a closed surface; may be asked from several threads at once.
class SurfaceProbe {
public:
  /// @param mesh  closed, facing outward, not crossing itself; copied.
  explicit SurfaceProbe(const TriangleMesh& mesh);
  ~SurfaceProbe();
  SurfaceProbe(const SurfaceProbe&) = delete;
  SurfaceProbe& operator=(const SurfaceProbe&) = delete;

  /// A point on the surface itself counts as inside.
  bool inside(const std::array<double, 3>& point) const;
  /// To the nearest point of the surface, negative inside; in the mesh's own lengths.
  double signed_distance(const std::array<double, 3>& point) const;
  /// Where the segment passes through the surface, as parts of its length, rising, inside (0, 1); a touch that does
  /// not pass through is left out, so that inside and outside alternate between them. Where an end lies on the
  /// surface `inside` of that end does not tell what comes next; `parts_inside` does.
  std::vector<double> crossings(const std::array<double, 3>& from, const std::array<double, 3>& to) const;
  /// The parts of the segment that lie inside, rising, as {begin, end} in parts of its length; a part that runs in
  /// the surface itself counts as inside. Gaps and parts under 1e-9 of the length are left out.
  std::vector<std::array<double, 2>> parts_inside(const std::array<double, 3>& from,
                                                  const std::array<double, 3>& to) const;

private:
  struct Tree;
  std::unique_ptr<Tree> tree_;
};

} // namespace crushwright
