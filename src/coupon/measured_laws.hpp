#pragma once
#include "coupon/density_groups.hpp"

namespace crushwright {

/// Plateau stress, gradient and densification over density, in that order, each with its law or its refusal.
/// `warnings` gains what a reader of the laws must know.
std::vector<MeasuredLaw> measured_laws(const std::vector<ReducedSpecimen>& specimens,
                                       const std::vector<DensityGroup>& groups, const BaseValues& base,
                                       std::optional<double> strength_exponent, std::vector<std::string>& warnings);

} // namespace crushwright
