#pragma once
#include "crushwright/crash_case.hpp"
#include "crushwright/estimate.hpp"

#include <array>

namespace crushwright {

/// Which end of the early-late interval of densification a run takes.
enum class Densification { early, nominal, late };

/// One way of setting everything that scatters on the structures.
struct SideSetting {
  Side side = Side::nominal;
  bool stacked = false;
  Densification densification = Densification::nominal;
};

/// Nominal; then weak and strong, combined and stacked, each with early and late densification.
inline constexpr std::size_t setting_count = 9;
const std::array<SideSetting, setting_count>& side_settings();

/// Factors that a setting puts on a structure's curve (docs/method/scatter.md).
struct SideFactors {
  double force = 1;
  double crush = 1;
};
SideFactors side_factors(const StructureModel& structure, const ScatterSet& scatter, double level,
                         const SideSetting& setting);

/// Standard deviation of the logarithm for a coefficient of variation, lognormal.
double log_deviation(double coefficient_of_variation);

} // namespace crushwright
