#pragma once
#include "crushwright/column_check.hpp"

#include <cstddef>
#include <functional>

/// Cantilevers whose sections are written down here, not taken from the room. Materials are made up.
namespace service_samples {

using namespace crushwright;

inline Quantity value(double si) {
  Quantity quantity;
  quantity.value = si;
  return quantity;
}

/// Made up: as stiff and strong as some printed lattice might be.
inline BeamMaterial made_up_lattice() {
  BeamMaterial material;
  material.youngs_modulus = 1.2e9;
  material.shear_modulus = 0.4e9;
  material.first_yield = 4e6;
  material.collapse_stress = 6e6;
  material.shear_strength = 2.5e6;
  material.density = 400;
  material.metal_proof_stress = 200e6;
  return material;
}

/// Made up: a light metal.
inline BeamMaterial made_up_skin() {
  BeamMaterial material;
  material.youngs_modulus = 70e9;
  material.shear_modulus = 70e9 / 2.6; // Poisson's ratio 0.3
  material.first_yield = material.collapse_stress = 200e6;
  material.shear_strength = 115e6;
  material.density = 2700;
  material.metal_proof_stress = 200e6;
  return material;
}

/// A rectangle, width along y and height along z, with a wall of `thickness` and a core.
inline BeamSection box(double station, double width, double height, double thickness, bool core = true) {
  const double w = width - 2 * thickness, h = height - 2 * thickness;
  BeamSection section;
  section.station = station;
  section.half_depth = {width / 2, height / 2};
  section.skin_thickness = thickness;
  section.skin_area = width * height - w * h;
  section.skin_second_moment = {(height * width * width * width - h * w * w * w) / 12,
                                (width * height * height * height - w * h * h * h) / 12};
  section.skin = made_up_skin();
  if (core) {
    section.lattice_area = w * h;
    section.lattice_second_moment = {h * w * w * w / 12, w * h * h * h / 12};
    section.lattice = made_up_lattice();
  }
  return section;
}

/// A core without a skin.
inline BeamSection bare(double station, double width, double height) {
  BeamSection section = box(station, width, height, 0);
  section.skin = BeamMaterial{};
  return section;
}

/// Sections at the middles of equal layers, then at the root, as the estimate lays them.
inline BeamColumn column_of(double length, std::size_t layers, const std::function<BeamSection(double)>& section) {
  BeamColumn column;
  column.structure = "cone";
  column.length = length;
  for (std::size_t i = 0; i < layers; ++i)
    column.sections.push_back(section(length * (static_cast<double>(i) + 0.5) / static_cast<double>(layers)));
  column.sections.push_back(section(length));
  return column;
}

inline ServiceLoad load_named(const std::string& id) {
  ServiceLoad load;
  load.id = id;
  load.structure = "cone";
  load.factor = value(1);
  return load;
}

inline ServiceLoad force_at(double station, double x, double y, double z) {
  ServiceLoad load = load_named("force");
  load.force = {value(x), value(y), value(z)};
  load.station = value(station);
  return load;
}

inline ServiceLoad pressure_on(const std::string& side, double pressure) {
  ServiceLoad load = load_named("flow");
  load.pressure = value(pressure);
  load.pressure_side = side;
  return load;
}

} // namespace service_samples
