#pragma once
#include "crushwright/printability.hpp"
#include "printability/vector.hpp"

#include <optional>
#include <vector>

namespace crushwright {

/// Height and footprint of points in a build direction; with a build volume turned about the direction so that they
/// fit, else as they lie.
struct Placement {
  BuildPiece piece; ///< height, footprint and turn
  bool fits = true; ///< always without a build volume
};
/// Any angle about the direction is tried: as it lies, along every edge of the footprint's hull, and every degree.
Placement placement_of(const std::vector<Vector>& points, const Vector& direction,
                       const std::optional<std::array<double, 3>>& build_volume);

/// Whether the points that touch the platform span at least a tenth of the footprint.
bool stands_on_base(const std::vector<Vector>& points, const Vector& direction);

/// The fewest pieces, of equal length along x, that all fit in the direction; one where the whole fits or no build
/// volume is stated; none when not even `most` do.
constexpr int most_pieces = 12;
std::vector<BuildPiece> pieces_that_fit(const Envelope& envelope, const TriangleMesh& surface,
                                        const Vector& direction,
                                        const std::optional<std::array<double, 3>>& build_volume,
                                        int most = most_pieces);

} // namespace crushwright
