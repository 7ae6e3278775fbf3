#pragma once
#include "crushwright/crash_case.hpp"
#include "crushwright/estimate.hpp"
#include "crushwright/material.hpp"
#include "estimate/ingredients.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// Temperatures along a structure: its own, else the case's service temperature all along; empty when neither is
/// stated.
std::vector<TemperaturePoint> temperatures_of(const CrashCase& crash_case, const StructureInput& input);

/// Strength factor of a material at a station [-], linear in temperature between the points and even beyond them; 1
/// where no temperature or no factor is stated.
double strength_at(const BaseMaterial& material, const std::vector<TemperaturePoint>& temperatures, double station);

/// Temperature and factor of each layer; absent where no temperature is stated.
std::optional<LayerHeat> layer_heat(const Ingredients& from, const std::vector<Layer>& layers);

/// Warns of a metal that is hot, at the hottest of `stations`, and states no factor there.
void warn_of_heat(const BaseMaterial& material, const std::vector<TemperaturePoint>& temperatures,
                  const std::vector<double>& stations, std::vector<std::string>& warnings);

} // namespace crushwright
