#pragma once
#include <string_view>

namespace crushwright {

/// docs/references.bib as it was when the program was built.
std::string_view references_bib();

} // namespace crushwright
