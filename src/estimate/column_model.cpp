#include "estimate/column_model.hpp"

#include "estimate/lattice_beam.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

bool looks_at_columns(LimitedQuantity quantity) {
  switch (quantity) {
  case LimitedQuantity::section_use:
  case LimitedQuantity::bolt_use:
  case LimitedQuantity::stability_reserve:
  case LimitedQuantity::critical_angle:
  case LimitedQuantity::bending_frequency:
  case LimitedQuantity::service_use:
  case LimitedQuantity::fatigue_damage:
    return true;
  default:
    return false;
  }
}

bool is_asked_for(const CrashCase& crash_case) {
  return std::any_of(crash_case.limits.begin(), crash_case.limits.end(),
                     [](const Limit& limit) { return looks_at_columns(limit.quantity); });
}

std::vector<double> layer_masses(const Ingredients& from, const std::vector<Layer>& layers) {
  std::vector<double> masses;
  masses.reserve(layers.size());
  for (const Layer& layer : layers) {
    double mass = 0;
    if (from.fill)
      mass += layer.relative_density * layer.lattice_area * layer.height * from.fill->material->density->value;
    if (from.skin_thickness > 0)
      mass += (layer.section_area - layer.lattice_area) * layer.height * from.skin_material->density->value;
    masses.push_back(mass);
  }
  return masses;
}

double tip_mass(const Ingredients& from, double plate_density) {
  if (!from.input->end_plates)
    return 0;
  return plate_density * from.input->end_plates->tip_thickness.value *
         properties_of(from.input->envelope.sections.front()).area;
}

BeamMaterial skin_beam(const Ingredients& from, double temperature_factor) {
  const BaseMaterial& metal = *from.skin_material;
  const double poisson = metal.poissons_ratio ? metal.poissons_ratio->value : 0.33;
  BeamMaterial beam;
  beam.youngs_modulus = metal.youngs_modulus->value;
  beam.shear_modulus = beam.youngs_modulus / (2 * (1 + poisson));
  beam.first_yield = beam.collapse_stress = metal.proof_stress->value * temperature_factor;
  beam.shear_strength = beam.collapse_stress / std::sqrt(3.0); // von Mises
  beam.density = metal.density->value;
  beam.metal_proof_stress = beam.first_yield;
  return beam;
}

/// What of a lattice's beam values does not come from its layer: ratios over its own modulus and plateau.
struct LatticeRatios {
  double station = 0;
  double shear_modulus = 0, first_yield = 0, shear_strength = 0;
};

LatticeRatios ratios_at(const Ingredients& from, const Layer& layer) {
  const LatticeFill& fill = *from.fill;
  const CellNumbers numbers = cell_numbers(*fill.cell, *fill.material, fill.laws, layer.relative_density);
  const BeamMaterial beam = lattice_beam(*fill.cell, *fill.material, from.input->lattice->crush_direction,
                                         layer.relative_density, numbers.elastic_modulus, numbers.plateau_stress);
  return {layer.station + 0.5 * layer.height, beam.shear_modulus / beam.youngs_modulus,
          beam.first_yield / beam.collapse_stress, beam.shear_strength / beam.collapse_stress};
}

/// Tip and root computed, in between by the station: the ratios change little over a grading.
class LatticeBeams {
public:
  LatticeBeams(const Ingredients& from, const std::vector<Layer>& layers, double temperature_factor)
      : from_(from), temperature_factor_(temperature_factor), tip_(ratios_at(from, layers.front())),
        root_(layers.back().relative_density == layers.front().relative_density ? tip_
                                                                                : ratios_at(from, layers.back())) {}

  BeamMaterial at(const Layer& layer) const {
    const double middle = layer.station + 0.5 * layer.height;
    const double part = root_.station > tip_.station ? (middle - tip_.station) / (root_.station - tip_.station) : 0;
    const auto between = [&](double LatticeRatios::*member) {
      return tip_.*member + std::clamp(part, 0.0, 1.0) * (root_.*member - tip_.*member);
    };
    const CellNumbers numbers =
        cell_numbers(*from_.fill->cell, *from_.fill->material, from_.fill->laws, layer.relative_density);
    BeamMaterial beam;
    beam.youngs_modulus = numbers.elastic_modulus;
    beam.collapse_stress = layer.lattice_area > 0 ? layer.lattice_force / layer.lattice_area : 0;
    beam.shear_modulus = beam.youngs_modulus * between(&LatticeRatios::shear_modulus);
    beam.first_yield = beam.collapse_stress * between(&LatticeRatios::first_yield);
    beam.shear_strength = beam.collapse_stress * between(&LatticeRatios::shear_strength);
    beam.density = layer.relative_density * from_.fill->material->density->value;
    beam.metal_proof_stress = from_.fill->material->proof_stress->value * temperature_factor_;
    return beam;
  }

private:
  const Ingredients& from_;
  double temperature_factor_;
  LatticeRatios tip_, root_;
};

BeamColumn beam_column(const Ingredients& from, const StructureModel& model) {
  BeamColumn column;
  column.structure = model.id;
  column.length = model.envelope.length();
  column.tip_mass = model.tip_mass;
  std::optional<LatticeBeams> lattice;
  if (from.fill)
    lattice.emplace(from, model.layers, model.temperature_factor);
  const auto add = [&](double station, const Layer& layer) {
    BeamSection section = beam_section(section_at(model.envelope, station), from.skin_thickness);
    section.station = station;
    section.skin_thickness = from.skin_thickness;
    if (from.fill) {
      section.lattice = lattice->at(layer);
    } else {
      section.lattice_area = 0;
      section.lattice_second_moment = section.lattice_plastic_modulus = {0, 0};
    }
    if (from.skin_thickness > 0)
      section.skin = skin_beam(from, model.temperature_factor);
    column.sections.push_back(section);
  };
  for (const Layer& layer : model.layers)
    add(layer.station + 0.5 * layer.height, layer);
  add(column.length, model.layers.back());
  return column;
}

} // namespace

void describe_column(const CrashCase& crash_case, const Ingredients& from, double plate_density, bool for_reports,
                     StructureModel& model) {
  model.layer_masses = layer_masses(from, model.layers);
  model.tip_mass = tip_mass(from, plate_density);
  model.attachment = from.input->attachment;
  model.bolts = from.input->bolts;
  if (for_reports || is_asked_for(crash_case))
    model.column = beam_column(from, model);
}

void describe_service(const CrashCase& crash_case, StructureModel& model) {
  if (model.column.sections.empty())
    return;
  model.bending_frequency = bending_frequency(model.column);
  const BoltPattern* bolts = model.bolts ? &*model.bolts : nullptr;
  std::vector<ServiceLoad> own;
  for (const ServiceLoad& load : crash_case.service_loads)
    if (load.structure == model.id)
      own.push_back(load);
  model.service.clear();
  for (const ServiceLoad& load : own)
    model.service.push_back(service_outcome(model.column, load, bolts, model.cell_edge));
  model.fatigue.reset();
  if (std::any_of(own.begin(), own.end(), [](const ServiceLoad& load) { return load.cycles > 0; }))
    model.fatigue = fatigue_outcome(model.service, own, crash_case.fatigue_strengths, model.id);
}

void mirror_column(StructureModel& twin) {
  twin.column.structure = twin.id;
  for (BeamSection& section : twin.column.sections)
    section.centroid[0] = -section.centroid[0];
  if (twin.bolts)
    for (std::array<double, 2>& place : twin.bolts->places)
      place[0] = -place[0];
}

} // namespace crushwright
