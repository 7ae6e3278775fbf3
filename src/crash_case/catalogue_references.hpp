#pragma once
#include "crushwright/catalogue.hpp"
#include "crushwright/crash_case.hpp"

namespace crushwright {

/// Checks that the catalogue has every cell and material that a case names, before anything is computed with them.
/// @throws InputError at the name's line, with the nearest spelling and the known names.
void check_catalogue_references(const CrashCase& crash_case, const Catalogue& catalogue);

} // namespace crushwright
