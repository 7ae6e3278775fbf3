#pragma once
#include "crushwright/scaling_law.hpp"
#include "yaml_input/mapping.hpp"

#include <string_view>
#include <vector>

namespace crushwright {

/// What a power law multiplies; only a strength law has a stress basis.
enum class LawKind { stiffness, strength, ratio };

/// Reads the list of power laws under `key` of a unit cell; absent gives an empty list. The keys of a law are in
/// docs/catalogue_format.md.
/// @throws InputError for an unknown key, a law without source or standing, an id used twice in the list, or a range
/// that
///         does not lie inside (0, 1).
std::vector<PowerLaw> read_power_laws(const Mapping& cell, std::string_view key, LawKind kind);

/// Reads the list under `densification`. Errors as read_power_laws; also when the strain leaves (0, 1) in the law's
/// range.
std::vector<DensificationLaw> read_densification_laws(const Mapping& cell);

} // namespace crushwright
