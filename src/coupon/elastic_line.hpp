#pragma once
#include "crushwright/cell_curve.hpp"

#include <optional>

namespace crushwright {

/// Elastic slope of a metal and its 0.2 % proof stress, each found with the other; docs/method/metal_test.md.
struct ElasticLine {
  double modulus = 0;      ///< [Pa]
  double offset = 0;       ///< strain at zero stress of the elastic line [-]
  double proof_stress = 0; ///< [Pa]
  std::size_t points = 0;  ///< that the slope rests on
};

/// @return absent when the curve never leaves its elastic line by 0.2 %, or has under five points on it.
std::optional<ElasticLine> elastic_line(const StressStrain& curve);

} // namespace crushwright
