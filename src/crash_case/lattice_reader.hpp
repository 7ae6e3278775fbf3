#pragma once
#include "crushwright/crash_case.hpp"
#include "yaml_input/mapping.hpp"

namespace crushwright {

/// Reads the block `lattice` of a structure. @throws InputError
LatticeInput read_lattice(Mapping lattice);

} // namespace crushwright
