#include "column_check/service_shear.hpp"

namespace crushwright {

double skin_shear_coefficient(const BeamSection& section, Bending axis) {
  if (!(section.skin_area > 0))
    return 0;
  const double poisson = section.skin.youngs_modulus / (2 * section.skin.shear_modulus) - 1;
  const double along = section.half_depth[axis];
  const double across = section.half_depth[axis == about_vertical ? about_lateral : about_vertical];
  const double n = across / along, m = n; // flange over web: width, and area of equal thickness
  return 10 * (1 + poisson) * (1 + 3 * m) * (1 + 3 * m) /
         ((12 + 72 * m + 150 * m * m + 90 * m * m * m) + poisson * (11 + 66 * m + 135 * m * m + 90 * m * m * m) +
          10 * n * n * ((3 + poisson) * m + 3 * m * m));
}

} // namespace crushwright
