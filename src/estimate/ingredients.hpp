#pragma once
#include "crushwright/crash_case.hpp"
#include "crushwright/errors.hpp"
#include "estimate/lattice_fill.hpp"

#include <fmt/format.h>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// What one structure's layers are made from.
struct Ingredients {
  const StructureInput* input = nullptr;
  std::optional<LatticeFill> fill;
  const BaseMaterial* skin_material = nullptr;
  double skin_thickness = 0; ///< behind the trigger, if there is one
  double skin_flow_stress = 0;
  double trigger_length = 0;      ///< from the struck end [m]; 0 without a trigger
  double trigger_skin_factor = 1; ///< on the skin's thickness along it [-]

  std::vector<TemperaturePoint> temperatures; ///< along the structure; empty: room temperature

  double skin_thickness_at(double station) const {
    return station < trigger_length ? trigger_skin_factor * skin_thickness : skin_thickness;
  }
};

/// Perimeter of the skin's middle [m].
inline double mid_line_perimeter(const SectionProperties& section, double thickness) {
  return section.perimeter - section.offset_term * thickness;
}

/// Width of one folding wall of the skin [m]: a side's share of the middle perimeter, or a smooth outline's diameter.
inline double wall_width(const SectionProperties& section, double thickness) {
  const double parts = section.corner_count >= 3 ? section.corner_count : std::numbers::pi;
  return mid_line_perimeter(section, thickness) / parts;
}

inline std::string path_of(const StructureInput& input, const std::string& below) {
  return fmt::format("structures.{}.{}", input.id, below);
}

/// Runs an action; a value outside its domain becomes an InputError at the case's line.
template <class Action>
auto at_case_line(const CrashCase& crash_case, const std::string& path, const std::string& what_to_do,
                  const Action& action) {
  try {
    return action();
  } catch (const OutOfDomain& fault) {
    fail_in_case(crash_case, path, fault.what(), what_to_do);
  }
}

} // namespace crushwright
