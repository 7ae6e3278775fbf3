#pragma once
#include "crushwright/column_check.hpp"

#include <array>

namespace crushwright {

/// What a section carries when it is plastic throughout.
struct PlasticSection {
  double axial = 0;                   ///< [N]
  std::array<double, 2> moment{0, 0}; ///< by Bending [N m]
  std::array<double, 2> shear{0, 0};  ///< along y, along z [N]
};

/// @throws OutOfDomain when the section has no strength.
PlasticSection plastic_section(const BeamSection& section);

/// What acts on a section, sizes only.
struct SectionLoad {
  double axial = 0;                   ///< [N]
  std::array<double, 2> moment{0, 0}; ///< by Bending [N m]
  std::array<double, 2> shear{0, 0};  ///< along y, along z [N]
};

/// Use √((n + m_y + m_z)² + v²), safe for every section by the static theorem; docs/method/column_check.md.
SectionUse section_use(const PlasticSection& strength, const SectionLoad& load, double station);

} // namespace crushwright
