#pragma once
#include "unit_cell/sample_grid.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <vector>

namespace crushwright {

/// Edge of the blocks of samples that share a list of pieces.
constexpr int samples_per_block = 8;

inline int piece_layers(const SampleGrid& grid) {
  return (grid.cells[2] + samples_per_block - 1) / samples_per_block;
}

/// Visits the samples of one layer of blocks along z that lie no farther than `reach` from the nearest of the pieces.
///
/// A piece has `double distance(const Eigen::Vector3d&) const`, signed or not, which changes by no more than the way
/// walked. In blocks, so that most pieces are ruled out once for a whole block.
template <class Piece>
void visit_near_pieces(const std::vector<Piece>& pieces, const SampleGrid& grid, double reach, int layer,
                       const SampleVisitor& visitor) {
  using Vector = Eigen::Vector3d;
  constexpr int block = samples_per_block;
  const Vector h(grid.spacing(0), grid.spacing(1), grid.spacing(2));
  const double half_diagonal = 0.5 * block * h.norm();
  std::vector<double> from_centre(pieces.size());
  std::vector<Piece> close;
  const int bz = layer * block;
  for (int by = 0; by < grid.cells[1]; by += block)
    for (int bx = 0; bx < grid.cells[0]; bx += block) {
      const Vector centre = h.cwiseProduct(Vector(bx + 0.5 * block, by + 0.5 * block, bz + 0.5 * block));
      double nearest = 4;
      for (std::size_t i = 0; i < pieces.size(); ++i) {
        from_centre[i] = pieces[i].distance(centre);
        nearest = std::min(nearest, from_centre[i]);
      }
      const double limit = half_diagonal + std::min(reach, nearest + half_diagonal);
      close.clear();
      for (std::size_t i = 0; i < pieces.size(); ++i)
        if (from_centre[i] <= limit)
          close.push_back(pieces[i]);
      if (close.empty())
        continue;
      for (int z = bz; z < std::min(grid.cells[2], bz + block); ++z)
        for (int y = by; y < std::min(grid.cells[1], by + block); ++y)
          for (int x = bx; x < std::min(grid.cells[0], bx + block); ++x) {
            const Vector p = h.cwiseProduct(Vector(x + 0.5, y + 0.5, z + 0.5));
            double d = 4;
            for (const Piece& piece : close)
              d = std::min(d, piece.distance(p));
            if (d <= reach)
              visitor(grid.index(x, y, z), d);
          }
    }
}

} // namespace crushwright
