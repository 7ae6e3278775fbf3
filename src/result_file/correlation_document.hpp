#pragma once
#include "crushwright/component_test.hpp"
#include "result_file/json_text.hpp"
#include "result_file/provenance.hpp"

#include <string>

namespace crushwright {

/// Errors and rating of one comparison.
/// @param axis_unit  SI unit of the curves' axis
Json correlation_json(const Correlation& correlation, const char* axis_unit);

/// Everything `correlate` says, as one document; docs/result_format.md.
/// @throws NotFinite (result_file/json_text.hpp) when a number is NaN or infinite.
std::string correlation_document(const CrashCase& crash_case, const ComponentComparison& comparison,
                                 const Provenance& provenance);

} // namespace crushwright
