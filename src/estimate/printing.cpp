#include "estimate/printing.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {
namespace {

/// Step of the size ratio for the slope of the density [-].
constexpr double slope_step = 1e-4;

/// Metal surface of a lattice over its volume of cells, at a strut or wall [1/m]. A strut, sheet or plate grows
/// evenly on all sides, so the surface is the slope of the solid's volume over its half size; networks and solids are
/// counted by the same rule, which for them is rough (docs/method/printability.md).
double surface_over_volume(const LatticeFill& fill, double size) {
  const UnitCell& cell = *fill.cell;
  if (!is_sized(cell))
    return 0;
  const double ratio = size / fill.cell_edge;
  const double low = std::max(cell.size_ratio_range.low, ratio - slope_step);
  const double high = std::min(cell.size_ratio_range.high, ratio + slope_step);
  const double slope = (relative_density(cell, high) - relative_density(cell, low)) / (high - low);
  return std::max(0.0, 2 * slope / fill.cell_edge);
}

bool lattice_is_printed(const Ingredients& from) {
  return from.fill && from.fill->cell->cell_class != CellClass::foam;
}

void add_lattice(const Ingredients& from, const StructureModel& model, PrintSubject& subject) {
  const LatticeFill& fill = *from.fill;
  subject.cell = fill.cell;
  subject.axes = cell_axes(from.input->lattice->crush_direction, from.input->lattice->turn);
  subject.cell_edge = fill.cell_edge;
  subject.density = fill.material->density->value;
  subject.smallest_size = model.layers.front().size;
  for (const Layer& layer : model.layers) {
    subject.smallest_size = std::min(subject.smallest_size, layer.size);
    subject.largest_size = std::max(subject.largest_size, layer.size);
    subject.surface += layer.lattice_area * layer.height * surface_over_volume(fill, layer.size);
  }
  if (model.smallest_wall > 0)
    subject.smallest_size = std::min(subject.smallest_size, model.smallest_wall);
  subject.volume += model.mass.lattice / subject.density;
  subject.mass += model.mass.lattice;
}

PrintSubject subject_of(const CrashCase& crash_case, const Ingredients& from, double plate_density,
                        const StructureModel& model) {
  const StructureInput& input = *from.input;
  PrintSubject subject;
  subject.envelope = &input.envelope;
  subject.density = from.skin_material == nullptr ? 0 : from.skin_material->density->value;
  if (lattice_is_printed(from))
    add_lattice(from, model, subject);
  subject.skin_thickness = from.skin_thickness;
  if (from.skin_thickness > 0) {
    subject.volume += model.mass.skin / from.skin_material->density->value;
    subject.mass += model.mass.skin;
    for (const Layer& layer : model.layers) {
      const SectionProperties section = properties_of(section_at(input.envelope, layer.station + 0.5 * layer.height));
      subject.surface += 2 * section.perimeter * layer.height;
    }
  }
  if (input.end_plates) {
    subject.tip_plate = input.end_plates->tip_thickness.value;
    subject.root_plate = input.end_plates->root_thickness.value;
    if (crash_case.printing->plates_printed) {
      subject.volume += model.mass.end_plates / plate_density;
      subject.mass += model.mass.end_plates;
      for (const auto& [thickness, section] : {std::pair{subject.tip_plate, &input.envelope.sections.front()},
                                               std::pair{subject.root_plate, &input.envelope.sections.back()}})
        subject.surface += thickness > 0 ? 2 * properties_of(*section).area : 0;
    }
  }
  return subject;
}

/// Crush force of the layer at a joint, nominal [N].
double force_at(const StructureModel& model, double station) {
  for (const Layer& layer : model.layers)
    if (station < layer.station + layer.height)
      return layer.collapse_force();
  return model.layers.back().collapse_force();
}

void add_joints(StructureModel& model) {
  for (SplitJoint& joint : model.printing->joints) {
    joint.crush_force = force_at(model, joint.station);
    model.mass.joints += joint.mass;
  }
  // What was weighed was built, joints and all.
  if (!model.mass.weighed)
    model.mass.total += model.mass.joints;
}

} // namespace

void describe_printing(const CrashCase& crash_case, const Ingredients& from, double plate_density,
                       StructureModel& model) {
  if (!crash_case.printing)
    return;
  const PrintSubject subject = subject_of(crash_case, from, plate_density, model);
  model.printing = at_case_line(crash_case, path_of(*from.input, from.fill ? "lattice.cell" : "skin"),
                                "Choose another cell or size, or take the block `printing` out.",
                                [&] { return print_figures(subject, *crash_case.printing); });
  add_joints(model);
}

void advise_on_printing(const CrashCase& crash_case, const Ingredients& from, double plate_density,
                        StructureModel& model) {
  if (!crash_case.printing)
    return;
  model.print_direction = best_direction(subject_of(crash_case, from, plate_density, model), *crash_case.printing);
  for (const std::string& fault : model.printing->faults)
    model.warnings.push_back(fmt::format("{}: {}", model.id, fault));
}

} // namespace crushwright
