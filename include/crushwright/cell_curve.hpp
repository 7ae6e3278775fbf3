#pragma once
#include <array>
#include <cstddef>
#include <vector>

namespace crushwright {

/// Where the plateau begins when nothing better is known [-]. A prior: it puts the energy to 40 % strain over 0.40
/// times the plateau stress at 0.92, inside the 0.88 to 0.95 of published lattice curves.
inline constexpr double default_rise_strain = 0.06;

/// What the shape of a cell's crush curve is made from; docs/method/cell_curve.md.
struct CurveShapeInput {
  double efficiency_strain; ///< [-], in (0.05, packing_strain)
  double packing_strain;    ///< strain at which the branch tends to lock [-], in (efficiency_strain, 1)
  double rise_strain;       ///< strain at which the plateau begins [-], in [0, min(0.2, efficiency_strain / 2))
  double plateau_slope = 0; ///< d(σ/σpl)/dε along the plateau, about its middle [-], >= 0
  double steepness = 6;     ///< exponent of the densification branch [-], in [2, 30]
};

/// A crush curve over its plateau stress, as a polyline that never falls: stress ratio against engineering strain.
///
/// From (0, 0) through the rise, the plateau and a densification branch that steepens towards the packing strain;
/// beyond the last point it goes on with the last segment's slope. With no rise it starts at (0, plateau). The mean
/// ratio over the plateau window is 1; the window is 20 to 40 % strain or, when the efficiency strain is below 0.40,
/// half of it to it. The efficiency W(ε)/σ(ε) is greatest at the efficiency strain.
struct CurveShape {
  static constexpr std::size_t points = 16;
  static constexpr std::size_t efficiency_point = 8; ///< index of the point at the efficiency strain
  std::array<double, points> strain;                 ///< strictly rising [-]
  std::array<double, points> ratio;                  ///< never falling [-]
};

/// @throws OutOfDomain when an input is outside its stated range, when the slope leaves no positive stress where the
///                     plateau begins, or when no branch of this steepness has its greatest efficiency there; the
///                     message carries the values.
CurveShape curve_shape(const CurveShapeInput& input);

/// A stress-strain curve as sampled points; strain rising [-], stress [Pa], compression positive.
struct StressStrain {
  std::vector<double> strain;
  std::vector<double> stress;
};

/// The full curve of a cell for showing: shape times plateau stress. With a first peak (ratio above 1) it goes up the
/// elastic slope to the peak and straight down to the plateau; without one it follows the rise. Reduced by
/// reduce_compression_test it gives back plateau stress and efficiency strain (docs/method/cell_curve.md for high
/// peaks).
///
/// @param plateau_stress    [Pa], > 0.
/// @param elastic_modulus   of the cell [Pa], > 0; used only with a first peak.
/// @param first_peak_ratio  first peak over plateau stress [-], >= 0; 1 or less means no first peak.
/// @throws OutOfDomain when a value is outside its range, or when the modulus is so low that the peak would come
/// after
///                     the plateau window's start; the message carries the value.
StressStrain stress_strain(const CurveShape& shape, double plateau_stress, double elastic_modulus,
                           double first_peak_ratio);

} // namespace crushwright
