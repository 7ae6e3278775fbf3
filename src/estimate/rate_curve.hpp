#pragma once
#include "crushwright/estimate.hpp"
#include "estimate/ingredients.hpp"

#include <cstddef>
#include <vector>

namespace crushwright {

// What the strain rate does to a crush curve, row by row at the speed of its own moment; docs/method/cell_loading.md.

/// Whether a curve serves checks on energy and the nominal run, or checks on force.
enum class RatePurpose { energy, peak };

/// Height that crushes at once with each layer [m]: a cell row or the layer when that is higher; one whole fold of a
/// skin without a lattice. shape = (number of layers)
std::vector<double> row_heights(const Ingredients& from, const std::vector<Layer>& layers);

/// A layer's turn to crush.
struct RowTurn {
  std::size_t layer = 0;
  double crush = 0;  ///< of the structure when it starts [m]
  double speed = 0;  ///< at that crush [m/s]
  double factor = 1; ///< on its force for the purpose, of lattice and skin together [-]
};

/// The turns of all layers: they crush one after another, weakest first, of equal ones that nearer to the struck end,
/// and what they absorb at their factors for energy is gone from the speed, whatever the purpose: a force check then
/// never meets a slower row than the nominal run.
/// @param closing_speed  [m/s], >= 0.   @param moving_mass  effective, of this structure's share [kg], > 0.
std::vector<RowTurn> row_turns(const StructureModel& structure, double closing_speed, double moving_mass,
                               RatePurpose purpose);

/// Strain rate at which each layer starts to crush, and its factors for both purposes. As row_turns.
LayerRates layer_rates(const StructureModel& structure, double closing_speed, double moving_mass);

/// The curve of a structure whose metals state rate laws, at the strain rates of an impact. Without a law, at no
/// speed or with no mass behind it, the quasi-static curve.
CrushCurve curve_at_speed(const StructureModel& structure, double closing_speed, double moving_mass,
                          RatePurpose purpose);

} // namespace crushwright
