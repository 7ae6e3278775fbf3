#include "estimate/rate_curve.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace crushwright {
namespace {

/// Length of one whole fold of an empty skin [m]; recalled (docs/method/cell_loading.md).
double fold_length(const SectionProperties& section, double thickness) {
  const double width = wall_width(section, thickness);
  if (section.corner_count >= 3)
    return 2 * 0.983 * std::cbrt(width * width * thickness);
  return 2 * std::sqrt(std::numbers::pi * width * thickness / (2 * std::numbers::sqrt3));
}

/// Layers whose forces differ by less are equal but for rounding.
constexpr double same_force = 1e-9;

/// Indices of the layers in the order in which their turns come.
std::vector<std::size_t> in_turn(const std::vector<Layer>& layers) {
  std::vector<std::size_t> order(layers.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto force = [&](std::size_t i) { return layers[i].start_force(); };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return force(a) < force(b); });
  for (auto begin = order.begin(); begin != order.end();) {
    const double limit = force(*begin) * (1 + same_force);
    const auto end = std::find_if(begin, order.end(), [&](std::size_t i) { return force(i) > limit; });
    std::sort(begin, end);
    begin = end;
  }
  return order;
}

double full_crush(const Layer& layer) {
  return layer.efficiency_strain * layer.height;
}

double metal_factor(const MetalRate& metal, double strain_rate, RatePurpose purpose) {
  const double energy = metal.energy ? rate_factor(*metal.energy, strain_rate) : 1;
  if (purpose == RatePurpose::energy)
    return energy;
  // A force check takes the stronger of the two, whichever of them the material calls its peak law.
  return metal.peak ? std::max(energy, rate_factor(*metal.peak, strain_rate)) : energy;
}

/// Of lattice and skin together, weighed with their forces.
double layer_factor(const StructureModel& structure, std::size_t i, double speed, RatePurpose purpose) {
  const Layer& layer = structure.layers[i];
  const double strain_rate = speed / structure.row_heights[i];
  double force = 0;
  if (layer.lattice_force > 0)
    force += layer.lattice_force * metal_factor(structure.lattice_rate, strain_rate, purpose);
  if (layer.skin_force > 0)
    force += layer.skin_force * metal_factor(structure.skin_rate, strain_rate, purpose);
  return force / layer.collapse_force();
}

/// Crush at which the curve reaches a force for the first time.
double first_crush_at(const CrushCurve& curve, double force) {
  for (std::size_t k = 0; k < curve.crush.size(); ++k)
    if (curve.force[k] >= force) {
      if (k == 0)
        return curve.crush.front();
      const double slope = (curve.force[k] - curve.force[k - 1]) / (curve.crush[k] - curve.crush[k - 1]);
      return curve.crush[k - 1] + (force - curve.force[k - 1]) / slope;
    }
  return curve.crush.back();
}

/// The layers in turn with the crush at which each starts: the body's rise first, then what is left of its stroke
/// shared as the layers' own strokes.
std::vector<RowTurn> turns_in_order(const StructureModel& structure) {
  const std::vector<std::size_t> order = in_turn(structure.layers);
  double stroke = 0;
  for (const Layer& layer : structure.layers)
    stroke += full_crush(layer);
  const double begin =
      std::min(0.5 * stroke, first_crush_at(structure.curve, structure.layers[order.front()].start_force()));
  std::vector<RowTurn> turns;
  double before = 0;
  for (const std::size_t i : order) {
    RowTurn turn;
    turn.layer = i;
    turn.crush = begin + before * (1 - begin / stroke);
    turns.push_back(turn);
    before += full_crush(structure.layers[i]);
  }
  return turns;
}

/// Factor over crush, straight from turn to turn.
double factor_at(const std::vector<RowTurn>& turns, double crush) {
  const auto above = std::upper_bound(turns.begin(), turns.end(), crush,
                                      [](double place, const RowTurn& turn) { return place < turn.crush; });
  if (above == turns.begin())
    return turns.front().factor;
  if (above == turns.end())
    return turns.back().factor;
  const RowTurn& below = *(above - 1);
  const double part = (crush - below.crush) / (above->crush - below.crush);
  return below.factor + part * (above->factor - below.factor);
}

