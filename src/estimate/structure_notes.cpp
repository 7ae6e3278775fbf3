#include "estimate/structure_notes.hpp"

#include "quantities/units.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

/// Fewer cells than this across the smallest width, and edge effects weaken the lattice: common practice, no source.
constexpr double fewest_cells_across = 6;
/// Rate factor for force checks where the material states none: printed 17-4PH lattices gained 1.10 to 1.20 on the
/// plateau at 100 to 1000 1/s (docs/method/estimate.md; from memory).
constexpr double untested_rate_factor = 1.20;
/// Wall width over thickness for which the folding laws were found to hold (docs/method/skin.md).
constexpr double least_width_over_wall = 10, greatest_width_over_wall = 100;
/// Force of a single fold over the mean folding force (docs/method/skin.md; from memory).
constexpr double fold_peak_over_mean = 1.5;

/// Warnings of tip, middle and root often differ in their numbers alone; the first stands for all.
void add_unless_alike(std::vector<std::string>& warnings, const std::string& warning) {
  const auto without_digits = [](std::string text) {
    text.erase(
        std::remove_if(text.begin(), text.end(), [](unsigned char letter) { return std::isdigit(letter) != 0; }),
        text.end());
    return text;
  };
  if (std::none_of(warnings.begin(), warnings.end(),
                   [&](const std::string& each) { return without_digits(each) == without_digits(warning); }))
    warnings.push_back(warning);
}

} // namespace

void describe_cells(const CrashCase& crash_case, const Ingredients& from, StructureModel& model) {
  const LatticeFill& fill = *from.fill;
  for (const auto& [where, station] :
       {std::pair{"tip", 0.0}, std::pair{"middle", 0.5 * fill.length}, std::pair{"root", fill.length}}) {
    CellAtStation cell{where, station, fill.size_at(station), {}};
    cell.properties = at_case_line(
        crash_case, path_of(*from.input, "lattice.cell"), "Choose another cell, material or direction.", [&] {
          return cell_properties(*fill.cell, *fill.material, from.input->lattice->crush_direction,
                                 fill.relative_density_at(station), from.input->lattice->evidence);
        });
    for (const std::string& warning : cell.properties.warnings)
      add_unless_alike(model.warnings, fmt::format("{}: {}", model.id, warning));
    model.cells.push_back(std::move(cell));
  }
}

void describe_lattice(const Ingredients& from, StructureModel& model) {
  const LatticeFill& fill = *from.fill;
  const bool foam = !is_sized(*fill.cell);
  model.cell_edge = fill.cell_edge;
  model.middle_relative_density = fill.relative_density_at(0.5 * fill.length);
  model.smallest_wall = foam ? 0 : std::min(fill.smallest_size_at(0), fill.smallest_size_at(fill.length));
  if (fill.size_factor || fill.trigger_length > 0)
    for (const Layer& layer : model.layers)
      model.smallest_wall = std::min(model.smallest_wall, layer.size);
  double narrowest = std::numeric_limits<double>::infinity();
  const std::vector<Section>& sections = from.input->envelope.sections;
  // Of a surface the middles of the layers: an end may come to a point, and a point has no width.
  const std::size_t first = from.input->envelope.surface ? 1 : 0, step = first + 1;
  for (std::size_t i = first; i < sections.size(); i += step)
    narrowest = std::min(narrowest, properties_of(sections[i]).smallest_width - 2 * from.skin_thickness);
  model.cells_across = fill.cell_edge > 0 ? narrowest / fill.cell_edge : 0;
  if (model.cells_across > 0 && model.cells_across < fewest_cells_across)
    model.warnings.push_back(fmt::format("{}: {:.1f} cells across the narrowest width; under {:.0f} the free edges "
                                         "weaken the lattice below its law.",
                                         model.id, model.cells_across, fewest_cells_across));
  if (fill.cell->printable_minimum && !foam && model.smallest_wall < fill.cell->printable_minimum->value)
    model.warnings.push_back(fmt::format("{}: the smallest {}, {}, is under the usual printable minimum of {}.",
                                         model.id, fill.cell->size_name, show(model.smallest_wall, Dimension::length),
                                         show(fill.cell->printable_minimum->value, Dimension::length)));
}

