#pragma once
#include <array>
#include <cstddef>
#include <vector>

namespace crushwright {

/// Joins places of a periodic cell into clusters and notices when a cluster meets its own copy in another cell: then
/// one can walk on in it for ever. Union-find that remembers, for each place, in which copy of the cell its root
/// lies.
class PeriodicClusters {
public:
  using Shift = std::array<int, 3>; ///< whole cells

  explicit PeriodicClusters(std::size_t places);

  /// A place of the home cell is joined to its root in the copy `shift` cells away.
  struct Root {
    std::size_t place;
    Shift shift;
  };
  Root root_of(std::size_t place);

  /// Joins a place of the home cell with the copy of another place `shift` cells away.
  void join(std::size_t place, std::size_t other, const Shift& shift);

  /// Independent directions in which the cluster of a root meets its own copies, 0 to 3.
  std::size_t ways_on(std::size_t root) const { return ways_[root].size(); }

private:
  void add_way(std::size_t root, const Shift& shift);
  std::vector<std::size_t> parent_;
  std::vector<Shift> shift_;
  std::vector<std::vector<Shift>> ways_; ///< linearly independent, of roots
};

} // namespace crushwright
