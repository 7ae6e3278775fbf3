#pragma once
#include "crushwright/estimate.hpp"
#include "result_file/json_text.hpp"

namespace crushwright {

/// Printability of a structure that has it. Costs are numbers in the case's own currency.
Json printing_json(const StructureModel& structure);

} // namespace crushwright
