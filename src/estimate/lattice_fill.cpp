#include "estimate/lattice_fill.hpp"

namespace crushwright {

double LatticeFill::size_at(double station) const {
  return size_tip + (size_root - size_tip) * station / length;
}

double LatticeFill::relative_density_at(double station) const {
  const double size = size_at(station);
  return is_sized(*cell) ? relative_density(*cell, size / cell_edge) : size;
}

LatticeFill LatticeFill::with_size_scaled(double factor) const {
  LatticeFill changed = *this;
  changed.size_tip *= factor;
  changed.size_root *= factor;
  return changed;
}

double lattice_mass(const LatticeFill& fill, const Envelope& envelope, double skin_thickness, int slices) {
  const double height = envelope.length() / slices;
  double volume = 0;
  for (int i = 0; i < slices; ++i) {
    const double station = (i + 0.5) * height;
    const SectionProperties section = properties_of(section_at(envelope, station));
    volume += fill.relative_density_at(station) * area_inside(section, skin_thickness) * height;
  }
  return volume * fill.material->density->value;
}

} // namespace crushwright
