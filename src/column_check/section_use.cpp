#include "column_check/section_use.hpp"

#include "crushwright/errors.hpp"

#include <cmath>

#include <fmt/format.h>

namespace crushwright {

PlasticSection plastic_section(const BeamSection& section) {
  PlasticSection plastic;
  const double lattice = section.lattice.collapse_stress, skin = section.skin.collapse_stress;
  plastic.axial = lattice * section.lattice_area + skin * section.skin_area;
  const double extents = section.half_depth[0] + section.half_depth[1];
  for (std::size_t k = 0; k < 2; ++k) {
    plastic.moment[k] = lattice * section.lattice_plastic_modulus[k] + skin * section.skin_plastic_modulus[k];
    // Of the skin only the walls along the force: exact for a box of one wall, 21 % low for a round tube.
    const double webs = extents > 0 ? section.half_depth[k] / extents : 0;
    plastic.shear[k] = section.lattice.shear_strength * section.lattice_area +
                       section.skin.shear_strength * section.skin_area * webs;
  }
  if (!(plastic.axial > 0 && plastic.moment[0] > 0 && plastic.moment[1] > 0 && plastic.shear[0] > 0 &&
        plastic.shear[1] > 0))
    throw OutOfDomain(fmt::format("the section at station {:.4f} m has no strength as a beam: lattice or skin needs "
                                  "a collapse stress and a shear strength",
                                  section.station));
  return plastic;
}

SectionUse section_use(const PlasticSection& strength, const SectionLoad& load, double station) {
  SectionUse use;
  use.station = station;
  use.axial = load.axial / strength.axial;
  use.bending = load.moment[0] / strength.moment[0] + load.moment[1] / strength.moment[1];
  use.shear = std::hypot(load.shear[0] / strength.shear[0], load.shear[1] / strength.shear[1]);
  use.use = std::hypot(use.axial + use.bending, use.shear);
  return use;
}

} // namespace crushwright
