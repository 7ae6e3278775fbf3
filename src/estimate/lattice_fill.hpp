#pragma once
#include "crushwright/cell_property.hpp"
#include "crushwright/envelope.hpp"
#include "crushwright/lattice_body.hpp"

#include <optional>
#include <vector>

namespace crushwright {

/// A lattice as it fills one structure: cell, material, laws, and size along the axis.
struct LatticeFill {
  const UnitCell* cell = nullptr;
  const BaseMaterial* material = nullptr;
  ChosenLaws laws;
  double cell_edge = 0; ///< [m]; 0 for a foam that states none
  double size_tip = 0;  ///< strut or wall [m]; a foam: relative density [-]
  double size_root = 0;
  double length = 0;                    ///< of the structure [m]
  std::optional<SizeField> size_factor; ///< absent: 1 everywhere
  const Envelope* envelope = nullptr;   ///< needed where there is a size factor
  double trigger_length = 0;            ///< from the struck end [m]; 0 without a trigger
  double trigger_factor = 1;            ///< on the size along it [-]
  double trigger_skin_factor = 1;       ///< on the thickness of the skin around it [-]

  /// Sizes over the section at a station, each for an equal part of its area; one where there is no size factor.
  std::vector<double> sizes_at(double station) const;
  double size_at(double station) const; ///< mean over the section
  double smallest_size_at(double station) const;
  /// True relative density, mean over the section. @throws OutOfDomain outside the catalogue entry's range of sizes.
  double relative_density_at(double station) const;
  double relative_density_of(double size) const; ///< of one size; throws as above
  LatticeFill with_size_scaled(double factor) const;
};

/// Mass of the lattice in an envelope behind a skin, integrated over `slices` mid-points [kg].
double lattice_mass(const LatticeFill& fill, const Envelope& envelope, double skin_thickness, int slices);

} // namespace crushwright
