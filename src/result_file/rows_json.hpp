#pragma once
#include "crushwright/estimate.hpp"
#include "result_file/json_text.hpp"

namespace crushwright {

/// Adds to a structure what its rows meet: peaks of rows that start afresh, trigger, temperatures, rate laws, struts
/// that break. Members stand only where the case or its metals use them.
void put_rows(const StructureModel& structure, Json& json);

/// Strain rate and rate factors along one structure in an impact.
Json layer_rates_json(const LayerRates& rates);

} // namespace crushwright
