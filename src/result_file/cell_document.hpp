#pragma once
#include "crushwright/cell_report.hpp"
#include "result_file/provenance.hpp"

#include <string>

namespace crushwright {

/// Everything `cell` says, as one document; docs/result_format.md. Same inputs, same bytes. What was not computed is
/// null or an empty list.
/// @throws NotFinite (result_file/json_text.hpp) when a number is NaN or infinite.
std::string cell_document(const CellReport& report, const Provenance& provenance);

} // namespace crushwright
