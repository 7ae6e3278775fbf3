#pragma once
#include "crushwright/material.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads lattices/base_materials/<id>.yaml; the keys are in docs/catalogue_format.md.
///
/// @throws InputError for an unknown key, a property without source or standing, a value outside its domain, rate
/// laws beside a rate factor, an ultimate
///         stress below the proof stress, or temperature points that do not rise.
BaseMaterial read_base_material(const Mapping& file);

} // namespace crushwright
