#pragma once
#include "crushwright/unit_cell.hpp"
#include "lattice_body/cell_metal.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

namespace crushwright {

/// The union of pieces that repeat with a box, with a list for each bin of the box of those that can be the nearest
/// one there. A piece has `double distance(const Eigen::Vector3d&, double size_ratio) const`, signed, which changes
/// by no more than the way walked.
template <class Piece>
class BinnedPieces : public CellMetal {
public:
  /// @param pieces         with every copy that is nearest to some point of the box
  /// @param factor_spread  largest minus smallest thickness of a piece over the cell's size [-]
  BinnedPieces(std::vector<Piece> pieces, const std::array<double, 3>& box, const Range& ratios, double factor_spread)
      : box_(box) {
    const Eigen::Vector3d edge(box[0] / bins, box[1] / bins, box[2] / bins);
    const double slack = edge.norm() + 0.5 * factor_spread * (ratios.high - ratios.low) + 1e-9;
    std::vector<double> from_middle(pieces.size());
    for (int bin = 0; bin < bins * bins * bins; ++bin) {
      const Eigen::Vector3d at(bin % bins + 0.5, bin / bins % bins + 0.5, bin / (bins * bins) + 0.5);
      double nearest = 1e9;
      for (std::size_t i = 0; i < pieces.size(); ++i) {
        from_middle[i] = pieces[i].distance(edge.cwiseProduct(at), ratios.high);
        nearest = std::min(nearest, from_middle[i]);
      }
      starts_.push_back(nearest_.size());
      for (std::size_t i = 0; i < pieces.size(); ++i)
        if (from_middle[i] <= nearest + slack)
          nearest_.push_back(pieces[i]);
    }
    starts_.push_back(nearest_.size());
  }

  double distance(const std::array<double, 3>& point, double size_ratio) const override {
    std::array<double, 3> folded{};
    std::array<int, 3> at{};
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const double boxes = point[axis] / box_[axis];
      const double part = boxes - std::floor(boxes);
      folded[axis] = part * box_[axis];
      at[axis] = std::min(static_cast<int>(part * bins), bins - 1);
    }
    const std::size_t bin = std::size_t((at[2] * bins + at[1]) * bins + at[0]);
    const Eigen::Vector3d p(folded.data());
    double least = 1e9;
    for (std::size_t i = starts_[bin]; i < starts_[bin + 1]; ++i)
      least = std::min(least, nearest_[i].distance(p, size_ratio));
    return least;
  }

private:
  static constexpr int bins = 8; ///< along each edge of the box

  std::array<double, 3> box_;
  std::vector<Piece> nearest_; ///< one list behind the other
  std::vector<std::size_t> starts_;
};

} // namespace crushwright
