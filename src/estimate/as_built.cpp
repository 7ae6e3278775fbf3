#include "estimate/as_built.hpp"

#include "estimate/trigger.hpp"
#include "quantities/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

/// Without a measurement the skin is taken to be within this of its drawing: common practice, no source.
constexpr double unmeasured_skin_tolerance = 0.10;

struct Weighing {
  const CrashCase& crash_case;
  const StructureInput& input;
  const LatticeFill& drawn;
  double skin_density;
  double plate_mass;
};

/// Mass of the skin over the same slices as the layers, so that a part weighs what its model says [kg].
double skin_mass(const Weighing& weighing, double thickness) {
  if (!(thickness > 0))
    return 0;
  const Envelope& envelope = weighing.input.envelope;
  const int slices = weighing.input.layer_count;
  const double height = envelope.length() / slices;
  double volume = 0;
  for (int i = 0; i < slices; ++i) {
    const double middle = (i + 0.5) * height;
    const SectionProperties section = properties_of(section_at(envelope, middle));
    const double factor = middle < trigger_length(weighing.input) ? weighing.input.trigger->skin_factor.value : 1;
    volume += (section.area - area_inside(section, factor * thickness)) * height;
  }
  return volume * weighing.skin_density;
}

/// Size factors for which the catalogue entry knows the density all along the structure.
Range possible_factors(const LatticeFill& drawn) {
  const double smallest = std::min(drawn.trigger_factor * drawn.size_tip, drawn.size_root),
               largest = std::max(drawn.size_tip, drawn.size_root);
  if (!is_sized(*drawn.cell))
    return {0.001 / smallest, 0.999 / largest};
  return {drawn.cell->size_ratio_range.low * drawn.cell_edge / smallest * (1 + 1e-9),
          drawn.cell->size_ratio_range.high * drawn.cell_edge / largest * (1 - 1e-9)};
}

/// Size factor whose lattice has the mass that is left for it; bisection, mass rises with size.
double factor_for(const Weighing& weighing, double weighed, double skin_thickness) {
  const double left = weighed - weighing.plate_mass - skin_mass(weighing, skin_thickness);
  const auto mass = [&](double factor) {
    return lattice_mass(weighing.drawn.with_size_scaled(factor), weighing.input.envelope, skin_thickness,
                        weighing.input.layer_count);
  };
  const std::string path = fmt::format("structures.{}.as_built.weighed_mass", weighing.input.id);
  if (left <= 0)
    fail_in_case(weighing.crash_case, path,
                 fmt::format("{} is less than skin and plates alone, {}", show(weighed, Dimension::mass),
                             show(weighed - left, Dimension::mass)),
                 "Weigh the whole printed structure, without fasteners, or correct skin and plate thickness.");
  Range factors = possible_factors(weighing.drawn);
  if (mass(factors.low) > left || mass(factors.high) < left)
    fail_in_case(
        weighing.crash_case, path,
        fmt::format("{} leaves {} for the lattice, which no size of {} between {} and {} of the drawing gives",
                    show(weighed, Dimension::mass), show(left, Dimension::mass), weighing.drawn.cell->id,
                    show(factors.low, Dimension::fraction), show(factors.high, Dimension::fraction)),
        "Check the mass, the sections and the skin thickness.");
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (factors.low + factors.high);
    (mass(middle) < left ? factors.low : factors.high) = middle;
  }
  return 0.5 * (factors.low + factors.high);
}

std::string name_of_size(const LatticeFill& fill) {
  return is_sized(*fill.cell) ? fill.cell->size_name : "relative density";
}

std::string shown_size(const LatticeFill& fill, double size) {
  return show(size, is_sized(*fill.cell) ? Dimension::length : Dimension::fraction);
}

double mean_size(const LatticeFill& fill) {
  return 0.5 * (fill.size_tip + fill.size_root);
}

/// Factors at the ends of what was stated for the weighed mass and the skin.
Range factor_range(const Weighing& weighing, double skin_low, double skin_high) {
  const Quantity& weighed = *weighing.input.as_built->weighed_mass;
  return {factor_for(weighing, weighed.low_end(), skin_high), factor_for(weighing, weighed.high_end(), skin_low)};
}

std::string weighing_note(const Weighing& weighing, double factor, const Range& range, bool skin_known) {
  const double mean = mean_size(weighing.drawn);
  const std::string begin =
      fmt::format("The weighed mass of {}, less skin and plates at their {} thickness, means a mean {} of ",
                  show(weighing.input.as_built->weighed_mass->value, Dimension::mass),
                  skin_known ? "measured" : "drawn", name_of_size(weighing.drawn));
  const std::string condition =
      fmt::format(" (drawn {}), if no powder is trapped and the metal is at its stated density.",
                  shown_size(weighing.drawn, mean));
  if (skin_known)
    return fmt::format("{}{} ± {}{}", begin, shown_size(weighing.drawn, factor * mean),
                       shown_size(weighing.drawn, 0.5 * (range.high - range.low) * mean), condition);
  return fmt::format("{}{} to {}{} The skin was not measured: the range takes it within ± {:.0f} % of the drawing.",
                     begin, shown_size(weighing.drawn, range.low * mean),
                     shown_size(weighing.drawn, range.high * mean), condition, 100 * unmeasured_skin_tolerance);
}

} // namespace

AsBuilt as_built(const CrashCase& crash_case, const StructureInput& input, const LatticeFill& drawn,
                 double drawn_skin_thickness, double skin_density, double plate_mass) {
  AsBuilt result;
  result.skin_thickness = drawn_skin_thickness;
  if (!input.as_built)
    return result;
  const AsBuiltInput& measured = *input.as_built;
  const bool skin_known = measured.measured_skin_thickness.has_value() || drawn_skin_thickness == 0;
  double skin_low = drawn_skin_thickness * (1 - unmeasured_skin_tolerance);
  double skin_high = drawn_skin_thickness * (1 + unmeasured_skin_tolerance);
  if (measured.measured_skin_thickness) {
    result.skin_thickness = measured.measured_skin_thickness->value;
    skin_low = measured.measured_skin_thickness->low_end();
    skin_high = measured.measured_skin_thickness->high_end();
  }
  const Weighing weighing{crash_case, input, drawn, skin_density, plate_mass};
  if (measured.weighed_mass) {
    result.size_factor = factor_for(weighing, measured.weighed_mass->value, result.skin_thickness);
    result.notes.push_back(
        weighing_note(weighing, result.size_factor, factor_range(weighing, skin_low, skin_high), skin_known));
  }
  if (measured.measured_size) {
    const double factor = measured.measured_size->value / mean_size(drawn);
    result.notes.push_back(fmt::format("The measured mean {} of {} is used (drawn {}){}", name_of_size(drawn),
                                       shown_size(drawn, measured.measured_size->value),
                                       shown_size(drawn, mean_size(drawn)),
                                       measured.weighed_mass ? ", before what the weighed mass implies." : "."));
    result.size_factor = factor;
  }
  return result;
}

} // namespace crushwright
