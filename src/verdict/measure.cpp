#include "verdict/measure.hpp"

#include "verdict/pulse_statistic.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace crushwright {
namespace {

/// SAE J211-1 asks for at least ten samples per filter class and channel; 10 kHz serves every class up to 1000.
constexpr double sampling_step = 1e-4;
/// The layers' shortenings and the curve's crush agree to rounding where no first peak lies over the curve.
constexpr double same_crush = 1e-9;

bool is_all(const Limit& limit) {
  return limit.of == "structures";
}

std::vector<const StructureView*> structures_of(const Limit& limit, const RunView& run) {
  std::vector<const StructureView*> found;
  for (const StructureView& each : *run.structures)
    if (is_all(limit) || *each.id == limit.of)
      found.push_back(&each);
  return found;
}

std::vector<const ColumnMotion*> columns_of(const Limit& limit, const RunView& run) {
  const std::string structure = limit.of.substr(0, limit.of.find('.'));
  std::vector<const ColumnMotion*> found;
  for (const ColumnMotion& each : run.motion->columns)
    if (is_all(limit) || limit.quantity == LimitedQuantity::acceleration || each.structure == structure)
      found.push_back(&each);
  return found;
}

const Body& body_of(const Limit& limit, const ImpactMotion& motion) {
  return motion.striker.id == limit.of ? motion.striker : motion.struck;
}

/// Crush up to which a limit's window looks at one column [m].
double window_crush(const Limit& limit, const ColumnMotion& column, const CrushCurve& curve) {
  switch (limit.window.kind) {
  case WindowKind::whole:
    return column.peak_crush;
  case WindowKind::first_crush:
    return std::min(limit.window.extent, column.peak_crush);
  case WindowKind::first_energy:
    return std::min(curve.crush_at_energy(limit.window.extent * column.share), column.peak_crush);
  }
  return column.peak_crush;
}

/// Time at which the first of the columns leaves the window; whole windows end with the last stop.
double window_time(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  double last_stop = 0, first_leave = std::numeric_limits<double>::infinity();
  for (const ColumnMotion* column : columns) {
    last_stop = std::max(last_stop, column->stop_time);
    const CrushCurve& curve = *structure_of(run, column->structure).curve;
    first_leave = std::min(first_leave, time_at_crush(*run.motion, *column, window_crush(limit, *column, curve)));
  }
  return limit.window.kind == WindowKind::whole ? last_stop : first_leave;
}

void cut(Signal& signal, double end) {
  const auto count = static_cast<std::size_t>(std::ceil(end / signal.step)) + 1;
  if (count < signal.values.size())
    signal.values.resize(std::max<std::size_t>(count, 2));
}

/// The total force sampled, once a run where the run can keep it [N].
Signal total_force(const RunView& run) {
  if (run.kept_total_force == nullptr)
    return force_signal(*run.motion, sampling_step);
  if (!*run.kept_total_force)
    *run.kept_total_force = force_signal(*run.motion, sampling_step);
  return **run.kept_total_force;
}

/// Total force over the columns as a signal, filtered and cut to the window [N].
Signal windowed_signal(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  const bool all = columns.size() == run.motion->columns.size();
  Signal signal = all ? total_force(run) : force_signal(*run.motion, sampling_step, columns.front());
  if (limit.channel_class > 0)
    signal = filtered(signal, static_cast<ChannelClass>(limit.channel_class));
  // A mean ends at the last standstill, filtered or not; a peak or a held level may come while the bodies part.
  if (limit.window.kind != WindowKind::whole || limit.statistic == Statistic::mean_over_time)
    cut(signal, window_time(limit, run, columns));
  return signal;
}

/// Largest raw total force over the columns in the window [N].
double raw_peak(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  if (columns.size() == 1) {
    const ColumnMotion& column = *columns.front();
    if (limit.window.kind == WindowKind::whole)
      return column.peak_force;
    const CrushCurve& curve = *structure_of(run, column.structure).curve;
    return curve.peak_force_up_to(window_crush(limit, column, curve));
  }
  if (limit.window.kind == WindowKind::whole)
    return run.motion->peak_total_force;
  return peak(windowed_signal(limit, run, columns));
}

double mean_over_distance(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  double energy = 0, distance = 0;
  for (const ColumnMotion* column : columns) {
    const CrushCurve& curve = *structure_of(run, column->structure).curve;
    const double crush = window_crush(limit, *column, curve);
    energy += curve.energy_at(crush);
    distance = std::max(distance, crush);
  }
  return energy / distance;
}

double raw_mean_over_time(const Limit& limit, const RunView& run, const std::vector<const ColumnMotion*>& columns) {
  const double end = window_time(limit, run, columns);
  if (columns.size() == run.motion->columns.size())
    return impulse_until(*run.motion, end) / end;
  const ColumnMotion& column = *columns.front();
  const auto in_group = [&](const ColumnMotion& each) { return each.group == column.group; };
  if (std::count_if(run.motion->columns.begin(), run.motion->columns.end(), in_group) > 1)
    return mean_over_time(windowed_signal(limit, run, columns));
  ImpactMotion alone = *run.motion;
  alone.groups = {run.motion->groups[column.group]};
  alone.columns = {column};
  alone.columns.front().group = 0;
  return impulse_until(alone, end) / end;
}

double force_statistic(const Limit& limit, const RunView& run) {
  const std::vector<const ColumnMotion*> columns = columns_of(limit, run);
  const bool raw = limit.channel_class == 0;
  switch (limit.statistic) {
  case Statistic::peak:
    return raw ? raw_peak(limit, run, columns) : peak(windowed_signal(limit, run, columns));
  case Statistic::mean_over_time:
    return raw ? raw_mean_over_time(limit, run, columns) : mean_over_time(windowed_signal(limit, run, columns));
  case Statistic::mean_over_distance:
    return mean_over_distance(limit, run, columns);
  case Statistic::cumulative_time:
  case Statistic::continuous_time:
  case Statistic::moving_average:
    return over_time(limit.statistic, windowed_signal(limit, run, columns), limit.statistic_time);
  case Statistic::occupant_load: // of an acceleration alone
  case Statistic::pulse_index:
    return std::numeric_limits<double>::quiet_NaN();
  }
  return 0;
}

double acceleration_statistic(const Limit& limit, const RunView& run) {
  const double mass = body_of(limit, *run.motion).mass;
  if (!is_of_occupant(limit.statistic))
    return force_statistic(limit, run) / mass;
  // The ways of an occupant are lengths, so the value does not grow evenly with the signal.
  Signal signal = total_force(run);
  for (double& value : signal.values)
    value /= mass;
  return of_occupant(limit.statistic, signal, limit.channel_class);
}

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

} // namespace

