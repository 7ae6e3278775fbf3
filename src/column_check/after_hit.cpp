#include "crushwright/column_check.hpp"
#include "crushwright/errors.hpp"

#include <limits>

namespace crushwright {
namespace {

bool has_collapsed(const Layer& layer, double force) {
  return permanent_crush({layer}, force, -std::numeric_limits<double>::infinity(),
                         std::numeric_limits<double>::infinity()) > 0;
}

} // namespace

AfterHit after_hit(const CrushCurve& curve, const std::vector<Layer>& layers, double peak_crush, double stop_force,
                   double usable_stroke) {
  if (layers.empty())
    throw OutOfDomain("a structure of 0 layers has nothing left");
  AfterHit left;
  double length = 0;
  for (const Layer& layer : layers) {
    const bool collapsed = has_collapsed(layer, stop_force);
    length += layer.height;
    left.length_left += collapsed ? 0 : layer.height;
    left.standing_at_root = collapsed ? 0 : left.standing_at_root + layer.height;
  }
  left.crushed_share = (length - left.length_left) / length;
  const double whole = curve.energy_at(usable_stroke);
  if (!(left.crushed_share > 0))
    left.energy_left = whole; // what an elastic hit took comes back
  else
    left.energy_left = peak_crush < usable_stroke ? whole - curve.energy_at(peak_crush) : 0;
  left.share_of_energy = whole > 0 ? left.energy_left / whole : 0;
  return left;
}

} // namespace crushwright
