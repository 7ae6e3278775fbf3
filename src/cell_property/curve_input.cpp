#include "crushwright/cell_property.hpp"

#include <algorithm>

namespace crushwright {

CurveShapeInput curve_input(const CellNumbers& numbers, double efficiency_strain) {
  CurveShapeInput input{};
  input.efficiency_strain = efficiency_strain;
  input.packing_strain = numbers.packing_strain;
  // The rise must end before the window that the plateau is averaged over begins.
  const double latest = 0.45 * std::min(0.4, efficiency_strain);
  input.rise_strain =
      std::min(latest, std::max(default_rise_strain, numbers.plateau_stress / numbers.elastic_modulus));
  return input;
}

} // namespace crushwright
