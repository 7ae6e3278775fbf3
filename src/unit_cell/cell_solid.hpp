#pragma once
#include "crushwright/unit_cell.hpp"
#include "unit_cell/level_surface.hpp"
#include "unit_cell/sample_grid.hpp"
#include "unit_cell/solid_body.hpp"

#include <array>
#include <span>
#include <vector>

namespace crushwright {

/// What the solid of one periodic cell is grown around: the axes of its struts or the middle surface of its sheet.
///
/// The solid of size ratio τ is the set of points no farther than τ/2 from the skeleton. For struts this is the union
/// of round bars with a ball at each end. Where every direction from a node lies within a right angle of some strut,
/// which is so at every node inside a lattice, the ball is already covered by the bars and adds nothing. For a sheet
/// it is the wall of uniform thickness about its middle surface (not the uneven band |f| <= c).
class CellSkeleton {
public:
  /// Farthest distance at which `distance` is meant to be used [cell edges].
  static constexpr double largest_reach = 0.40;

  /// Struts of one cell in cell edges; periodic copies of one strut count once.
  /// @throws OutOfDomain when there is no strut, or a strut is shorter than 1e-6 or longer than 2 cell edges.
  static CellSkeleton of_struts(const std::vector<Strut>& struts);
  static CellSkeleton of_surface(SheetSurface surface);
  /// @throws OutOfDomain when the cell is neither a strut cell nor a sheet cell.
  static CellSkeleton of_cell(const UnitCell& cell);

  /// Distance to the nearest point of the skeleton, periodic copies included [cell edges]. Beyond `largest_reach` it
  /// may be too long, never too short.
  double distance(const CellPoint& point) const;

  bool is_sheet() const { return struts_.empty(); }
  /// Struts of one cell, each once; empty for a sheet.
  const std::vector<Strut>& struts() const { return struts_; }
  /// Those and every periodic copy that comes within `reach` of the cell [cell edges], below 1.
  std::vector<Strut> copies_within(double reach) const;
  /// Sum of the strut lengths of one cell [cell edges]; 0 for a sheet.
  double strut_length() const;

  /// Visits the cell centres of an n × n × n grid that lie within `reach` of the skeleton, in a fixed order.
  /// @param n      [-], > 0
  /// @param reach  [cell edges], in (0, largest_reach]
  void visit_near(int n, double reach, const SampleVisitor& visitor) const;
  /// The same in layers that can be visited at once from several threads: no sample belongs to two of them.
  int layers(int n) const;
  void visit_layer(int n, double reach, int layer, const SampleVisitor& visitor) const;

private:
  std::vector<Strut> struts_;
  std::vector<Strut> images_; ///< copies within largest_reach
  SheetSurface surface_ = SheetSurface::gyroid;
};

/// Volume fraction of the solid sampled on one n × n × n grid of cell centres, for several sizes at once.
///
/// A sample counts fully inside, not outside, and in between by a smooth ramp over two grid spacings either side of
/// the boundary (integral of the weight (1 - u²)³). The result is a weighted mean of V over half sizes τ/2 ± 2/n, so
/// its error is (2/9) n⁻² d²V/d(τ/2)²: second order, with a constant that two grids remove.
/// @param size_ratios  τ [-], each in [4/n, 2 (largest_reach - 2/n)]; shape = (number of sizes)
/// @return             volume fractions [-], shape = (number of sizes)
/// @throws OutOfDomain when a τ is outside that range.
std::vector<double> sampled_volume_fractions(const CellSkeleton& skeleton, std::span<const double> size_ratios,
                                             int n);

/// A volume fraction extrapolated from two grids.
struct VolumeFraction {
  double value = 0;   ///< extrapolated for second order [-]
  double fine = 0;    ///< on the finer grid [-]
  double spread = 0;  ///< |value - fine| / value [-]
  int fine_cells = 0; ///< cells along the edge on the finer grid
};

/// Limit of a second-order sequence from grids of n and 3n/2 cells.
VolumeFraction extrapolated(double coarse, double fine, int fine_cells);

/// True volume fraction of the solid for several sizes, each from two grids of n and 3n/2 cells along the edge: n at
/// least 96 and 12 / τ for struts, at least 80 and 4 / τ for sheets, whose curvature is small beside their thickness.
std::vector<VolumeFraction> volume_fractions(const CellSkeleton& skeleton, std::span<const double> size_ratios);

/// Whether the solid holds one chain of face-connected voxels, of n × n × n in the cell, from each face of the cell
/// to the opposite one, in all three directions.
bool connects_opposite_faces(const CellSkeleton& skeleton, double size_ratio, int n);
bool connects_opposite_faces(const SolidBody& body, int n);

} // namespace crushwright
