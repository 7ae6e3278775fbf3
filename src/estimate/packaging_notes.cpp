#include "estimate/packaging_notes.hpp"

#include "quantities/units.hpp"

#include <fmt/format.h>
#include <numbers>

namespace crushwright {
namespace {

/// Lean of the centroid line from which it is mentioned; a convention of ours (docs/method/envelope.md).
constexpr double mentioned_tilt = 5 * std::numbers::pi / 180;

std::string length_text(double metres) {
  return show(metres, Dimension::length);
}

std::string angle_text(double radians) {
  return fmt::format("{:.1f} °", radians * 180 / std::numbers::pi);
}

/// Millimetres to a tenth: a place in a drawing.
std::string place_text(const std::array<double, 3>& place) {
  return fmt::format("station {:.1f} mm, y {:.1f} mm, z {:.1f} mm", place[0] * 1e3, place[1] * 1e3, place[2] * 1e3);
}

struct Worst {
  const Clearance* clearance = nullptr;
  const RunOutcome* run = nullptr;
  bool struck = false;
};

Worst worst_of(const ImpactOutcome& impact, std::size_t structure, std::size_t keep_out) {
  Worst worst;
  for (const RunOutcome& run : impact.sides) {
    const Clearance& each = run.structures[structure].clearances[keep_out];
    if (run.stacked)
      continue;
    if (worst.clearance == nullptr || each.value < worst.clearance->value)
      worst = {&each, &run, worst.struck};
    worst.struck = worst.struck || each.struck;
  }
  return worst;
}

std::string warning_of(const ImpactOutcome& impact, const std::string& structure, const KeepOut& keep_out,
                       const Worst& worst) {
  if (worst.struck)
    return fmt::format("{}: the striker reaches the keep-out {} of {}; on the {} side it passes {} of it.", impact.id,
                       keep_out.id, structure, name_of(worst.run->side), length_text(-worst.clearance->value));
  const double value = worst.clearance->value;
  const std::string place = place_text(worst.clearance->on_keep_out), side(name_of(worst.run->side));
  if (value < 0)
    return fmt::format("{}: crushed on the {} side, {} reaches {} into the keep-out {}; deepest at {}.", impact.id,
                       side, structure, length_text(-value), keep_out.id, place);
  return fmt::format(
      "{}: crushed on the {} side, {} or the striker stands {} from the keep-out {}, where {} are asked; "
      "nearest at {}.",
      impact.id, side, structure, length_text(value), keep_out.id, length_text(keep_out.clearance_after), place);
}

std::string warning_of(const std::string& structure, const KeepOut& keep_out, const Clearance& clearance) {
  const std::string place = place_text(clearance.on_keep_out);
  if (clearance.value < 0)
    return fmt::format("{}: it reaches {} into the keep-out {} before the crush; deepest at {}.", structure,
                       length_text(-clearance.value), keep_out.id, place);
  return fmt::format("{}: it stands {} from the keep-out {} before the crush, where {} are asked; nearest at {}.",
                     structure, length_text(clearance.value), keep_out.id, length_text(keep_out.clearance), place);
}

/// Of a mirror that does as its original does the original's warning stands for both.
bool said_of_original(const ImpactOutcome& impact, const StructureModel& model, std::size_t keep_out,
                      const Worst& worst) {
  const auto& structures = impact.sides.front().structures;
  for (std::size_t i = 0; i < structures.size(); ++i)
    if (structures[i].structure == model.mirror_of)
      return worst_of(impact, i, keep_out).clearance->value == worst.clearance->value;
  return false;
}

const StructureModel* model_of(const Estimate& estimate, const std::string& id) {
  for (const StructureModel& model : estimate.structures)
    if (model.id == id)
      return &model;
  return nullptr;
}

} // namespace

void describe_shape(StructureModel& model) {
  for (const std::string& note : model.envelope.notes)
    model.warnings.push_back(fmt::format("{}: {}", model.id, note));
  if (!model.envelope.surface)
    return;
  const CentroidLine line = centroid_line(model.envelope);
  if (line.steepest_tilt > mentioned_tilt)
    model.warnings.push_back(fmt::format(
        "{}: the line of its centroids leans {} to the crush axis, up to {} about station {}. It is crushed "
        "as if it were straight: bending is left out.",
        model.id, angle_text(line.tilt), angle_text(line.steepest_tilt), length_text(line.steepest_station)));
}

void describe_packaging(StructureModel& model) {
  if (!model.packaging)
    return;
  const PackagingInput& input = model.packaging->input();
  for (const RampProfile& ramp : model.packaging->ramps())
    if (ramp.steepest > input.ramp_limit)
      model.warnings.push_back(
          fmt::format("{}: its {} face draws back by {} over {} from station {}, beyond {}: flow along it may part "
                      "from it.",
                      model.id, name_of(ramp.face), angle_text(ramp.steepest), length_text(input.ramp_length),
                      length_text(ramp.from), angle_text(input.ramp_limit)));
  for (std::size_t i = 0; i < input.keep_outs.size(); ++i) {
    const Clearance& clearance = model.packaging->clearances()[i];
    if (clearance.value < input.keep_outs[i].clearance)
      model.warnings.push_back(warning_of(model.id, input.keep_outs[i], clearance));
  }
}

std::vector<std::string> warnings_of_clearances(const Estimate& estimate) {
  std::vector<std::string> warnings;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    const auto& structures = impact.sides.front().structures;
    for (std::size_t i = 0; i < structures.size(); ++i) {
      const StructureModel* model = model_of(estimate, structures[i].structure);
      if (model == nullptr || !model->packaging)
        continue;
      const auto& keep_outs = model->packaging->input().keep_outs;
      for (std::size_t k = 0; k < keep_outs.size(); ++k) {
        const Worst worst = worst_of(impact, i, k);
        if (worst.clearance->value < keep_outs[k].clearance_after && !said_of_original(impact, *model, k, worst))
          warnings.push_back(warning_of(impact, model->id, keep_outs[k], worst));
      }
    }
  }
  return warnings;
}

} // namespace crushwright
