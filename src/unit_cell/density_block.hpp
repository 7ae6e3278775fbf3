#pragma once
#include "unit_cell/density_fit.hpp"

#include <string>

namespace crushwright {

/// The block `true_density` of a catalogue entry, as text; ends with a new line.
std::string true_density_block(const DensityFit& fit);

/// The entry's text with its block `true_density` replaced by `block`, every other byte as it was. An entry without
/// that block gets it behind its block `nominal_density`.
/// @throws InputError when the entry has neither.
std::string with_true_density(const std::string& entry, const std::string& block, const std::string& shown_name);

/// Whether the entry's text has a block `true_density`.
bool has_true_density(const std::string& entry);

} // namespace crushwright
