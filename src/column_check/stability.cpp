#include "column_check/stability.hpp"

#include "column_check/service_beam.hpp"

namespace crushwright {

double buckling_force(const BeamColumn& column, const std::vector<double>& heights, std::size_t first, Bending axis) {
  double length = 0;
  for (std::size_t i = first; i < heights.size(); ++i)
    length += heights[i];
  // Timoshenko's quotient with the line of a cantilever that carries a force at its end, the end's deflection 1.
  double slopes = 0, bends = 0, shears = 0;
  double from_root = length;
  for (std::size_t i = first; i < heights.size(); ++i) {
    const double height = heights[i];
    const double x = (from_root - 0.5 * height) / length;
    const double deflection = 0.5 * x * x * (3 - x), slope = 1.5 * x * (2 - x) / length;
    const BeamSection& section = column.sections[i];
    slopes += slope * slope * height;
    bends += (1 - deflection) * (1 - deflection) / section.elastic_bending(axis) * height;
    shears += slope * slope / shear_stiffness(section, axis) * height;
    from_root -= height;
  }
  return slopes / (bends + shears);
}

double tilting_force(double tangent, double gyration, double length) {
  return tangent * gyration * gyration / length;
}

} // namespace crushwright
