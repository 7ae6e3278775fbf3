#pragma once
#include "crushwright/estimate.hpp"
#include "result_file/json_text.hpp"

namespace crushwright {

/// The room of a structure before the crush: sizes, volumes, ramps, clearances; of a surface its line of centroids.
Json packaging_json(const StructureModel& structure);

/// What stands between a structure and its keep-outs.
Json clearances_json(const std::vector<Clearance>& clearances);

} // namespace crushwright
