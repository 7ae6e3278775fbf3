#include "verdict/column_measure.hpp"

#include "verdict/structure_in_run.hpp"

#include <algorithm>

namespace crushwright {
namespace {

/// The damage of the part that is nearest to its end; absent while a part's strength is not stated.
std::optional<double> damage_of(const FatigueOutcome* fatigue) {
  if (fatigue == nullptr || !fatigue->missing.empty())
    return std::nullopt;
  return std::max({fatigue->skin.value_or(0), fatigue->lattice.value_or(0), fatigue->root.value_or(0)});
}

} // namespace

std::optional<double> column_measure(const Limit& limit, const RunView& run) {
  std::optional<double> worst;
  for (const ColumnMotion* column : columns_of(limit, run)) {
    const StructureView& structure = structure_of(run, column->structure);
    if (structure.column == nullptr)
      return std::nullopt;
    double value = 0;
    if (limit.quantity == LimitedQuantity::critical_angle) {
      value = critical_angle(*structure.column->column, *structure.layers, column_loading(run, *column, structure),
                             structure.column->bolts);
    } else {
      const ColumnUnderForce state = column_state(run, *column, structure);
      if (limit.quantity == LimitedQuantity::bolt_use && !state.bolts_stated)
        return std::nullopt;
      value = limit.quantity == LimitedQuantity::section_use ? state.section.use
              : limit.quantity == LimitedQuantity::bolt_use  ? state.bolt_use
                                                             : state.stability_reserve;
    }
    worst = !worst ? value : limit.at_most ? std::max(*worst, value) : std::min(*worst, value);
  }
  return worst;
}

std::optional<double> standing_measure(const Limit& limit, const std::vector<const StructureView*>& structures) {
  std::optional<double> worst;
  for (const StructureView* each : structures) {
    if (each->column == nullptr)
      return std::nullopt;
    std::optional<double> value;
    if (limit.quantity == LimitedQuantity::bending_frequency)
      value = each->column->bending_frequency;
    else if (limit.quantity == LimitedQuantity::fatigue_damage)
      value = damage_of(each->column->fatigue);
    else
      for (const ServiceOutcome& service : *each->column->service)
        value = std::max(value.value_or(0), service.use);
    if (!value && limit.quantity == LimitedQuantity::service_use)
      continue; // no load is stated for this one
    if (!value)
      return std::nullopt;
    worst = !worst ? value : limit.at_most ? std::max(*worst, *value) : std::min(*worst, *value);
  }
  return worst;
}

} // namespace crushwright
