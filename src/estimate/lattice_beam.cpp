#include "estimate/lattice_beam.hpp"

#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "estimate/cell_cache.hpp"
#include "estimate/oblique_strength.hpp"
#include "estimate/shear_ratio.hpp"
#include "homogenisation/oblique_collapse.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <stdexcept>

namespace crushwright {
namespace {

/// First yield over collapse where no frame tells it: strut cells of the catalogue lie at 0.4 to 0.7.
constexpr double first_yield_share = 0.5;
constexpr double ratio_step = 0.04;

double shear_strength_ratio(const UnitCell& cell, const std::string& direction, double relative_density) {
  if (cell.cell_class != CellClass::strut)
    return shear_strength_range(cell, direction, relative_density).low;
  static CellCache<double> cache;
  const double ratio = rounded_ratio(cell, size_ratio(cell, relative_density), ratio_step);
  return cache.find_or(cell_key(cell, direction, ratio), [&] {
    try {
      return frame_shear_ratio(cell, ratio, direction_vector(direction));
    } catch (const OutOfDomain&) {
      throw;
    } catch (const std::runtime_error&) {
      // The bounds did not close: half of the isotropic solid's, as oblique_strength has it.
      return 0.5 / std::sqrt(3.0);
    }
  });
}

/// Of the frame over the proof stress. Kept by the very size, since it goes with a power of it: a study that repeats
/// a structure finds it again.
double frame_first_yield(const UnitCell& cell, const std::string& direction, double ratio) {
  static CellCache<double> cache;
  return cache.find_or(cell_key(cell, direction, ratio), [&] {
    return frame_load(cell, ratio, metal_poissons_ratio, direction_vector(direction)).first_yield;
  });
}

double first_yield(const UnitCell& cell, const std::string& direction, double relative_density, double proof_stress,
                   double plateau) {
  if (cell.cell_class != CellClass::strut)
    return first_yield_share * plateau;
  // A law may know a weaker lattice than the ideal frame.
  return std::min(frame_first_yield(cell, direction, size_ratio(cell, relative_density)) * proof_stress, plateau);
}

} // namespace

BeamMaterial lattice_beam(const UnitCell& cell, const BaseMaterial& material, const std::string& crush_direction,
                          double relative_density, double elastic_modulus_used, double plateau_used) {
  if (!material.density || !material.proof_stress)
    throw OutOfDomain(fmt::format("{} has no density or no proof stress: no beam of it", material.id));
  BeamMaterial beam;
  beam.youngs_modulus = elastic_modulus_used;
  beam.shear_modulus = shear_ratio(cell, crush_direction, relative_density).value * elastic_modulus_used;
  beam.first_yield = first_yield(cell, crush_direction, relative_density, material.proof_stress->value, plateau_used);
  beam.collapse_stress = plateau_used;
  beam.shear_strength = shear_strength_ratio(cell, crush_direction, relative_density) * plateau_used;
  beam.density = relative_density * material.density->value;
  beam.metal_proof_stress = material.proof_stress->value;
  return beam;
}

} // namespace crushwright
