#pragma once
#include "crushwright/homogenisation.hpp"
#include "crushwright/unit_cell.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What a computed law takes for granted, in one place. Reasons: docs/method/computed_law.md.
struct LawAssumptions {
  /// Of the metal: aluminium, steel and titanium lie between 0.28 and 0.34, which moves no stiffness here by 1 %.
  double poissons_ratio = 0.3;
  /// Yield stress over Young's modulus: the middle of printed metals, 0.0015 to 0.008. A perfectly plastic solid's
  /// collapse hardly feels it.
  double yield_strain = 0.003;
  /// Macroscopic strain to which a perfectly plastic solid is crushed: by then it carries its limit load to within a
  /// few per cent, and its geometry has hardly changed.
  double last_solid_strain = 0.05;
  /// Strain to which a frame's mechanism is followed: about where struts begin to touch, so that the mean over it is
  /// the plateau's.
  double path_end = 0.5;
  /// First collapse over mean path stress from which a first peak is one; below it is lost in the scatter of tests.
  double notable_first_peak = 1.05;
  /// Largest miss of a power law before its range is split in two, and of a half before it is refused.
  double largest_residual = 0.10;
  double refused_residual = 0.20;
  int frame_points = 5; ///< relative densities, evenly spaced in the logarithm
  int voxel_points = 3;
  /// Voxels across a strut or wall that the finer grid should have; the grids offered are 64, 96 and 128.
  double voxels_across = 6;
};

struct ComputedLawOptions {
  Range relative_density{0.05, 0.25}; ///< true; the points lie on its ends and between
  int grid = 128;                     ///< most voxels along the cell edge on the finer of two grids; a multiple of 4
  std::string version;                ///< of the program, kept with each law
  LawAssumptions assumptions;
};

/// One law with the points it was fitted to.
struct ComputedLaw {
  std::string property; ///< "elastic modulus", "plateau stress" or "first peak ratio"
  PowerLaw law;
  std::vector<double> relative_density; ///< true [-]
  std::vector<double> computed;         ///< over Young's modulus, flow stress, or a ratio; same shape [-]
};

struct ComputedLaws {
  std::vector<ComputedLaw> laws;
  std::vector<std::string> notes; ///< what was not computed, and why
};

/// Laws of one cell over a density range, from frames (struts) or voxels (any other solid): the elastic modulus and
/// plateau stress along the directions that its symmetry tells apart, and the ratio of first collapse to plateau.
/// @throws OutOfDomain for a foam, a density that no size gives, a grid that is no multiple of 4, or points that no
///         power law holds even in half the range; what frames and voxels throw besides.
ComputedLaws computed_laws(const UnitCell& cell, const ComputedLawOptions& options);

/// Limit load (greatest stress) over the yield stress at the true density of the size, for voxels of no size, from
/// the grids of a stiffness and of half of it. Stiffness grows with density as ρ̄^e, e measured between two sizes;
/// strength as ρ̄^((1+e)/2), which is right for pure stretching (1 and 1) and pure bending (2 and 3/2).
/// @param coarse, fine  crushed on the two grids, grid of fine twice that of coarse
struct ExtrapolatedCollapse {
  double value = 0;  ///< [-]
  double spread = 0; ///< |value - fine| / value [-]
};
ExtrapolatedCollapse extrapolated_collapse(const SolidCollapse& coarse, const SolidCollapse& fine,
                                           double relative_density, double density_exponent);

/// Directions along which the elastic modulus is computed, by the cell's symmetry: "100", "110", "111" for a cubic
/// cell.
std::vector<std::string> law_directions(const UnitCell& cell);

} // namespace crushwright
