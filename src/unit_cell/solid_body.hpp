#pragma once
#include "crushwright/unit_cell.hpp"
#include "unit_cell/level_surface.hpp"
#include "unit_cell/sample_grid.hpp"

#include <memory>

namespace crushwright {

/// The metal of one periodic cell of one size, to be sampled on a grid over the box that repeats.
class SolidBody {
public:
  SolidBody() = default;
  SolidBody(const SolidBody&) = delete;
  SolidBody& operator=(const SolidBody&) = delete;
  virtual ~SolidBody() = default;

  /// Layers that can be visited at once from several threads: no sample belongs to two of them.
  virtual int layers(const SampleGrid& grid) const = 0;

  /// Visits every sample inside the metal and those outside that lie within `reach` of it, in a fixed order, with
  /// signed distances, negative inside. Outside a distance is never too long where it is below 0.1; deeper inside
  /// than `reach`, and inside where parts join, only the sign is promised.
  virtual void visit_layer(const SampleGrid& grid, double reach, int layer, const SampleVisitor& visitor) const = 0;
};

/// @throws OutOfDomain for a foam, or a size outside the cell's range.
std::unique_ptr<SolidBody> solid_body(const UnitCell& cell, double size_ratio);

/// The metal on the side f > level of a surface.
std::unique_ptr<SolidBody> level_body(SheetSurface surface, double level);

/// The box that repeats [cell edges]: a cube of one edge, but for a honeycomb, whose hexagons repeat in a rectangle
/// of √3 × 3 sides; 1 along the axis.
std::array<double, 3> repeating_box(const UnitCell& cell);

} // namespace crushwright
