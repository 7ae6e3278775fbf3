#include "printability/build_cost.hpp"

#include <cmath>

namespace crushwright {

double build_time(const BuildWork& work, const PrintRates& rates) {
  double layers = 0;
  for (const double height : work.heights)
    layers += std::ceil(height / rates.layer_thickness.value * (1 - 1e-12));
  double time = layers * rates.recoat_time.value / rates.parts_per_build + work.volume / rates.volume_rate.value;
  if (rates.contour_rate)
    time += work.surface / rates.contour_rate->value;
  return time;
}

std::optional<double> build_cost(const BuildWork& work, const PrintRates& rates) {
  if (rates.currency.empty())
    return std::nullopt;
  constexpr double hour = 3600;
  double cost = 0;
  if (rates.cost_per_hour)
    cost += build_time(work, rates) / hour * rates.cost_per_hour->value;
  if (rates.cost_per_kg)
    cost += work.mass * (1 + (rates.powder_loss ? rates.powder_loss->value : 0)) * rates.cost_per_kg->value;
  if (rates.cost_per_build)
    cost += static_cast<double>(work.heights.size()) * rates.cost_per_build->value / rates.parts_per_build;
  return cost;
}

} // namespace crushwright
