#pragma once
#include "column_check/service_samples.hpp"
#include "crush_curve/test_layers.hpp"

/// Bare lattice columns with the layers that crush.
namespace column_samples {

using namespace service_samples;

inline BeamSection lattice_section(double station, double width, double height) {
  BeamSection section = bare(station, width, height);
  section.lattice_plastic_modulus = {height * width * width / 4, width * height * height / 4};
  return section;
}

struct Sample {
  BeamColumn column;
  std::vector<Layer> layers;
  CrushCurve curve;

  ColumnLoading loading(double degrees, double share_of_length = 0.3) const {
    ColumnLoading load;
    load.curve = &curve;
    load.peak_crush = share_of_length * column.length;
    load.angle = degrees * 3.14159265358979323846 / 180;
    return load;
  }
};

/// Width and height linear from tip to root; every layer crushes at its own plateau stress times its area.
inline Sample taper(double length, double tip, double root, std::size_t count = 48) {
  Sample sample;
  sample.column = column_of(length, count, [&](double station) {
    const double side = tip + (root - tip) * station / length;
    return lattice_section(station, side, side);
  });
  const double height = length / static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i)
    sample.layers.push_back(test_layers::lattice_layer(height * static_cast<double>(i), height,
                                                       sample.column.sections[i].lattice.collapse_stress *
                                                           sample.column.sections[i].lattice_area));
  sample.curve = crush_curve(sample.layers);
  return sample;
}

} // namespace column_samples
