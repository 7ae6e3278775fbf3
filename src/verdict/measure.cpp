#include "verdict/measure.hpp"

#include "verdict/column_measure.hpp"
#include "verdict/force_statistic.hpp"
#include "verdict/print_measure.hpp"
#include "verdict/structure_in_run.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace crushwright {
namespace {

double crush_of(const Limit& limit, const RunView& run) {
  double greatest = 0;
  const auto dot = limit.of.find('.');
  for (const ColumnMotion* column : columns_of(limit, run)) {
    if (dot == std::string::npos) {
      greatest = std::max(greatest, column->peak_crush);
      continue;
    }
    const StructureView& structure = structure_of(run, column->structure);
    const auto& parts = structure.envelope->parts;
    const auto part = std::find_if(parts.begin(), parts.end(),
                                   [&](const Part& each) { return each.id == limit.of.substr(dot + 1); });
    const auto kept_at = [&](double layer_force) {
      return permanent_crush(*structure.layers, layer_force, part->from, part->to);
    };
    // The force of the stop is an upper bound: what it leaves whole needs no closer look.
    if (kept_at(column->stop_force / structure.force_factor) > 0)
      greatest = std::max(greatest, structure.crush_factor * kept_at(layers_at_stop(structure, *column).force));
  }
  return greatest;
}

template <class Value>
double over_columns(const Limit& limit, const RunView& run, bool largest, const Value& value) {
  double found = largest ? -std::numeric_limits<double>::infinity() : std::numeric_limits<double>::infinity();
  for (const ColumnMotion* column : columns_of(limit, run)) {
    const double each = value(*column, structure_of(run, column->structure));
    found = largest ? std::max(found, each) : std::min(found, each);
  }
  return found;
}

double smallest(const std::vector<const StructureView*>& structures, double StructureView::*member) {
  double found = std::numeric_limits<double>::infinity();
  for (const StructureView* each : structures)
    if (each->*member > 0)
      found = std::min(found, each->*member);
  return found;
}

/// The keep-out that a limit names behind its structure; empty for all of them.
std::string keep_out_of(const Limit& limit) {
  const auto dot = limit.of.find('.');
  return dot == std::string::npos ? "" : limit.of.substr(dot + 1);
}

/// The least over the structure's keep-outs that the limit looks at.
template <class Value>
double over_keep_outs(const Limit& limit, const Packaging& packaging, const Value& value) {
  const std::string asked = keep_out_of(limit);
  const auto& keep_outs = packaging.input().keep_outs;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < keep_outs.size(); ++i)
    if (asked.empty() || keep_outs[i].id == asked)
      least = std::min(least, value(i));
  return least;
}

double clearance_before(const Limit& limit, const RunView& run) {
  const std::string structure = limit.of.substr(0, limit.of.find('.'));
  double least = std::numeric_limits<double>::infinity();
  for (const StructureView& each : *run.structures)
    if (each.packaging != nullptr && (is_all(limit) || *each.id == structure))
      least = std::min(least, over_keep_outs(limit, *each.packaging, [&](std::size_t keep_out) {
                         return each.packaging->clearances()[keep_out].value;
                       }));
  return least;
}

double clearance_after(const Limit& limit, const RunView& run) {
  double least = std::numeric_limits<double>::infinity();
  for (const ColumnMotion* column : columns_of(limit, run)) {
    const StructureView& structure = structure_of(run, column->structure);
    if (structure.packaging == nullptr || structure.packaging->input().keep_outs.empty())
      continue;
    const CrushedStations crushed = stations_at_stop(structure, *column);
    least = std::min(least, over_keep_outs(limit, *structure.packaging, [&](std::size_t keep_out) {
                       return structure.packaging->clearance_after(keep_out, crushed).value;
                     }));
  }
  return least;
}

double steepest_ramp(const Limit& limit, const RunView& run) {
  double steepest = -std::numeric_limits<double>::infinity();
  for (const StructureView* each : structures_of(limit, run))
    if (each->packaging != nullptr)
      for (const RampProfile& ramp : each->packaging->ramps())
        steepest = std::max(steepest, ramp.steepest);
  return steepest;
}

std::optional<double> finite(double value) {
  return std::isfinite(value) ? std::optional<double>(value) : std::nullopt;
}

bool looks_at_columns(const Limit& limit) {
  switch (limit.quantity) {
  case LimitedQuantity::force:
  case LimitedQuantity::crush:
  case LimitedQuantity::energy:
  case LimitedQuantity::stroke_used:
  case LimitedQuantity::reserve:
  case LimitedQuantity::clearance_after_crush:
  case LimitedQuantity::attachment_crush:
  case LimitedQuantity::section_use:
  case LimitedQuantity::bolt_use:
  case LimitedQuantity::stability_reserve:
  case LimitedQuantity::critical_angle:
    return true;
  default:
    return false;
  }
}

