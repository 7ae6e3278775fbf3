#include "scaling_law/bounds.hpp"
#include "crushwright/errors.hpp"

#include <cmath>
#include <fmt/format.h>

namespace crushwright {

namespace {

void require(bool holds, const char* what, double value, const char* range) {
  if (!holds) {
    throw OutOfDomain(fmt::format("bound on a porous solid: the {} is {:g} and must lie {}", what, value, range));
  }
}

void require_arguments(double relative_density, double poissons_ratio) {
  require(relative_density > 0 && relative_density < 1, "relative density", relative_density, "between 0 and 1");
  require(poissons_ratio > -1 && poissons_ratio < 0.5, "Poisson's ratio", poissons_ratio, "between -1 and 0.5");
}

double shear_modulus_bound(double relative_density, double poissons_ratio) {
  const double bulk = 1 / (3 * (1 - 2 * poissons_ratio));
  const double shear = 1 / (2 * (1 + poissons_ratio));
  const double zeta = shear * (9 * bulk + 8 * shear) / (6 * (bulk + 2 * shear));
  return relative_density * shear * zeta / (zeta + (1 - relative_density) * shear);
}

} // namespace

double hashin_shtrikman_bulk_modulus(double relative_density, double poissons_ratio) {
  require_arguments(relative_density, poissons_ratio);
  const double bulk = 1 / (3 * (1 - 2 * poissons_ratio));
  const double shear = 1 / (2 * (1 + poissons_ratio));
  return 4 * shear * relative_density * bulk / (4 * shear + 3 * (1 - relative_density) * bulk);
}

double hashin_shtrikman_modulus(double relative_density, double poissons_ratio) {
  const double bulk = hashin_shtrikman_bulk_modulus(relative_density, poissons_ratio);
  const double shear = shear_modulus_bound(relative_density, poissons_ratio);
  return 9 * bulk * shear / (3 * bulk + shear);
}

double suquet_collapse_stress(double relative_density) {
  require(relative_density > 0 && relative_density < 1, "relative density", relative_density, "between 0 and 1");
  return 2 * relative_density / std::sqrt(4 + 11.0 / 3.0 * (1 - relative_density));
}

} // namespace crushwright
