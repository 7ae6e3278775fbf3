#include "crushwright/estimate.hpp"
#include "estimate/as_built.hpp"
#include "estimate/column_model.hpp"
#include "estimate/ingredients.hpp"
#include "estimate/layer_temperature.hpp"
#include "estimate/oblique_model.hpp"
#include "estimate/packaging_notes.hpp"
#include "estimate/printing.hpp"
#include "estimate/quick_judgement.hpp"
#include "estimate/rate_curve.hpp"
#include "estimate/structure_notes.hpp"
#include "estimate/trigger.hpp"
#include "quantities/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

/// Strain at which an empty skin's folding force is reached and its packing strain over its effective strain; both
/// are the lattice curve's own proportions, used for want of a fold-by-fold model (docs/method/skin.md).
constexpr double packing_over_effective = 1.25;
/// Interaction of filler and square or smooth wall, from memory (docs/method/skin.md).
constexpr double interaction_square = 5.5, interaction_smooth = 2.74;

const BaseMaterial& usable_material(const CrashCase& crash_case, const Catalogue& catalogue, const std::string& id,
                                    const std::string& path) {
  const BaseMaterial& material = catalogue.material(id);
  for (const auto& [missing, name] :
       {std::pair{!material.density, "density"}, std::pair{!material.proof_stress, "proof stress"},
        std::pair{!material.youngs_modulus, "Young's modulus"}})
    if (missing)
      fail_in_case(crash_case, path,
                   fmt::format("{} has no {} with a source, so nothing can be sized with it", id, name),
                   fmt::format("Add it with its source to a material file of your own, or choose another material."));
  return material;
}

std::string fitting_size_key(const UnitCell& cell) {
  switch (cell.cell_class) {
  case CellClass::strut:
  case CellClass::skeletal:
    return "strut";
  case CellClass::sheet:
  case CellClass::plate:
  case CellClass::honeycomb:
    return "wall";
  case CellClass::solid:
  case CellClass::foam:
    return "relative_density";
  }
  return "strut";
}

void check_size_key(const CrashCase& crash_case, const StructureInput& input, const UnitCell& cell) {
  const std::string fitting = fitting_size_key(cell);
  if (input.lattice->size_key != fitting)
    fail_in_case(crash_case, path_of(input, "lattice." + input.lattice->size_key),
                 fmt::format("{} is sized by `{}`, not by `{}`", cell.id, fitting, input.lattice->size_key),
                 fmt::format("Write `{}:` instead.", fitting));
}

LatticeFill lattice_fill(const CrashCase& crash_case, const Catalogue& catalogue, const StructureInput& input) {
  const LatticeInput& lattice = *input.lattice;
  LatticeFill fill;
  fill.cell = &catalogue.cell(lattice.cell);
  fill.material = &usable_material(crash_case, catalogue, lattice.material, path_of(input, "lattice.material"));
  check_size_key(crash_case, input, *fill.cell);
  const double offset = lattice.process_offset ? lattice.process_offset->value : 0;
  fill.cell_edge = lattice.cell_edge.value;
  fill.size_tip = lattice.size_tip.value + offset;
  fill.size_root = lattice.size_root.value + offset;
  fill.length = input.envelope.length();
  fill.size_factor = lattice.size_factor;
  fill.envelope = &input.envelope;
  if (fill.cell->cell_class == CellClass::solid)
    for (const double density : {fill.size_tip, fill.size_root})
      at_case_line(crash_case, path_of(input, "lattice.relative_density"),
                   "Write the density of the mesh; a weighed part goes under as_built.",
                   [&] { return size_ratio(*fill.cell, density); });
  return fill;
}

void choose_laws_for(const CrashCase& crash_case, const StructureInput& input, LatticeFill& fill) {
  const std::string size_path = path_of(input, "lattice." + input.lattice->size_key);
  const std::string advice =
      !is_sized(*fill.cell)
          ? "Choose a relative density between 0 and 1."
          : fmt::format("With a {} of {} the {} may be {} to {}; change one of the two.", fill.cell->edge_name,
                        show(fill.cell_edge, Dimension::length), fill.cell->size_name,
                        show(fill.cell->size_ratio_range.low * fill.cell_edge, Dimension::length),
                        show(fill.cell->size_ratio_range.high * fill.cell_edge, Dimension::length));
  const double density = at_case_line(crash_case, size_path, advice, [&] {
    for (const double station : {0.0, fill.length})
      (void)fill.relative_density_at(station);
    return fill.relative_density_at(0.5 * fill.length);
  });
  fill.laws =
      at_case_line(crash_case, path_of(input, "lattice.cell"), "Choose another cell, material or direction.",
                   [&] { return choose_laws(*fill.cell, *fill.material, input.lattice->crush_direction, density); });
  if (input.lattice->evidence)
    fill.laws = at_case_line(crash_case, path_of(input, "lattice.evidence"),
                             "Delete the line to take the best evidence that there is.", [&] {
                               return choose_laws(*fill.cell, *fill.material, input.lattice->crush_direction, density,
                                                  input.lattice->evidence);
                             });
}

