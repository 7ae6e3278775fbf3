#include "estimate/trigger.hpp"

#include "estimate/layer_temperature.hpp"
#include "quantities/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

namespace crushwright {
namespace {

/// Peak that a layer takes to start where nothing leads the crush into it.
struct Start {
  FirstPeak peak;
  double squash_over_folding = 0; ///< 0 unless the squash load counts
};

Start start_of(const Ingredients& from, const Layer& layer) {
  const double middle = layer.station + 0.5 * layer.height;
  Start start;
  double peak = layer.lattice_force;
  double fall = 0;
  if (from.fill) {
    peak *= cell_numbers(*from.fill->cell, *from.fill->material, from.fill->laws, layer.relative_density)
                .first_peak_ratio;
    fall = 0.5 * (from.fill->cell_edge > 0 ? from.fill->cell_edge : layer.height);
  }
  const double thickness = from.skin_thickness_at(middle);
  if (thickness > 0) {
    const SectionProperties section = properties_of(section_at(from.input->envelope, middle));
    const double perimeter = mid_line_perimeter(section, thickness);
    const double squash = from.skin_material->proof_stress->value * perimeter * thickness *
                          strength_at(*from.skin_material, from.temperatures, middle);
    const bool stated = from.input->skin->first_peak_ratio.has_value();
    peak +=
        stated ? layer.skin_force * from.input->skin->first_peak_ratio->value : std::max(squash, layer.skin_force);
    fall = std::max(fall, 0.125 * perimeter / std::max(4, section.corner_count));
    start.squash_over_folding = stated ? 0 : squash / layer.skin_force;
  }
  start.peak = {std::max(1.0, peak / layer.collapse_force()), fall};
  return start;
}

/// Forces closer than this are one but for rounding; a row has not begun this far under its start force.
constexpr double just_under = 1e-9;

double lowest_start(const std::vector<Layer>& layers) {
  double lowest = layers.front().start_force();
  for (const Layer& layer : layers)
    lowest = std::min(lowest, layer.start_force());
  return lowest;
}

double top_of_first(const StructureModel& model) {
  return model.first_peak.ratio * lowest_start(model.layers);
}

double highest_start(const StructureModel& model) {
  double highest = top_of_first(model);
  for (const LaterPeak& peak : model.later_peaks)
    highest = std::max(highest, peak.ratio * peak.start_force);
  return highest;
}

double energy_to_bottoming(const StructureModel& model) {
  return model.curve.energy_at(model.curve.bottoming_crush);
}

} // namespace

double trigger_length(const StructureInput& input) {
  if (!input.trigger)
    return 0;
  return input.trigger->length ? input.trigger->length->value : input.trigger->rows * input.lattice->cell_edge.value;
}

void set_trigger(const CrashCase& crash_case, const StructureInput& input, Ingredients& from) {
  if (!input.trigger)
    return;
  from.trigger_length = trigger_length(input);
  const double layer = input.envelope.length() / input.layer_count;
  if (from.trigger_length <= 0.5 * layer)
    fail_in_case(crash_case, path_of(input, input.trigger->length ? "trigger.length" : "trigger"),
                 fmt::format("the trigger reaches over {}, and a layer of the computation is {} high",
                             show(from.trigger_length, Dimension::length), show(layer, Dimension::length)),
                 "Lengthen the trigger, or raise `layers` so that a layer fits into it.");
  from.trigger_skin_factor = input.trigger->skin_factor.value;
  if (from.fill) {
    from.fill->trigger_length = from.trigger_length;
    from.fill->trigger_factor = input.trigger->size_factor.value;
    from.fill->trigger_skin_factor = from.trigger_skin_factor;
  }
}

FirstPeak first_peak(const Ingredients& from, const std::vector<Layer>& layers, std::vector<std::string>& warnings) {
  const auto first = std::min_element(layers.begin(), layers.end(), [](const Layer& a, const Layer& b) {
    return a.collapse_force() * a.shape.ratio[1] < b.collapse_force() * b.shape.ratio[1];
  });
  const Start start = start_of(from, *first);
  if (start.squash_over_folding > 1.5)
    warnings.push_back(fmt::format(
        "{}: no first_peak_ratio is stated for the skin, so it is taken to start at its squash load, {:.1f} times "
        "its "
        "folding force. A trigger (notches, a stepped tip) lowers that; state the ratio it was tested at.",
        from.input->id, start.squash_over_folding));
  return start.peak;
}

std::vector<LaterPeak> later_peaks(const Ingredients& from, const std::vector<Layer>& layers,
                                   const FirstPeak& first) {
  double highest = first.ratio * lowest_start(layers);
  std::vector<LaterPeak> peaks;
  for (const std::size_t index : fresh_starts(layers)) {
    const Layer& layer = layers[index];
    const Start start = start_of(from, layer);
    if (!(start.peak.ratio > 1) || start.peak.ratio * layer.start_force() <= highest)
      continue;
    highest = start.peak.ratio * layer.start_force();
    peaks.push_back({layer.start_force(), start.peak.ratio, start.peak.fall_crush});
  }
  return peaks;
}

std::vector<RowStart> row_starts(const std::vector<Layer>& layers, const std::vector<LaterPeak>& peaks) {
  std::vector<RowStart> starts;
  for (const LaterPeak& peak : peaks) {
    const auto row = std::find_if(layers.begin(), layers.end(), [&](const Layer& layer) {
      return std::abs(layer.start_force() - peak.start_force) <= just_under * peak.start_force;
    });
    const std::vector<double> before = layer_shortenings(layers, peak.start_force * (1 - just_under));
    starts.push_back({row->station, std::accumulate(before.begin(), before.end(), 0.0)});
  }
  return starts;
}

TriggerEffect trigger_effect(const StructureModel& untriggered, const StructureModel& triggered) {
  TriggerEffect effect;
  effect.peak_without = highest_start(untriggered);
  effect.peak_with = highest_start(triggered);
  effect.first_peak_with = top_of_first(triggered);
  effect.plateau_without = energy_to_bottoming(untriggered) / untriggered.curve.bottoming_crush;
  effect.plateau_with = energy_to_bottoming(triggered) / triggered.curve.bottoming_crush;
  effect.energy_cost = energy_to_bottoming(untriggered) - energy_to_bottoming(triggered);
  effect.mass_change = triggered.mass.total - untriggered.mass.total;
  return effect;
}

} // namespace crushwright
