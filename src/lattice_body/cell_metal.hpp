#pragma once
#include "crushwright/unit_cell.hpp"

#include <array>
#include <memory>

namespace crushwright {

/// The metal of a cell that repeats for ever, at any size in its range, asked point by point.
class CellMetal {
public:
  CellMetal() = default;
  CellMetal(const CellMetal&) = delete;
  CellMetal& operator=(const CellMetal&) = delete;
  virtual ~CellMetal() = default;

  /// Signed distance to the boundary, negative inside [cell edges]: exact within 0.012 of the boundary, but short of
  /// the depth where parts join; farther off never more than the distance. May be asked from several threads.
  /// @param point       [cell edges], anywhere
  /// @param size_ratio  τ, inside the cell's range
  virtual double distance(const std::array<double, 3>& point, double size_ratio) const = 0;
};

/// @throws OutOfDomain for a foam, which has no shape, and for a solid, which is a mesh already.
std::unique_ptr<CellMetal> cell_metal(const UnitCell& cell);

/// Thinnest part of the metal over the cell's size [-]: 1, but for plates of their own thicknesses.
double thinnest_factor(const UnitCell& cell);

} // namespace crushwright
