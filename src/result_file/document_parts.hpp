#pragma once
#include "crushwright/estimate.hpp"
#include "crushwright/study.hpp"
#include "result_file/json_text.hpp"
#include "result_file/provenance.hpp"

namespace crushwright {

/// Opens every document: schema, program, command and hash.
Json program_head(std::string_view command, const Provenance& provenance);

/// The same, and the case that it is about.
Json document_head(std::string_view command, const CrashCase& crash_case, const Provenance& provenance);

/// Properties of a cell at one density with all their evidence.
Json properties_json(const CellProperties& properties);

Json source_json(const Source& source);

/// A value of a file: value and unit, and low, high, coefficient_of_variation, source, standing where stated.
Json input_json(const Quantity& quantity);

/// A judged scatter set: word, the limit that governs, every check.
Json verdict_json(const JudgedSet& set);

/// A structure's model: geometry, layers, cells with all evidence, mass, inversions, warnings.
Json structure_json(const StructureModel& structure);

/// Curves and their figures of merit on each side.
Json curves_json(const StructureCurves& curves);

Json candidate_json(const Candidate& candidate);

} // namespace crushwright
