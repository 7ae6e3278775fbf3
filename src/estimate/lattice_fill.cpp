#include "estimate/lattice_fill.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <numeric>

namespace crushwright {
namespace {

/// Along either side of the section's box; a factor linear across the section is averaged exactly but at its rim.
constexpr int samples_across = 12;

bool contains(const std::vector<std::array<double, 2>>& loop, const std::array<double, 2>& point) {
  bool inside = false;
  for (std::size_t i = 0, before = loop.size() - 1; i < loop.size(); before = i++) {
    const auto &a = loop[before], &b = loop[i];
    if ((a[1] > point[1]) != (b[1] > point[1]) && point[0] < a[0] + (b[0] - a[0]) * (point[1] - a[1]) / (b[1] - a[1]))
      inside = !inside;
  }
  return inside;
}

/// Points spread evenly over the inside of an outline; its centroid where it is too thin for any.
std::vector<std::array<double, 2>> points_inside(const Section& section) {
  const std::vector<std::array<double, 2>> loop = outline(section);
  std::array<double, 2> low = loop.front(), high = loop.front();
  for (const auto& corner : loop)
    for (std::size_t axis = 0; axis < 2; ++axis) {
      low[axis] = std::min(low[axis], corner[axis]);
      high[axis] = std::max(high[axis], corner[axis]);
    }
  std::vector<std::array<double, 2>> points;
  for (int row = 0; row < samples_across; ++row)
    for (int column = 0; column < samples_across; ++column) {
      const std::array<double, 2> point{low[0] + (high[0] - low[0]) * (column + 0.5) / samples_across,
                                        low[1] + (high[1] - low[1]) * (row + 0.5) / samples_across};
      if (contains(loop, point))
        points.push_back(point);
    }
  if (points.empty())
    points.push_back(centroid_of(section));
  return points;
}

} // namespace

std::vector<double> LatticeFill::sizes_at(double station) const {
  const double drawn = size_tip + (size_root - size_tip) * station / length;
  const double size = station < trigger_length ? trigger_factor * drawn : drawn;
  if (!size_factor)
    return {size};
  std::vector<double> sizes;
  for (const auto& [y, z] : points_inside(section_at(*envelope, station)))
    sizes.push_back(size * factor_at(*size_factor, {station, y, z}));
  return sizes;
}

double LatticeFill::size_at(double station) const {
  const std::vector<double> sizes = sizes_at(station);
  return std::accumulate(sizes.begin(), sizes.end(), 0.0) / static_cast<double>(sizes.size());
}

double LatticeFill::smallest_size_at(double station) const {
  const std::vector<double> sizes = sizes_at(station);
  return *std::min_element(sizes.begin(), sizes.end());
}

double LatticeFill::relative_density_of(double size) const {
  return is_sized(*cell) ? relative_density(*cell, size / cell_edge) : size;
}

double LatticeFill::relative_density_at(double station) const {
  double sum = 0;
  const std::vector<double> sizes = sizes_at(station);
  for (const double size : sizes)
    sum += relative_density_of(size);
  return sum / static_cast<double>(sizes.size());
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
    const double thickness = (station < fill.trigger_length ? fill.trigger_skin_factor : 1) * skin_thickness;
    volume += fill.relative_density_at(station) * area_inside(section, thickness) * height;
  }
  return volume * fill.material->density->value;
}

} // namespace crushwright
