#include "crushwright/material.hpp"

#include <algorithm>

namespace crushwright {

std::optional<double> strength_factor(const BaseMaterial& material, double temperature) {
  const std::vector<TemperatureFactor>& points = material.temperature_factors;
  if (points.empty() || !(points.front().temperature <= temperature && temperature <= points.back().temperature)) {
    return std::nullopt;
  }
  const auto above = std::find_if(points.begin(), points.end(), [temperature](const TemperatureFactor& point) {
    return point.temperature >= temperature;
  });
  if (above == points.begin()) {
    return above->factor;
  }
  const TemperatureFactor& low = *(above - 1);
  const double part = (temperature - low.temperature) / (above->temperature - low.temperature);
  return low.factor + part * (above->factor - low.factor);
}

} // namespace crushwright
