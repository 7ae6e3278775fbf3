#pragma once
#include "crushwright/unit_cell.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads lattices/unit_cells/<id>.yaml; the keys are in docs/catalogue_format.md.
///
/// @throws InputError for an unknown key, a missing part of the cell's class (struts of a strut cell, surface of a
/// sheet,
///         density of anything but a foam), a strut outside the unit cube, of no length or listed twice, a density
///         that does not rise inside (0, 1), or a law that cannot be used.
UnitCell read_unit_cell(const Mapping& file);

} // namespace crushwright
