#pragma once

namespace crushwright {

/// The efficiency strain may not reach the packing strain: the branch between them needs room, or the curve turns
/// into a wall whose slope is an artefact. cell_properties warns where this limit acts.
inline constexpr double efficiency_over_packing_limit = 0.97;

constexpr double greatest_efficiency_strain(double packing_strain) {
  return efficiency_over_packing_limit * packing_strain;
}

} // namespace crushwright
