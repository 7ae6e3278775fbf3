#pragma once
#include "crushwright/cell_property.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What a reader of these properties must know before using them, one or two sentences each. Asked before the
/// efficiency strain is limited.
std::vector<std::string> cell_warnings(const UnitCell& cell, const BaseMaterial& material,
                                       const CellProperties& properties);

} // namespace crushwright
