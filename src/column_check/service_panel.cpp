#include "column_check/service_panel.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {

double skin_thickness_of(const BeamSection& section) {
  if (!(section.skin_area > 0))
    return 0;
  if (section.skin_thickness > 0)
    return section.skin_thickness;
  // A box of w × h: area 2 t (w + h) - 4 t^2.
  const double half_sum = section.half_depth[0] + section.half_depth[1];
  return 0.5 * (half_sum - std::sqrt(std::max(half_sum * half_sum - section.skin_area, 0.0)));
}

double panel_stress(const BeamSection& section, double pressure, const std::string& side, double cell_edge) {
  const double thickness = skin_thickness_of(section);
  if (!(thickness > 0))
    return 0;
  const bool sideways = side == "left" || side == "right";
  const double face = 2 * section.half_depth[sideways ? about_lateral : about_vertical];
  const double strip = clamped_strip * std::pow(face / thickness, 2);
  const bool on_nodes = section.lattice_area > 0 && cell_edge > 0;
  return pressure * (on_nodes ? std::min(plate_on_points * std::pow(cell_edge / thickness, 2), strip) : strip);
}

} // namespace crushwright
