#include "printability/print_subject.hpp"
#include "printability/void_passage.hpp"
#include "quantities/units.hpp"
#include "unit_cell/honeycomb_walls.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <limits>
#include <numbers>

namespace crushwright {
namespace {

bool both_ends_closed(const PrintSubject& subject, const PrintingInput& printing) {
  return printing.plates_printed && subject.tip_plate > 0 && subject.root_plate > 0;
}

/// What the cell itself lets through.
PowderEscape through_cell(const PrintSubject& subject, const PrintingInput& printing) {
  const UnitCell& cell = *subject.cell;
  if (cell.cell_class == CellClass::honeycomb) {
    if (both_ends_closed(subject, printing))
      return {true, 0, false, "the end plates close every tube of the honeycomb"};
    const HoneycombForm& form = honeycomb_form(cell.nominal_density_coefficients.front());
    const double across_flats = std::numbers::sqrt3 * form.side * subject.cell_edge;
    return {false, std::max(0.0, across_flats - form.doubling * subject.largest_size), false,
            "the tubes of the honeycomb"};
  }
  const double ratio = is_sized(cell) ? subject.largest_size / subject.cell_edge : 1;
  const VoidPassage passage = void_passage(cell, ratio);
  if (passage.closed)
    return {true, 0, false, "the cell encloses powder on all sides"};
  // The distances of a solid of the user's own are known up to a tenth of an edge.
  const bool capped = cell.cell_class == CellClass::solid && passage.radius > 0.1;
  return {false, 2 * (capped ? 0.1 : passage.radius) * subject.cell_edge, capped, "the windows of the cell"};
}

double smallest_width_inside(const PrintSubject& subject) {
  double narrowest = std::numeric_limits<double>::infinity();
  for (const Section& section : subject.envelope->sections)
    narrowest = std::min(narrowest, properties_of(section).smallest_width - 2 * subject.skin_thickness);
  return std::max(0.0, narrowest);
}

} // namespace

PowderEscape powder_escape(const PrintSubject& subject, const PrintingInput& printing) {
  const bool has_lattice = subject.cell != nullptr && subject.cell->cell_class != CellClass::foam;
  PowderEscape escape = has_lattice
                            ? through_cell(subject, printing)
                            : PowderEscape{false, smallest_width_inside(subject), false, "the body's own width"};
  if (escape.closed || !(subject.skin_thickness > 0) || !both_ends_closed(subject, printing))
    return escape;
  if (!printing.escape_hole)
    return {true, 0, false, "skin and end plates enclose the powder and no escape_hole is stated"};
  if (printing.escape_hole->value < escape.opening)
    return {false, printing.escape_hole->value, false, "the stated escape holes"};
  return escape;
}

} // namespace crushwright