CurveShape skin_shape(const FoldingSkin& skin) {
  return curve_shape(
      {skin.effective_strain, std::min(0.97, packing_over_effective * skin.effective_strain), default_rise_strain});
}

/// Parts of a section of different size crush together: their stresses add up by area, which is not the stress at
/// their mean density.
void take_section_means(const LatticeFill& fill, double station, CellNumbers& numbers) {
  const std::vector<double> sizes = fill.sizes_at(station);
  numbers.plateau_stress = numbers.elastic_modulus = 0;
  for (const double size : sizes) {
    const CellNumbers part = cell_numbers(*fill.cell, *fill.material, fill.laws, fill.relative_density_of(size));
    numbers.plateau_stress += part.plateau_stress / static_cast<double>(sizes.size());
    numbers.elastic_modulus += part.elastic_modulus / static_cast<double>(sizes.size());
    numbers.efficiency_strain = std::min(numbers.efficiency_strain, part.efficiency_strain);
    numbers.packing_strain = std::min(numbers.packing_strain, part.packing_strain);
  }
}

void add_lattice(const Ingredients& from, double station, Layer& layer, CellNumbers& numbers) {
  layer.size = from.fill->smallest_size_at(station);
  layer.relative_density = from.fill->relative_density_at(station);
  numbers = cell_numbers(*from.fill->cell, *from.fill->material, from.fill->laws, layer.relative_density);
  if (from.fill->size_factor)
    take_section_means(*from.fill, station, numbers);
  layer.lattice_force = numbers.plateau_stress * layer.lattice_area;
  layer.elastic_force += numbers.elastic_modulus * layer.lattice_area;
  layer.efficiency_strain = numbers.efficiency_strain;
}

Layer layer_at(const Ingredients& from, double station, double height) {
  const double middle = station + 0.5 * height;
  const SectionProperties section = properties_of(section_at(from.input->envelope, middle));
  Layer layer;
  layer.station = station;
  layer.height = height;
  layer.section_area = section.area;
  const double thickness = from.skin_thickness_at(middle);
  layer.lattice_area = area_inside(section, thickness);
  CellNumbers numbers;
  FoldingSkin skin{0, 1};
  if (from.fill)
    add_lattice(from, middle, layer, numbers);
  if (thickness > 0) {
    skin =
        folding_skin(mid_line_perimeter(section, thickness), thickness, section.corner_count, from.skin_flow_stress);
    layer.skin_force = skin.mean_force * strength_at(*from.skin_material, from.temperatures, middle);
    layer.elastic_force += from.skin_material->youngs_modulus->value * (section.area - layer.lattice_area);
  }
  if (from.fill)
    layer.lattice_force *= strength_at(*from.fill->material, from.temperatures, middle);
  // Lattice and skin shorten together: the layer is used up when the first of the two is.
  layer.efficiency_strain =
      from.fill ? std::min(layer.efficiency_strain, skin.effective_strain) : skin.effective_strain;
  layer.shape = from.fill ? curve_shape(curve_input(numbers, layer.efficiency_strain)) : skin_shape(skin);
  return layer;
}

MassBreakdown masses(const Ingredients& from, const BaseMaterial* plate_material, const std::vector<Layer>& layers) {
  MassBreakdown mass;
  for (const Layer& layer : layers) {
    if (from.fill)
      mass.lattice +=
          layer.relative_density * layer.lattice_area * layer.height * from.fill->material->density->value;
    if (from.skin_thickness > 0)
      mass.skin += (layer.section_area - layer.lattice_area) * layer.height * from.skin_material->density->value;
  }
  const StructureInput& input = *from.input;
  if (input.end_plates)
    mass.end_plates = plate_material->density->value *
                      (input.end_plates->tip_thickness.value * properties_of(input.envelope.sections.front()).area +
                       input.end_plates->root_thickness.value * properties_of(input.envelope.sections.back()).area);
  mass.fixed = input.fixed_mass.value;
  mass.total = mass.lattice + mass.skin + mass.end_plates + mass.fixed;
  if (input.as_built && input.as_built->weighed_mass) {
    mass.weighed = true;
    mass.total = input.as_built->weighed_mass->value + mass.fixed;
  }
  return mass;
}

