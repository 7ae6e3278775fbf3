#pragma once
#include "crushwright/crush_curve.hpp"

#include <algorithm>
#include <cstddef>
#include <iterator>

namespace crushwright {

/// Adds a point and the energy up to it.
inline void append(CrushCurve& curve, double crush, double force) {
  const double energy = curve.crush.empty()
                            ? 0.0
                            : curve.energy.back() + 0.5 * (force + curve.force.back()) * (crush - curve.crush.back());
  curve.crush.push_back(crush);
  curve.force.push_back(force);
  curve.energy.push_back(energy);
}

/// First crush at which a curve that never falls carries the force; its last one when it never does.
inline double first_crush_at(const CrushCurve& curve, double force) {
  const auto reached = std::lower_bound(curve.force.begin(), curve.force.end(), force);
  const auto k = static_cast<std::size_t>(std::distance(curve.force.begin(), reached));
  if (k == 0 || k == curve.force.size())
    return k == 0 ? curve.crush.front() : curve.crush.back();
  const double slope = (curve.force[k] - curve.force[k - 1]) / (curve.crush[k] - curve.crush[k - 1]);
  return std::min(curve.crush[k], curve.crush[k - 1] + (force - curve.force[k - 1]) / slope);
}

} // namespace crushwright
