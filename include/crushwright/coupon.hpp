#pragma once
#include "crushwright/cell_curve.hpp"

#include <optional>

namespace crushwright {

/// Quantities of ISO 13314 (compression of porous and cellular metals) and the efficiency method, from one curve.
/// docs/method/coupon.md.
struct CompressionQuantities {
  double plateau_from = 0.20;           ///< [-]
  double plateau_to = 0.40;             ///< [-]
  double plateau_stress = 0;            ///< mean stress between those strains [Pa]
  std::optional<double> plateau_end;    ///< strain at 1.3 times the plateau stress [-]; absent when never reached
  double efficiency_strain = 0;         ///< strain of greatest W(ε)/σ(ε) from plateau_from on [-]
  double greatest_efficiency = 0;       ///< that greatest W/σ [-]
  bool efficiency_still_rising = false; ///< greatest at the last point: the test ended too early to know it
  std::optional<double> first_maximum;  ///< first local maximum of stress [Pa]; absent when there is none
  std::optional<double> quasi_elastic_gradient; ///< slope between 20 % and 70 % of the plateau stress [Pa]; absent
                                                ///< when the curve starts above 70 %
  double energy_to_efficiency_strain = 0;       ///< [J/m^3]
};

/// A local maximum counts as the first maximum once the stress has fallen this fraction below it [-]; keeps noise
/// out.
inline constexpr double first_maximum_fall = 0.01;

/// Energy per volume from 0 to a strain, area under the polyline [J/m^3]. A curve that starts after zero strain is
/// joined to (0, 0) by a straight line; so in all functions here.
///
/// @param curve   strain [-] rising from 0 or above, stress [Pa], compression positive; at least two points.
/// @param strain  [-], from 0 to the curve's last strain.
/// @throws OutOfDomain when the strain is outside the curve, or the curve is not as stated.
double energy_to(const StressStrain& curve, double strain);

/// Energy absorption efficiency of ISO 13314: energy to ε over (greatest stress up to ε) times ε [-].
///
/// @param strain  [-], above 0, up to the curve's last strain.
/// @throws OutOfDomain as energy_to, and when no stress up to ε is positive.
double energy_absorption_efficiency(const StressStrain& curve, double strain);

/// Reduces one curve. Points are taken as a polyline; every quantity is exact for that polyline.
///
/// @param curve         as for energy_to; stress positive from plateau_from on.
/// @param plateau_from  [-], >= 0.
/// @param plateau_to    [-], > plateau_from, up to the curve's last strain.
/// @throws OutOfDomain when strains do not rise, values are not finite, the curve ends before plateau_to, the plateau
///                     stress is not positive, or a stress from plateau_from on is not positive.
CompressionQuantities reduce_compression_test(const StressStrain& curve, double plateau_from = 0.20,
                                              double plateau_to = 0.40);

} // namespace crushwright