/// Points of the curve and of the turns, none closer than rounding.
std::vector<double> places_of(const CrushCurve& curve, const std::vector<RowTurn>& turns) {
  std::vector<double> all = curve.crush;
  for (const RowTurn& turn : turns)
    all.push_back(turn.crush);
  std::sort(all.begin(), all.end());
  const double close = 1e-12 * curve.crush.back();
  std::vector<double> places;
  for (const double place : all)
    if (places.empty() || place - places.back() > close)
      places.push_back(place);
  return places;
}

} // namespace

std::vector<double> row_heights(const Ingredients& from, const std::vector<Layer>& layers) {
  std::vector<double> heights;
  heights.reserve(layers.size());
  for (const Layer& layer : layers) {
    const double middle = layer.station + 0.5 * layer.height;
    heights.push_back(from.fill ? std::max(from.fill->cell_edge, layer.height)
                                : fold_length(properties_of(section_at(from.input->envelope, middle)),
                                              from.skin_thickness_at(middle)));
  }
  return heights;
}

std::vector<RowTurn> row_turns(const StructureModel& structure, double closing_speed, double moving_mass,
                               RatePurpose purpose) {
  std::vector<RowTurn> turns = turns_in_order(structure);
  turns.front().speed = closing_speed;
  turns.front().factor = layer_factor(structure, turns.front().layer, closing_speed, RatePurpose::energy);
  double energy_before = 0, absorbed = 0; // at rest strength, and at the factors
  for (std::size_t k = 1; k < turns.size(); ++k) {
    RowTurn& turn = turns[k];
    const double energy = structure.curve.energy_at(turn.crush);
    const auto start_with = [&](double mean_factor) {
      const double gone = absorbed + mean_factor * (energy - energy_before);
      turn.speed = std::sqrt(std::max(0.0, closing_speed * closing_speed - 2 * gone / moving_mass));
      turn.factor = layer_factor(structure, turn.layer, turn.speed, RatePurpose::energy);
      return gone;
    };
    // First as if the last row's factor went on, then with the mean of both ends.
    start_with(turns[k - 1].factor);
    absorbed = start_with(0.5 * (turns[k - 1].factor + turn.factor));
    energy_before = energy;
  }
  if (purpose == RatePurpose::peak)
    for (RowTurn& turn : turns)
      turn.factor = layer_factor(structure, turn.layer, turn.speed, purpose);
  return turns;
}

LayerRates layer_rates(const StructureModel& structure, double closing_speed, double moving_mass) {
  const std::size_t count = structure.layers.size();
  LayerRates rates{structure.id, std::vector<double>(count), std::vector<double>(count), std::vector<double>(count)};
  for (const RowTurn& turn : row_turns(structure, closing_speed, moving_mass, RatePurpose::energy)) {
    rates.strain_rate[turn.layer] = turn.speed / structure.row_heights[turn.layer];
    rates.energy_factor[turn.layer] = turn.factor;
  }
  for (const RowTurn& turn : row_turns(structure, closing_speed, moving_mass, RatePurpose::peak))
    rates.peak_factor[turn.layer] = turn.factor;
  return rates;
}

CrushCurve curve_at_speed(const StructureModel& structure, double closing_speed, double moving_mass,
                          RatePurpose purpose) {
  if (!structure.has_rate_law || !(closing_speed > 0) || !(moving_mass > 0))
    return structure.curve;
  const std::vector<RowTurn> turns = row_turns(structure, closing_speed, moving_mass, purpose);
  const CrushCurve& base = structure.curve;
  CrushCurve curve = base;
  curve.crush = places_of(base, turns);
  curve.force.clear();
  curve.energy.clear();
  for (std::size_t k = 0; k < curve.crush.size(); ++k) {
    const double crush = curve.crush[k];
    curve.force.push_back(base.force_at(crush) * factor_at(turns, crush));
    curve.energy.push_back(k == 0 ? 0
                                  : curve.energy.back() +
                                        0.5 * (curve.force[k] + curve.force[k - 1]) * (crush - curve.crush[k - 1]));
  }
  curve.bottoming_force = curve.force_at(base.bottoming_crush);
  return curve;
}

} // namespace crushwright
