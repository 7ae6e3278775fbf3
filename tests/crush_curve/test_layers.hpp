#pragma once
#include "crushwright/crush_curve.hpp"

#include <cmath>
#include <cstddef>
#include <functional>
#include <utility>
#include <vector>

// Layers and curves simple enough for closed forms.
namespace test_layers {

using crushwright::CrushCurve;
using crushwright::CurveShape;
using crushwright::Layer;

/// Flat at 1 from `rise` to `locking`, then 1e9 per unit strain; with no rise the flat begins at once.
inline CurveShape rigid_plastic_locking(double locking, double rise = 0) {
  CurveShape shape{};
  const std::size_t first = rise > 0 ? 1 : 0;
  const std::size_t flat = CurveShape::points - 2 - first;
  for (std::size_t i = 0; i + 1 + first < CurveShape::points; ++i) {
    shape.strain[i + first] = rise + (locking - rise) * static_cast<double>(i) / static_cast<double>(flat);
    shape.ratio[i + first] = 1;
  }
  shape.strain.back() = locking + 1e-9;
  shape.ratio.back() = 2;
  return shape;
}

/// A lattice's shape: rise, plateau with a little slope, densification.
inline CurveShape lattice_shape() {
  crushwright::CurveShapeInput input{};
  input.efficiency_strain = 0.6;
  input.packing_strain = 0.8;
  input.rise_strain = 0.06;
  input.plateau_slope = 0.1;
  return crushwright::curve_shape(input);
}

inline Layer layer(double station, double height, double force, const CurveShape& shape, double efficiency_strain) {
  Layer result;
  result.station = station;
  result.height = height;
  result.lattice_force = force;
  result.elastic_force = 100 * force;
  result.shape = shape;
  result.efficiency_strain = efficiency_strain;
  return result;
}

inline Layer lattice_layer(double station, double height, double force) {
  return layer(station, height, force, lattice_shape(), 0.6);
}

/// Layers of equal height, each with the collapse force of its middle.
inline std::vector<Layer> layers_of(std::size_t count, double length, const std::function<double(double)>& force,
                                    double locking) {
  std::vector<Layer> layers;
  const double height = length / static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double station = height * static_cast<double>(i);
    layers.push_back(layer(station, height, force(station + 0.5 * height), rigid_plastic_locking(locking), locking));
  }
  return layers;
}

/// A crush curve straight through (crush, force) points.
inline CrushCurve polyline(const std::vector<std::pair<double, double>>& points, double elastic_stiffness = 0) {
  CrushCurve curve;
  for (const auto& [crush, force] : points) {
    const double area = curve.crush.empty() ? 0 : 0.5 * (force + curve.force.back()) * (crush - curve.crush.back());
    curve.energy.push_back(curve.energy.empty() ? 0 : curve.energy.back() + area);
    curve.crush.push_back(crush);
    curve.force.push_back(force);
  }
  curve.elastic_stiffness = elastic_stiffness;
  curve.bottoming_crush = curve.crush.back();
  curve.bottoming_force = curve.force.back();
  return curve;
}

} // namespace test_layers
