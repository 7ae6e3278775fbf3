#pragma once
#include "crushwright/lattice_body.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

namespace crushwright {

/// Which of a body's metal a sample belongs to besides the whole.
struct SampleSite {
  bool inside = false; ///< of the room for the lattice
  bool core = false;   ///< of the whole cells away from the surface
};

/// Where a level was last asked for, for samples near to one another.
struct NearestLevel {
  Eigen::Vector3d point = Eigen::Vector3d::Zero();
  double level = 0; ///< 0: not known
};

/// Told for a point of the metal; asked from several threads at once, each with its own memory.
using SiteOf = std::function<SampleSite(const Eigen::Vector3d&, NearestLevel&)>;

struct UnionVolumes {
  SampledVolume all, inside, core;
};

/// Volume of the union of all bars and of a ball at every node, as large as the largest radius there.
///
/// Every bar and ball is sampled alone, and each sample counts one over the number of bars and balls that hold it, so
/// nothing needs to be known of how they overlap. The samples are spread in pairs over the bars; the differences
/// within the pairs give the error. The same for any number of threads.
/// @param samples  about how many; at least one pair for each bar and ball [-]
UnionVolumes union_volumes(const StrutBody& body, const SiteOf& site_of, double samples);

/// Bars and balls of a body, found by place; for tests and drawings as well.
class BarGrid {
public:
  explicit BarGrid(const StrutBody& body);
  /// How many bars and balls hold a point.
  int count_at(const Eigen::Vector3d& point) const;
  const std::vector<double>& ball_radii() const { return ball_radii_; }

private:
  bool holds(std::size_t item, const Eigen::Vector3d& point) const;
  template <class Visit>
  void visit_cubes(std::size_t item, const Visit& visit) const;
  Eigen::Vector3i cube_of(const Eigen::Vector3d& point) const;
  std::size_t place_of(const Eigen::Vector3i& cube) const;

  const StrutBody& body_;
  std::vector<double> ball_radii_; ///< shape = (number of nodes)
  Eigen::Vector3d low_;
  Eigen::Vector3i count_;
  double edge_ = 1;
  std::vector<std::uint32_t> starts_; ///< of each cube's items; shape = (number of cubes + 1)
  std::vector<std::uint32_t> items_;  ///< bars, then balls
};

} // namespace crushwright
