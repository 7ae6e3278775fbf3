#include "estimate/layer_temperature.hpp"

#include "quantities/units.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr double absolute_zero = 273.15;
constexpr double warm = absolute_zero + 100, hot = absolute_zero + 175;

double temperature_at(const std::vector<TemperaturePoint>& points, double station) {
  const auto above = std::find_if(points.begin(), points.end(),
                                  [&](const TemperaturePoint& point) { return point.station >= station; });
  if (above == points.begin())
    return points.front().temperature;
  if (above == points.end())
    return points.back().temperature;
  const TemperaturePoint& below = *(above - 1);
  const double part = (station - below.station) / (above->station - below.station);
  return below.temperature + part * (above->temperature - below.temperature);
}

} // namespace

std::vector<TemperaturePoint> temperatures_of(const CrashCase& crash_case, const StructureInput& input) {
  if (!input.temperatures.empty() || !crash_case.service_temperature)
    return input.temperatures;
  return {{0, crash_case.service_temperature->value}};
}

double strength_at(const BaseMaterial& material, const std::vector<TemperaturePoint>& temperatures, double station) {
  return temperatures.empty() ? 1 : strength_factor(material, temperature_at(temperatures, station)).value_or(1);
}

std::optional<LayerHeat> layer_heat(const Ingredients& from, const std::vector<Layer>& layers) {
  if (from.temperatures.empty())
    return std::nullopt;
  LayerHeat heat;
  for (const Layer& layer : layers) {
    const double middle = layer.station + 0.5 * layer.height;
    double cold = 0; // force at room temperature
    if (layer.lattice_force > 0)
      cold += layer.lattice_force / strength_at(*from.fill->material, from.temperatures, middle);
    if (layer.skin_force > 0)
      cold += layer.skin_force / strength_at(*from.skin_material, from.temperatures, middle);
    heat.temperature.push_back(temperature_at(from.temperatures, middle));
    heat.factor.push_back(layer.collapse_force() / cold);
  }
  return heat;
}

void warn_of_heat(const BaseMaterial& material, const std::vector<TemperaturePoint>& temperatures,
                  const std::vector<double>& stations, std::vector<std::string>& warnings) {
  double hottest = 0;
  if (!temperatures.empty())
    for (const double station : stations) {
      const double temperature = temperature_at(temperatures, station);
      if (!strength_factor(material, temperature))
        hottest = std::max(hottest, temperature);
    }
  if (hottest >= hot)
    warnings.push_back(fmt::format("{} at {}: no strength factor is stated, and at this temperature its strength "
                                   "changes with time (ageing). The verdict does not cover that.",
                                   material.id, show(hottest, Dimension::temperature)));
  else if (hottest >= warm)
    warnings.push_back(fmt::format("{} at {}: no strength factor is stated; strength at room temperature is used.",
                                   material.id, show(hottest, Dimension::temperature)));
}

} // namespace crushwright
