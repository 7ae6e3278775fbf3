#include "estimate/fracture_band.hpp"

#include <fmt/format.h>

namespace crushwright {
namespace {

/// Fracture elongation from which struts fold to the end (common practice, docs/method/material.md).
constexpr double folds_from = 0.08;
/// Share of its hinge force that a strut still carries which broke at one end and leans on its neighbours: one hinge
/// of two (docs/method/fracture.md).
constexpr double broken_share = 0.5;

/// Rolled foil folds at these elongations: cores of 5052 crushed above the folding law.
bool is_rolled(const BaseMaterial& material) {
  return material.process.find("rolled") != std::string::npos;
}

} // namespace

double fracture_low(const BaseMaterial& material) {
  if (!material.fracture_elongation || material.fracture_elongation->value >= folds_from)
    return 1;
  const double folded = material.fracture_elongation->low_end() / folds_from;
  return folded + (1 - folded) * broken_share;
}

FractureBand fracture_band(const UnitCell& cell, const BaseMaterial& material, Evidence plateau_evidence,
                           const std::optional<Quantity>& stated) {
  if (stated) {
    if (stated->low_end() >= 1)
      return {};
    return {stated->low_end(), fmt::format("The weak side takes {:.0f} % of the lattice's force, as the case states "
                                           "for struts that break (`brittle_plateau`).",
                                           100 * stated->low_end())};
  }
  if (cell.cell_class == CellClass::foam || plateau_evidence == Evidence::measured || is_rolled(material))
    return {};
  const double low = fracture_low(material);
  if (low == 1)
    return {};
  return {low, fmt::format("{} breaks from {:.3g} % elongation on, so the weak side takes {:.0f} % of the lattice's "
                           "force: a hinge that breaks before its strut has folded leaves half of it. The rule is "
                           "derived, no test stands behind it; crush a coupon and state `brittle_plateau`.",
                           material.name, 100 * material.fracture_elongation->low_end(), 100 * low)};
}

} // namespace crushwright
