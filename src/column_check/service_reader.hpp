#pragma once
#include "crushwright/column_check.hpp"
#include "yaml_input/mapping.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// Reads the root's `service_loads` (allow the key); absent gives none. A load of all structures comes once for each.
/// @param structures  ids that a load may name.
/// @throws InputError at the key, as the next.
std::vector<ServiceLoad> read_service_loads(const Mapping& root, const std::vector<std::string>& structures);

/// Refuses a load of this structure that acts beyond its attachment, at the load's line.
void check_service_stations(const Mapping& root, const std::vector<ServiceLoad>& loads, const std::string& structure,
                            double length);

/// Reads the root's `fatigue` (allow the key): strengths of skin, lattice and root; absent gives none.
std::vector<FatigueStrength> read_fatigue(const Mapping& root);

} // namespace crushwright