MetalRate metal_rate(const BaseMaterial& material, const std::string& structure, std::vector<std::string>& warnings) {
  MetalRate rate;
  rate.energy = material.energy_rate_law;
  rate.peak = material.peak_rate_law ? material.peak_rate_law : material.energy_rate_law;
  if (rate.peak) {
    warnings.push_back(fmt::format(
        "{}: the force of {} follows its rate laws. Constants found from the yield point overstate what a "
        "crushing lattice gains: lattices of a rate-sensitive steel were measured to gain 1.10 to 1.20.",
        structure, material.id));
  } else if (material.rate_factor) {
    rate.nominal = material.rate_factor->value;
    rate.low = material.rate_factor->low_end();
    rate.high = material.rate_factor->high_end();
  } else {
    rate.high = untested_rate_factor;
    warnings.push_back(fmt::format("{}: {} states no rate factor. Energy checks take 1.00, force checks {:.2f}, the "
                                   "most that lattices of a rate-sensitive steel were measured to gain.",
                                   structure, material.id, untested_rate_factor));
  }
  return rate;
}

void describe_rate(const Ingredients& from, StructureModel& model) {
  const MetalRate& lattice = from.fill ? model.lattice_rate : model.skin_rate;
  const MetalRate& skin = from.skin_material != nullptr ? model.skin_rate : model.lattice_rate;
  const auto mean = [&](double MetalRate::*end) {
    // Equal ends stay as they are, to the last digit.
    return lattice.*end == skin.*end ? lattice.*end
                                     : model.lattice_share * lattice.*end + (1 - model.lattice_share) * skin.*end;
  };
  model.rate_low = mean(&MetalRate::low);
  model.rate_nominal = mean(&MetalRate::nominal);
  model.rate_high = mean(&MetalRate::high);
  model.has_rate_law = lattice.peak.has_value() || skin.peak.has_value();
}

/// What the folding laws leave out of this skin.
void describe_skin(const Ingredients& from, StructureModel& model) {
  double widest = 0, narrowest = std::numeric_limits<double>::infinity(), greatest = 0;
  for (const Layer& layer : model.layers) {
    const SectionProperties section =
        properties_of(section_at(from.input->envelope, layer.station + 0.5 * layer.height));
    const double thickness = from.skin_thickness_at(layer.station + 0.5 * layer.height);
    const double ratio = wall_width(section, thickness) / thickness;
    widest = std::max(widest, ratio);
    narrowest = std::min(narrowest, ratio);
    greatest = std::max(greatest, layer.skin_force);
  }
  if (widest > greatest_width_over_wall || narrowest < least_width_over_wall)
    model.warnings.push_back(
        fmt::format("{}: the skin's width over its thickness runs from {:.0f} to {:.0f}; the folding "
                    "law was found for {:.0f} to {:.0f} and is extrapolated.",
                    model.id, narrowest, widest, least_width_over_wall, greatest_width_over_wall));
  model.warnings.push_back(
      fmt::format("{}: the skin's force is the mean over its folds; single folds lie about half "
                  "above it, up to {} more. Keep that margin to force limits, or test the section.",
                  model.id, show((fold_peak_over_mean - 1) * greatest, Dimension::force)));
  if (!from.skin_material->ultimate_stress)
    model.warnings.push_back(
        fmt::format("{}: {} states no ultimate stress, so the skin's flow stress is its proof stress: "
                    "low for force checks.",
                    model.id, from.skin_material->id));
}

void name_inversions(StructureModel& model) {
  model.inversions = inversions(model.layers);
  if (model.inversions.empty())
    return;
  const Inversion& first = model.inversions.front();
  model.warnings.push_back(fmt::format(
      "{}: {} of {} layers would crush before their neighbour towards the struck end; the first lies {} from it ({} "
      "against {}).",
      model.id, model.inversions.size(), model.layers.size(), show(first.station, Dimension::length),
      show(first.collapse_force, Dimension::force), show(first.outer_collapse_force, Dimension::force)));
}

} // namespace crushwright
