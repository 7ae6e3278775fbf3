#pragma once
#include "crushwright/homogenisation.hpp"
#include "crushwright/material.hpp"

#include <string>

namespace crushwright {

/// Flow curve of a metal as the solid model wants it, and what had to be assumed to get it.
struct MetalCurve {
  HardeningCurve curve; ///< true stress over the proof stress against true plastic strain
  std::string remark;   ///< law, constants, assumptions; for the evidence table
};

/// Piecewise-linear flow curve from what an entry knows: a power law (Swift) where it states a hardening exponent, a
/// saturating law (Voce) where it states a uniform elongation, both through proof stress and ultimate stress;
/// otherwise perfectly plastic at the proof stress. docs/method/voxel_plasticity.md.
/// @throws OutOfDomain without a proof stress, or with values no metal has (exponent or elongation outside (0, 1)).
MetalCurve metal_curve(const BaseMaterial& material);

/// Flow stress over the yield stress and its slope, at a plastic strain.
struct FlowPoint {
  double stress = 1; ///< over the yield stress [-]
  double slope = 0;  ///< d stress / d plastic strain to the right of the point, over the yield stress [-]
};
FlowPoint flow_point(const HardeningCurve& curve, double plastic_strain);

/// @throws OutOfDomain when the lists differ in length or are empty, plastic strain does not rise from 0, or stress
///         does not start at 1, falls or is not finite; the message carries the values.
void check_hardening(const HardeningCurve& curve);

} // namespace crushwright