const StructureView& structure_of(const RunView& run, const std::string& id) {
  return *std::find_if(run.structures->begin(), run.structures->end(),
                       [&](const StructureView& each) { return *each.id == id; });
}

ColumnLoading column_loading(const RunView& run, const ColumnMotion& column, const StructureView& structure) {
  ColumnLoading loading;
  loading.curve = structure.curve;
  loading.peak_crush = column.peak_crush;
  loading.force_factor = structure.force_factor;
  loading.angle = run.about.force_angle;
  if (run.about.contacts != nullptr)
    for (const Contact& contact : *run.about.contacts)
      if (contact.structure == column.structure) {
        loading.eccentricity = contact.lateral - contact.tip_lateral;
        loading.vertical_eccentricity = contact.vertical - contact.tip_vertical;
      }
  return loading;
}

ColumnUnderForce column_state(const RunView& run, const ColumnMotion& column, const StructureView& structure) {
  return column_under_force(*structure.column->column, *structure.layers, column_loading(run, column, structure),
                            structure.column->bolts);
}

LayersAtStop layers_at_stop(const StructureView& structure, const ColumnMotion& column) {
  const double crush = column.peak_crush / structure.crush_factor;
  LayersAtStop at{column.stop_force / structure.force_factor, {}};
  const auto crush_at = [&](double force) {
    at.shortenings = layer_shortenings(*structure.layers, force);
    return std::accumulate(at.shortenings.begin(), at.shortenings.end(), 0.0);
  };
  if (crush_at(at.force) <= crush * (1 + same_crush))
    return at;
  double low = 0, high = at.force;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    (crush_at(middle) > crush ? high : low) = middle;
  }
  (void)crush_at(low);
  at.force = low;
  return at;
}

CrushedStations stations_at_stop(const StructureView& structure, const ColumnMotion& column) {
  std::vector<double> shortenings = layers_at_stop(structure, column).shortenings;
  for (double& shortening : shortenings)
    shortening *= structure.crush_factor;
  return {*structure.layers, shortenings};
}