/// Force at temperature over force at room temperature, over all layers.
double mean_temperature_factor(const Ingredients& from, const std::vector<Layer>& layers) {
  double hot = 0, cold = 0, lowest = std::numeric_limits<double>::infinity(), highest = 0;
  const auto add = [&](double force, double factor, double height) {
    if (!(force > 0))
      return;
    hot += force * height;
    cold += force / factor * height;
    lowest = std::min(lowest, factor);
    highest = std::max(highest, factor);
  };
  for (const Layer& layer : layers) {
    const double middle = layer.station + 0.5 * layer.height;
    if (from.fill)
      add(layer.lattice_force, strength_at(*from.fill->material, from.temperatures, middle), layer.height);
    if (from.skin_material != nullptr)
      add(layer.skin_force, strength_at(*from.skin_material, from.temperatures, middle), layer.height);
  }
  return lowest == highest ? lowest : hot / cold;
}

/// Warnings of every metal's temperature and rate, and the metals' rates.
void describe_metals(const Ingredients& from, int layer_count, StructureModel& model) {
  std::vector<const BaseMaterial*> metals;
  if (from.fill)
    metals.push_back(from.fill->material);
  if (from.skin_material != nullptr && (metals.empty() || metals.front() != from.skin_material))
    metals.push_back(from.skin_material);
  std::vector<double> middles;
  for (int i = 0; i < layer_count; ++i)
    middles.push_back((i + 0.5) * from.input->envelope.length() / layer_count);
  for (const BaseMaterial* metal : metals)
    warn_of_heat(*metal, from.temperatures, middles, model.warnings);
  for (const BaseMaterial* metal : metals) {
    const MetalRate rate = metal_rate(*metal, model.id, model.warnings);
    if (from.fill && metal == from.fill->material)
      model.lattice_rate = rate;
    if (metal == from.skin_material)
      model.skin_rate = rate;
  }
}

/// Lattice share of the force, and what the interaction law adds to it, as means over the layers.
void describe_filled_skin(const Ingredients& from, StructureModel& model) {
  double lattice = 0, sum = 0, interaction = 0;
  for (const Layer& layer : model.layers) {
    lattice += layer.lattice_force * layer.height;
    sum += layer.collapse_force() * layer.height;
    if (!from.fill || !(from.skin_thickness > 0) || !(layer.lattice_area > 0))
      continue; // the skin fills a tip that comes to a point
    const SectionProperties section =
        properties_of(section_at(from.input->envelope, layer.station + 0.5 * layer.height));
    const bool corners = section.corner_count >= 3;
    const double thickness = from.skin_thickness_at(layer.station + 0.5 * layer.height);
    const double width = wall_width(section, thickness);
    interaction += layer.height * interaction_force(corners ? interaction_square : interaction_smooth,
                                                    layer.lattice_force / layer.lattice_area, from.skin_flow_stress,
                                                    width, thickness);
  }
  model.lattice_share = lattice / sum;
  model.filled_skin = from.fill && from.skin_thickness > 0;
  model.interaction_law = 1 + interaction / sum;
}

