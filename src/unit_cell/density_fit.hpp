#pragma once
#include "unit_cell/cell_solid.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// One size of a cell with the density of its own solid.
struct DensitySample {
  double size_ratio = 0; ///< τ [-]
  double density = 0;    ///< true relative density [-], in (0, 1)
  double spread = 0;     ///< of the extrapolation, see VolumeFraction [-]
};

/// True relative density ρ̄ = Σ coefficient_k τ^k, k = 1.., with what it was fitted to.
struct DensityFit {
  std::vector<double> coefficients; ///< shape = (highest power)
  double constant = 0;              ///< added to the sum; skeletal cells only
  Range size_ratio_range;           ///< of the samples
  double largest_error = 0;         ///< largest |fit - sample| / sample [-]
  std::vector<DensitySample> samples;
  std::string method; ///< in words, for the catalogue
};

/// Least squares in relative error for the coefficients left open; the others keep their given value.
///
/// @param given   coefficients, shape = (highest power)
/// @param open    which of them to fit; same shape, at least one, not more than there are samples
/// @param samples sizes and densities, densities positive
/// @return        coefficients, shape = (highest power)
std::vector<double> fitted_coefficients(const std::vector<double>& given, const std::vector<bool>& open,
                                        const std::vector<DensitySample>& samples);

/// The same for any powers of τ, the zeroth among them.
/// @return  one coefficient for each power
std::vector<double> fitted_powers(const std::vector<int>& powers, const std::vector<DensitySample>& samples);

/// Σ coefficient_k τ^k, k = 1.. [-].
double evaluate_density(const std::vector<double>& coefficients, double size_ratio);

/// True relative density of a strut or sheet cell from its own solid, at sizes 0.02, 0.03 and so on up to a density
/// of one half.
///
/// Struts: c1 = 0, c2 = π/4 × the strut length of one cell (slender limit, exact), c3 fitted; c4 is opened only when
/// bars meet away from their common nodes inside the range and the cubic misses by more than 0.1 %.
/// Sheets: c1 and c3 fitted, c2 = 0, as for every sheet of uniform thickness whose two faces do not touch or fold:
/// ρ̄ = A τ + (π χ / 6) τ³ with A the surface's area over a² and χ its Euler characteristic in one cell (Steiner,
/// Weyl).
DensityFit density_of_solid(const CellSkeleton& skeleton);

/// True relative density of a regular hexagonal honeycomb along its axis, exact: one minus the part of the plane left
/// open inside the walls.
///
/// Which walls (all of one thickness, or one of three doubled) and which edge (side, or width across flats) the entry
/// means is told by its nominal slope dρ̄/dτ: 2/√3 uniform and side, 2 uniform and flats, 8/(3√3) doubled and side,
/// 8/3 doubled and flats.
/// @throws OutOfDomain for any other nominal slope.
DensityFit density_of_honeycomb(double nominal_slope);

/// What the cell's class asks for: one of the two above, or from sampled bodies up to a density of one half
/// plates: c1 = Σ area × thickness factor, exact, c2 and c3 fitted, exact as long as plates meet along the same
/// lines; skeletal: necks from 0.04 on, constant and c2 to c5 fitted: near pinch-off the level falls with τ², and the
/// volume follows the level but for a term of power 3/2.
/// @throws OutOfDomain for a foam or a solid, whose density is not a function of a size.
DensityFit density_of_cell(const UnitCell& cell);

} // namespace crushwright