LowestForceLimit lowest_force_limit(const RunView& run, const ColumnMotion& column) {
  // Structures crush together until the first of them stops, whatever energy each gets: a limit on their sum is met
  // when each keeps to an even part of it.
  const double even_part = 1.0 / static_cast<double>(run.motion->columns.size());
  const double capacity = structure_of(run, column.structure).attachment_capacity;
  LowestForceLimit lowest{capacity, nullptr, std::isfinite(capacity)};
  for (const Limit& limit : *run.limits) {
    if (limit.impact != *run.impact || !limit.at_most || limit.statistic != Statistic::peak ||
        limit.window.kind != WindowKind::whole)
      continue;
    double force = lowest.force;
    if (limit.quantity == LimitedQuantity::acceleration &&
        (limit.of == run.motion->striker.id || limit.of == run.motion->struck.id))
      force = limit.value.value * body_of(limit, *run.motion).mass * even_part;
    else if (limit.quantity == LimitedQuantity::force && limit.of == column.structure)
      force = limit.value.value;
    else if (limit.quantity == LimitedQuantity::force && is_all(limit))
      force = limit.value.value * even_part;
    if (force < lowest.force)
      lowest = {force, &limit};
  }
  return lowest;
}

double usable_stroke(const RunView& run, const ColumnMotion& column, const StructureView& structure) {
  const LowestForceLimit lowest = lowest_force_limit(run, column);
  const double to_bottoming = structure.curve->bottoming_crush;
  return std::isfinite(lowest.force) ? std::min(to_bottoming, structure.curve->crush_at_force(lowest.force))
                                     : to_bottoming;
}

double greatest_overshoot(int channel_class) {
  return channel_class == 0 ? 1 : channel_class <= 180 ? 1.075 : channel_class <= 600 ? 1.085 : 1.12;
}

double greatest_possible(const Limit& limit, const RunView& run) {
  if (is_of_occupant(limit.statistic)) // an occupant may see more than the body's peak
    return std::numeric_limits<double>::infinity();
  const bool sampled = needs_time(limit.statistic) || limit.channel_class > 0;
  const bool of_signal = limit.quantity == LimitedQuantity::acceleration || limit.quantity == LimitedQuantity::force;
  if (!of_signal || !sampled || limit.window.kind != WindowKind::whole)
    return std::numeric_limits<double>::infinity();
  const double overshoot = greatest_overshoot(limit.channel_class);
  const double force = overshoot * raw_peak(limit, run, columns_of(limit, run));
  return limit.quantity == LimitedQuantity::force ? force : force / body_of(limit, *run.motion).mass;
}

namespace {

/// One structure's value; absent where it fits the machine in no number of pieces.
std::optional<double> print_value(LimitedQuantity quantity, const PrintFigures& printing) {
  switch (quantity) {
  case LimitedQuantity::build_height:
    return printing.build_height;
  case LimitedQuantity::build_time:
    return printing.time;
  case LimitedQuantity::build_cost:
    return printing.cost;
  case LimitedQuantity::build_pieces:
    return printing.pieces.empty() ? std::nullopt
                                   : std::optional<double>(static_cast<double>(printing.pieces.size()));
  case LimitedQuantity::unsupported_share:
    return printing.lattice.share();
  case LimitedQuantity::unsupported_span:
    return printing.longest_span;
  case LimitedQuantity::overhang_area:
    return printing.overhang.outside + printing.overhang.inside;
  case LimitedQuantity::escape_opening:
    return printing.escape.opening;
  default:
    return std::nullopt;
  }
}

/// Times and costs add up, of the rest the worst counts: the smallest opening, the largest of everything else.
std::optional<double> print_measure(const Limit& limit, const std::vector<const StructureView*>& structures) {
  const bool adds = limit.quantity == LimitedQuantity::build_time || limit.quantity == LimitedQuantity::build_cost;
  const bool smallest_counts = limit.quantity == LimitedQuantity::escape_opening;
  std::optional<double> found;
  for (const StructureView* each : structures) {
    const std::optional<double> value =
        each->printing == nullptr ? std::nullopt : print_value(limit.quantity, *each->printing);
    if (!value)
      return std::nullopt;
    if (!found)
      found = value;
    else
      found = adds ? *found + *value : smallest_counts ? std::min(*found, *value) : std::max(*found, *value);
  }
  return found;
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

/// The worst over the structures that are struck; absent without column figures, or without bolts for bolts.
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

/// The damage of the part that is nearest to its end; absent while a part's strength is not stated.
std::optional<double> damage_of(const FatigueOutcome* fatigue) {
  if (fatigue == nullptr || !fatigue->missing.empty())
    return std::nullopt;
  return std::max({fatigue->skin.value_or(0), fatigue->lattice.value_or(0), fatigue->root.value_or(0)});
}

/// What a structure has whatever hits it.
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
