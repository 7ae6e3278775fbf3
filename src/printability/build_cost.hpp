#pragma once
#include "crushwright/printability.hpp"

#include <optional>
#include <vector>

namespace crushwright {

/// What is melted and traced for the pieces of one structure.
struct BuildWork {
  std::vector<double> heights; ///< of the pieces [m]
  double volume = 0;           ///< [m^3]
  double mass = 0;             ///< [kg]
  double surface = 0;          ///< [m^2]
};

/// Layers times recoat time over the parts that share them, melted volume over volume rate, surface over contour rate
/// [s].
double build_time(const BuildWork& work, const PrintRates& rates);

/// Machine hours, powder with its loss, and the part's share of what each build costs [currency]; absent without a
/// currency.
std::optional<double> build_cost(const BuildWork& work, const PrintRates& rates);

} // namespace crushwright
