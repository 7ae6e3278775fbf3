#pragma once
#include "crushwright/unit_cell.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// What a law is asked for: which cell, of what, crushed which way, how dense.
struct LawQuestion {
  const UnitCell& cell;
  const BaseMaterial& material;
  std::string direction;                        ///< three digits in cell axes, "100"
  double relative_density;                      ///< true ρ̄ [-]
  std::optional<Evidence> asked = std::nullopt; ///< kind that the case asks for
};

/// Place of a law in the order of trust; smaller is better. A published law matches only when metal, condition,
/// process, range and a drawn density basis are all stated and all the question's; a closed form states no metal, so
/// it stands behind what was computed for the cell. docs/method/cell_property.md.
enum class Trust { measured_here, published_match, computed, published_elsewhere, generic, prior };

/// One law with how it fits the question.
struct RankedOrigin {
  std::size_t place = 0; ///< in the list that was ranked
  Trust trust = Trust::prior;
  bool inside = true;       ///< ρ̄, in the law's basis, lies in its fitted range
  double extrapolation = 0; ///< |ln| of the ratio to the nearest end of the range; 0 inside
  bool asked = false;       ///< of the kind of evidence that the question asks for
};

/// @throws OutOfDomain when the direction is not three digits, not all zero.
void require_direction(const std::string& direction);

/// The direction that the cell's symmetry makes equal to this one: "001" of a cubic cell becomes "100".
std::string equivalent_direction(const UnitCell& cell, const std::string& direction);

/// The laws that hold for the question's direction, best first. The kind that is asked for goes before all others; a
/// law inside its range beats one outside; outside, the least extrapolated comes first; then the order of trust; then
/// the order of the catalogue entry.
std::vector<RankedOrigin> ranked(const LawQuestion& question, const std::vector<LawOrigin>& origins);

/// "'x' was computed for this cell": why the law stands where it stands.
std::string reason_for(const RankedOrigin& best, const LawOrigin& origin);

} // namespace crushwright
