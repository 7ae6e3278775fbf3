#pragma once
#include "crushwright/component_test.hpp"

#include <string>

namespace crushwright {

/// A component test beside its prediction: errors, rating, overlay with the sides, energies, cautions; one
/// self-contained HTML document that reads nothing from the network.
/// @throws NotFinite when a number to be drawn is NaN or infinite.
std::string correlation_page(const CrashCase& crash_case, const ComponentComparison& comparison,
                             const std::string& program_version);

/// "measured +12 % over predicted ...": what the comparison says, one sentence each; for page and terminal.
std::vector<std::string> correlation_sentences(const ComponentComparison& comparison);

} // namespace crushwright