StructureModel structure_model(const CrashCase& crash_case, const Catalogue& catalogue, const StructureInput& input,
                               bool with_evidence) {
  StructureModel model;
  model.id = input.id;
  model.lateral = input.lateral;
  model.vertical = input.vertical;
  model.envelope = input.envelope;
  model.packaging = input.packaging;
  Ingredients from;
  from.input = &input;
  if (input.skin) {
    from.skin_material =
        &usable_material(crash_case, catalogue, input.skin->material, path_of(input, "skin.material"));
    from.skin_thickness = input.skin->thickness.value;
    from.skin_flow_stress = flow_stress(*from.skin_material).value;
    model.material_id = from.skin_material->id;
  }
  const BaseMaterial* plate_material = nullptr;
  if (input.end_plates)
    plate_material =
        &usable_material(crash_case, catalogue, input.end_plates->material, path_of(input, "end_plates.material"));
  if (input.lattice)
    from.fill = lattice_fill(crash_case, catalogue, input);
  set_trigger(crash_case, input, from);
  if (from.fill) {
    const double plate_mass = masses(from, plate_material, {}).end_plates;
    const double skin_density = from.skin_material == nullptr ? 0 : from.skin_material->density->value;
    const AsBuilt built = as_built(crash_case, input, *from.fill, from.skin_thickness, skin_density, plate_mass);
    from.skin_thickness = built.skin_thickness;
    from.fill = from.fill->with_size_scaled(built.size_factor);
    choose_laws_for(crash_case, input, *from.fill);
    model.as_built_notes = built.notes;
    model.cell_id = from.fill->cell->id;
    model.material_id = from.fill->material->id;
  }
  model.trigger_length = from.trigger_length;
  from.temperatures = temperatures_of(crash_case, input);
  describe_metals(from, input.layer_count, model);
  model.skin_thickness = from.skin_thickness;
  const double height = input.envelope.length() / input.layer_count;
  const std::string shape_path = from.fill ? path_of(input, "lattice") : path_of(input, "skin.thickness");
  model.layers.reserve(static_cast<std::size_t>(input.layer_count));
  const std::string advice = input.envelope.surface
                                 ? "Change the lattice or the skin, or cut a pointed end of the surface flat."
                                 : "Change the lattice, the skin or the sections.";
  at_case_line(crash_case, shape_path, advice, [&] {
    for (int i = 0; i < input.layer_count; ++i)
      model.layers.push_back(layer_at(from, i * height, height));
    model.first_peak = first_peak(from, model.layers, model.warnings);
    model.later_peaks = later_peaks(from, model.layers, model.first_peak);
    model.row_starts = row_starts(model.layers, model.later_peaks);
    model.curve = crush_curve(model.layers, model.first_peak, model.later_peaks);
  });
  model.temperature_factor = mean_temperature_factor(from, model.layers);
  model.heat = layer_heat(from, model.layers);
  model.mass = masses(from, plate_material, model.layers);
  describe_filled_skin(from, model);
  describe_rate(from, model);
  model.row_heights = row_heights(from, model.layers);
  if (from.fill && with_evidence)
    describe_cells(crash_case, from, model);
  if (from.fill)
    describe_lattice(from, model);
  if (with_evidence && from.skin_thickness > 0)
    describe_skin(from, model);
  const double plate_density = plate_material == nullptr ? 0 : plate_material->density->value;
  describe_printing(crash_case, from, plate_density, model);
  describe_weakening(crash_case, from, model);
  describe_column(crash_case, from, plate_density, with_evidence, model);
  describe_service(crash_case, model);
  if (with_evidence) {
    name_inversions(model);
    describe_shape(model);
    describe_packaging(model);
    advise_on_printing(crash_case, from, plate_density, model);
    if (input.trigger) {
      StructureInput untriggered = input;
      untriggered.trigger.reset();
      model.trigger_effect = trigger_effect(structure_model(crash_case, catalogue, untriggered, false), model);
    }
  }
  return model;
}

StructureModel mirrored_model(const StructureModel& original, const StructureInput& input) {
  StructureModel twin = original;
  twin.id = input.id;
  twin.mirror_of = input.mirror_of;
  twin.lateral = input.lateral;
  twin.envelope = input.envelope;
  // The original says it for both.
  twin.warnings.clear();
  return twin;
}

std::vector<StructureModel> all_models(const CrashCase& crash_case, const Catalogue& catalogue, bool with_evidence) {
  std::vector<StructureModel> models;
  models.reserve(crash_case.structures.size());
  for (const StructureInput& input : crash_case.structures) {
    if (input.mirror_of.empty()) {
      models.push_back(structure_model(crash_case, catalogue, input, with_evidence));
      continue;
    }
    const auto original = std::find_if(models.begin(), models.end(),
                                       [&](const StructureModel& each) { return each.id == input.mirror_of; });
    models.push_back(mirrored_model(*original, input));
    mirror_column(models.back());
    describe_service(crash_case, models.back());
  }
  return models;
}

} // namespace

std::vector<StructureModel> structure_models(const CrashCase& crash_case, const Catalogue& catalogue) {
  return all_models(crash_case, catalogue, true);
}

std::vector<StructureModel> bare_structure_models(const CrashCase& crash_case, const Catalogue& catalogue) {
  return all_models(crash_case, catalogue, false);
}

} // namespace crushwright
