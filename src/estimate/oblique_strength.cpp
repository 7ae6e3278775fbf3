#include "estimate/oblique_strength.hpp"

#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "estimate/cell_cache.hpp"
#include "estimate/shear_ratio.hpp"
#include "homogenisation/oblique_collapse.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>
#include <stdexcept>

namespace crushwright {
namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr int steps = 6;
constexpr double step_angle = 5 * degree;
/// Of the size in the cache. Half of it off moves no factor by more than half a per cent.
constexpr double ratio_step = 0.04;

/// Shear over axial strength of isotropic solids (docs/method/oblique.md): one that keeps its volume when it flows,
/// as metal does (Mises), and one that does not spread sideways at all, as foams nearly do.
const double keeps_volume = 1 / std::sqrt(3.0), does_not_spread = 1 / std::sqrt(2.0);
/// Walls carry shear in their plane: G/E and the ratio of strengths are both 1.5 apart for the isotropic solid and
/// for plates along the faces of a cube.
constexpr double strength_per_stiffness = 1.5;

std::vector<double> five_degree_steps() {
  std::vector<double> angles;
  for (int k = 0; k <= steps; ++k)
    angles.push_back(k * step_angle);
  return angles;
}

ObliqueStrength of_struts(const UnitCell& cell, const std::string& direction, double ratio) {
  ObliqueStrength strength;
  strength.angles = five_degree_steps();
  ObliqueCollapse collapse = frame_oblique_collapse(cell, ratio, direction_vector(direction), strength.angles);
  strength.low = std::move(collapse.low);
  strength.high = std::move(collapse.high);
  strength.evidence = Evidence::computed;
  strength.how = "limit analysis of the cell's own struts under compression and shear together; low end: sides free, "
                 "the weaker way of the shear; high end: the stronger way, or sides held where they carry more";
  return strength;
}

ObliqueStrength on_surface(const ShearStrengthRange& range) {
  ObliqueStrength strength;
  strength.angles = five_degree_steps();
  for (const double angle : strength.angles) {
    strength.low.push_back(on_quadratic_surface(range.low, angle));
    strength.high.push_back(on_quadratic_surface(range.high, angle));
  }
  strength.evidence = Evidence::generic;
  strength.how = fmt::format("quadratic surface with a shear strength of {:.2f} to {:.2f} of the crush stress: {}",
                             range.low, range.high, range.how);
  return strength;
}

ObliqueStrength computed_strength(const UnitCell& cell, const std::string& direction, double ratio,
                                  double relative_density) {
  if (cell.cell_class == CellClass::strut) {
    try {
      return of_struts(cell, direction, ratio);
    } catch (const OutOfDomain&) {
      throw;
    } catch (const std::runtime_error&) {
      // The bounds did not close, as happens with very slender struts.
      return on_surface({keeps_volume / 2, does_not_spread,
                         "generic, with half of it on the low side: the limit analysis of this cell did not close"});
    }
  }
  return on_surface(shear_strength_range(cell, direction, relative_density));
}

} // namespace

double on_quadratic_surface(double shear_over_axial, double angle) {
  const double tangent = std::tan(angle) / shear_over_axial;
  return 1 / std::sqrt(1 + tangent * tangent);
}

ShearStrengthRange shear_strength_range(const UnitCell& cell, const std::string& crush_direction,
                                        double relative_density) {
  if (cell.cell_class == CellClass::foam)
    return {keeps_volume, does_not_spread,
            "an isotropic foam, between one that keeps its volume and one that does not spread sideways"};
  if (cell.cell_class == CellClass::honeycomb)
    return {
        keeps_volume, 1,
        "generic for walls along the axis, not of this honeycomb; beyond some angle a honeycomb tilts as a whole, "
        "which no surface shows: test it"};
  const ShearRatio stiffness = shear_ratio(cell, crush_direction, relative_density);
  if (!stiffness.computed)
    return {keeps_volume, does_not_spread, "generic, an isotropic solid in place of the cell: test it"};
  const double from_stiffness = strength_per_stiffness * stiffness.value;
  return {std::min(keeps_volume, from_stiffness), std::max(does_not_spread, std::min(1.0, from_stiffness)),
          fmt::format("generic, widened by the cell's own shear stiffness, G/E = {:.2f} from {}: test it",
                      stiffness.value, stiffness.how)};
}

ObliqueStrength oblique_strength(const UnitCell& cell, const BaseMaterial& /*material*/,
                                 const std::string& crush_direction, double relative_density) {
  if (cell.cell_class == CellClass::foam)
    return on_surface(shear_strength_range(cell, crush_direction, relative_density));
  static CellCache<ObliqueStrength> cache;
  const double ratio = rounded_ratio(cell, size_ratio(cell, relative_density), ratio_step);
  return cache.find_or(cell_key(cell, crush_direction, ratio), [&] {
    return computed_strength(cell, crush_direction, ratio, crushwright::relative_density(cell, ratio));
  });
}

ObliqueFactor factor_at(const ObliqueStrength& strength, double angle) {
  const double to_side = std::abs(angle);
  const double last = strength.angles.back();
  if (!(to_side <= last * (1 + 1e-9)))
    throw OutOfDomain(fmt::format("a force at {:.4g} degrees to the crush axis is beyond the {:.4g} that its crush "
                                  "strength is known for",
                                  to_side / degree, last / degree));
  const auto above = std::upper_bound(strength.angles.begin(), strength.angles.end(), to_side);
  if (above == strength.angles.end())
    return {strength.low.back(), strength.high.back()};
  const auto k = static_cast<std::size_t>(above - strength.angles.begin());
  const double part = (to_side - strength.angles[k - 1]) / (strength.angles[k] - strength.angles[k - 1]);
  const auto between = [&](const std::vector<double>& values) {
    return values[k - 1] + part * (values[k] - values[k - 1]);
  };
  return {between(strength.low), between(strength.high)};
}

} // namespace crushwright