/// A structure that the face misses carries nothing and stands as it was; what has no meaning then cannot be had.
std::optional<double> of_what_is_missed(const Limit& limit) {
  switch (limit.quantity) {
  case LimitedQuantity::reserve:
  case LimitedQuantity::clearance_after_crush:
  case LimitedQuantity::stability_reserve:
  case LimitedQuantity::critical_angle:
    return std::nullopt;
  default:
    return 0;
  }
}

double centre_of(const Limit& limit, const RunView& run) {
  return run.motion->striker.id == limit.of ? run.about.striker_centre : run.about.struck_centre;
}

std::optional<double> least_bearing(const Limit& limit, const RunView& run) {
  if (run.about.contacts == nullptr)
    return std::nullopt;
  double least = std::numeric_limits<double>::infinity();
  for (const Contact& contact : *run.about.contacts)
    if (is_all(limit) || contact.structure == limit.of)
      least = std::min(least, contact.bearing_share);
  return finite(least);
}

double attachment_crush_of(const Limit& limit, const RunView& run) {
  double greatest = 0;
  for (const ElementMotion& element : run.motion->elements)
    if (element.kind == ElementKind::attachment && (is_all(limit) || element.structure == limit.of))
      greatest = std::max(greatest, element.lasting_crush);
  return greatest;
}

} // namespace

std::optional<double> measure(const Limit& limit, const RunView& run) {
  if (looks_at_columns(limit) && columns_of(limit, run).empty())
    return of_what_is_missed(limit);
  switch (limit.quantity) {
  case LimitedQuantity::acceleration:
    return finite(acceleration_statistic(limit, run));
  case LimitedQuantity::force:
    return finite(force_statistic(limit, run));
  case LimitedQuantity::crush:
    return crush_of(limit, run);
  case LimitedQuantity::energy:
    return finite(
        over_columns(limit, run, limit.at_most, [](const ColumnMotion& column, const StructureView& structure) {
          return structure.curve->energy_at(column.peak_crush);
        }));
  case LimitedQuantity::mass: {
    double sum = 0;
    for (const StructureView* each : structures_of(limit, run))
      sum += each->mass;
    return sum;
  }
  case LimitedQuantity::wall:
    return finite(smallest(structures_of(limit, run), &StructureView::smallest_wall));
  case LimitedQuantity::cells_across:
    return finite(smallest(structures_of(limit, run), &StructureView::cells_across));
  case LimitedQuantity::stroke_used:
    return finite(over_columns(limit, run, true, [&](const ColumnMotion& column, const StructureView& structure) {
      return column.peak_crush / usable_stroke(run, column, structure);
    }));
  case LimitedQuantity::reserve:
    return finite(over_columns(limit, run, false, [&](const ColumnMotion& column, const StructureView& structure) {
      return structure.curve->energy_at(usable_stroke(run, column, structure)) / column.input_energy - 1;
    }));
  case LimitedQuantity::clearance:
    return finite(clearance_before(limit, run));
  case LimitedQuantity::clearance_after_crush:
    return finite(clearance_after(limit, run));
  case LimitedQuantity::ramp_angle:
    return finite(steepest_ramp(limit, run));
  case LimitedQuantity::build_height:
  case LimitedQuantity::build_time:
  case LimitedQuantity::build_cost:
  case LimitedQuantity::build_pieces:
  case LimitedQuantity::unsupported_share:
  case LimitedQuantity::unsupported_span:
  case LimitedQuantity::overhang_area:
  case LimitedQuantity::escape_opening:
    return print_measure(limit, structures_of(limit, run));
  case LimitedQuantity::speed_change:
    return speed_change(*run.motion, body_of(limit, *run.motion));
  case LimitedQuantity::yaw_moment:
    return yaw_load(*run.motion, body_of(limit, *run.motion), centre_of(limit, run), 0).peak_moment;
  case LimitedQuantity::bearing_share:
    return least_bearing(limit, run);
  case LimitedQuantity::attachment_crush:
    return attachment_crush_of(limit, run);
  case LimitedQuantity::section_use:
  case LimitedQuantity::bolt_use:
  case LimitedQuantity::stability_reserve:
  case LimitedQuantity::critical_angle:
    return column_measure(limit, run);
  case LimitedQuantity::bending_frequency:
  case LimitedQuantity::service_use:
  case LimitedQuantity::fatigue_damage:
    return standing_measure(limit, structures_of(limit, run));
  }
  return std::nullopt;
}

} // namespace crushwright
