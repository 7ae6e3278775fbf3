#pragma once
#include "crushwright/lattice_body.hpp"
#include "surface/surface_probe.hpp"

#include <Eigen/Core>

#include <vector>

namespace crushwright {

/// A part of a segment that lies in the region, in parts of the segment's length.
struct KeptPart {
  double from = 0, to = 1;
  bool cut_from = false, cut_to = false; ///< the part ends on the region's boundary, not at the segment's end
};

/// Where the lattice may be: inside the outer surface by the inset at least, and between the end stations. Points
/// within `grain` outside it count as inside, so that what lies in its boundary is kept whatever the rounding.
class InnerRegion {
public:
  /// @param grain  [m], > 0
  InnerRegion(const SurfaceProbe& outer, const TrimOptions& options, double grain);

  /// Negative inside. It changes by no more than the way gone, so a ball of that radius lies on one side [m].
  double level(const Eigen::Vector3d& point) const;

  /// The parts of a segment inside, rising. Where there is an inset they are found by steps that the level allows: a
  /// bulge through the boundary and back lower than `unseen` may be passed over, nothing higher is.
  /// @param from_level, to_level  level() at the ends
  /// @param unseen                [m], > 0
  std::vector<KeptPart> kept_parts(const Eigen::Vector3d& from, const Eigen::Vector3d& to, double from_level,
                                   double to_level, double unseen) const;

  /// Which boundary a cut end lies on.
  NodePlace boundary_at(const Eigen::Vector3d& point) const;

  double grain() const { return grain_; }

private:
  double stations_level(double station) const;
  std::vector<KeptPart> exact_parts(const Eigen::Vector3d& from, const Eigen::Vector3d& to) const;

  const SurfaceProbe& outer_;
  double inset_, first_, last_, grain_;
};

} // namespace crushwright
