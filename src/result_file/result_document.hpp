#pragma once
#include "crushwright/estimate.hpp"
#include "crushwright/study.hpp"
#include "result_file/provenance.hpp"

#include <string>

namespace crushwright {

/// Version of the document's schema, one for all commands; docs/result_format.md.
constexpr int result_schema = 1;

/// Everything `estimate` says, as the document that result.json and --json share. Same inputs, same bytes.
/// @throws NotFinite (result_file/json_text.hpp) when a number is NaN or infinite.
std::string result_document(const CrashCase& crash_case, const Estimate& estimate, const Provenance& provenance);

/// What `size` says. Errors as above.
std::string result_document(const CrashCase& crash_case, const SizingResult& sizing, const Provenance& provenance);

/// What `compare` says. Errors as above.
std::string result_document(const CrashCase& crash_case, const ComparisonResult& comparison,
                            const Provenance& provenance);

} // namespace crushwright
