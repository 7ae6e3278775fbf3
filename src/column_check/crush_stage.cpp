#include "column_check/crush_stage.hpp"

#include "column_check/service_bolts.hpp"
#include "column_check/stability.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double rounding = 1e-9;

double collapse_start(const Layer& layer) {
  return layer.collapse_force() * (layer.shape.ratio[0] > 0 ? layer.shape.ratio[0] : layer.shape.ratio[1]);
}

bool has_collapsed(const Layer& layer, double layer_force) {
  return layer_force > collapse_start(layer) * (1 + rounding);
}

/// Distance of the crush stress from its own middle, root mean square.
double gyration(const BeamSection& section, const PlasticSection& strength, Bending axis) {
  return std::sqrt((section.lattice.collapse_stress * section.lattice_second_moment[axis] +
                    section.skin.collapse_stress * section.skin_second_moment[axis]) /
                   strength.axial);
}

void add_critical_forces(const StandingColumn& standing, double tangent, CrushStage& stage) {
  for (const Bending axis : {about_vertical, about_lateral}) {
    stage.buckling[axis] =
        stage.stands ? buckling_force(*standing.column, standing.heights, stage.first, axis) : infinity;
    stage.tilting[axis] =
        stage.debris > 0
            ? tilting_force(tangent,
                            gyration(standing.column->sections[stage.first], standing.strengths[stage.first], axis),
                            stage.debris)
            : infinity;
  }
}

/// Offset of the force from a section's centroid in the undeformed column [m].
double offset(const BeamColumn& column, const ForceLine& line, double lever, const BeamSection& section,
              Bending axis) {
  const double beside = line.eccentricity[axis] + column.sections.front().centroid[axis] - section.centroid[axis];
  return std::abs(beside) + (axis == about_vertical ? line.slope * lever : 0);
}

/// 1/(1 - F/F_cr), held at 100 where the column buckles anyway.
double amplified(double force, double critical) {
  constexpr double most = 100;
  return force < critical * (1 - 1 / most) ? 1 / (1 - force / critical) : most;
}

SectionLoad load_on(const StandingColumn& standing, const CrushStage& stage, const ForceLine& line,
                    std::size_t section) {
  SectionLoad load;
  load.axial = stage.force;
  load.shear[about_vertical] = stage.force * line.slope;
  for (const Bending axis : {about_vertical, about_lateral})
    load.moment[axis] =
        stage.force * amplified(stage.force, stage.buckling[axis]) *
        offset(*standing.column, line, stage.levers[section], standing.column->sections[section], axis);
  return load;
}

PlasticSection times(PlasticSection strength, double factor) {
  strength.axial *= factor;
  for (std::size_t k = 0; k < 2; ++k) {
    strength.moment[k] *= factor;
    strength.shear[k] *= factor;
  }
  return strength;
}

} // namespace

StandingColumn standing_column(const BeamColumn& column, const std::vector<Layer>& layers) {
  if (layers.empty() || column.sections.size() != layers.size() + 1)
    throw OutOfDomain(fmt::format("a column check of {} layers needs a section in the middle of each and one at the "
                                  "root, but has {}",
                                  layers.size(), column.sections.size()));
  StandingColumn standing{&column, {}, {}};
  for (const BeamSection& section : column.sections)
    standing.strengths.push_back(plastic_section(section));
  for (const Layer& layer : layers)
    standing.heights.push_back(layer.height);
  return standing;
}

CrushStage crush_stage(const StandingColumn& standing, const std::vector<Layer>& layers, double layer_force,
                       double factor) {
  constexpr double further = 1e-3; // of the force, for the slope
  const std::vector<double> shortenings = layer_shortenings(layers, layer_force);
  const std::vector<double> beyond = layer_shortenings(layers, layer_force * (1 + further));
  CrushStage stage;
  stage.force = layer_force * factor;
  stage.levers.reserve(layers.size() + 1);
  double lever = 0, further_crush = 0;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const double left = std::max(0.0, layers[i].height - shortenings[i]);
    stage.levers.push_back(lever + 0.5 * left);
    lever += left;
    stage.crush += shortenings[i];
    further_crush += beyond[i];
    if (has_collapsed(layers[i], layer_force)) {
      stage.first = i + 1;
      stage.debris = lever;
    }
  }
  stage.levers.push_back(lever);
  stage.stands = stage.first < layers.size();
  const double tangent = stage.force * further / std::max(further_crush - stage.crush, rounding * stage.crush);
  add_critical_forces(standing, tangent, stage);
  return stage;
}

SectionUse worst_section(const StandingColumn& standing, const CrushStage& stage, const ForceLine& line) {
  SectionUse worst;
  if (!stage.stands)
    return worst;
  const std::vector<BeamSection>& sections = standing.column->sections;
  const BeamSection& front = sections[stage.first];
  // Nearer to the front than half the section's smaller depth a section belongs to what is being crushed.
  const double crush_zone = std::min(front.half_depth[0], front.half_depth[1]);
  for (std::size_t i = stage.first; i < sections.size(); ++i) {
    const bool root = i + 1 == sections.size();
    if (!root && stage.levers[i] - stage.debris < crush_zone)
      continue;
    const SectionUse use = section_use(times(standing.strengths[i], line.factor), load_on(standing, stage, line, i),
                                       sections[i].station);
    if (use.use > worst.use)
      worst = use;
  }
  return worst;
}

CriticalForces critical_forces(const StandingColumn& standing, const CrushStage& stage, const ForceLine& line) {
  CriticalForces critical{std::min(stage.buckling[0], stage.buckling[1]), infinity};
  const BeamSection& front = standing.column->sections[stage.first];
  for (const Bending axis : {about_vertical, about_lateral})
    if (offset(*standing.column, line, stage.debris, front, axis) > front.half_depth[axis])
      critical.tilting = std::min(critical.tilting, stage.tilting[axis]);
  return critical;
}

double bolt_use(const StandingColumn& standing, const CrushStage& stage, const ForceLine& line,
                const BoltPattern& bolts) {
  const SectionLoad load = load_on(standing, stage, line, standing.heights.size());
  double worst = 0;
  for (const double sideways : {1.0, -1.0})
    for (const double up : {1.0, -1.0}) {
      CutLoad root;
      root.force = {load.axial, sideways * load.shear[about_vertical], 0};
      root.moment = {0, up * load.moment[about_lateral], -sideways * load.moment[about_vertical]};
      worst = std::max(worst, bolt_service(bolts, root, false).use);
    }
  return worst;
}

double first_collapse(const std::vector<Layer>& layers) {
  double least = infinity;
  for (const Layer& layer : layers)
    least = std::min(least, collapse_start(layer));
  return least;
}

double greatest_layer_force(const std::vector<Layer>& layers, const ColumnLoading& loading) {
  const double end = loading.curve->force_at(loading.peak_crush) / loading.force_factor;
  return std::max(end, 0.0) > first_collapse(layers) ? end : std::min(std::max(end, 0.0), first_collapse(layers));
}

std::vector<CrushStage> crush_stages(const StandingColumn& standing, const std::vector<Layer>& layers,
                                     const ColumnLoading& loading) {
  const double last = greatest_layer_force(layers, loading);
  const double start = std::min(last, first_collapse(layers));
  // The first peak comes with nothing crushed yet, by more force than the layers alone would carry.
  const double peak = loading.curve->peak_force_up_to(loading.peak_crush) / loading.force_factor;
  constexpr int steps = 24;
  std::vector<CrushStage> stages;
  stages.reserve(steps + 1);
  stages.push_back(crush_stage(standing, layers, start, loading.force_factor));
  if (peak > last * (1 + rounding))
    stages.back().force = peak * loading.force_factor;
  if (last > start)
    for (int i = 1; i <= steps; ++i)
      stages.push_back(crush_stage(standing, layers, start + (last - start) * i / steps, loading.force_factor));
  return stages;
}

ForceLine force_line(const ColumnLoading& loading) {
  if (loading.curve == nullptr)
    throw OutOfDomain("a column check needs the curve of force over crush");
  if (!(loading.angle >= 0 && loading.angle < std::numbers::pi / 2))
    throw OutOfDomain(fmt::format("the angle of a force must lie from 0 to below 90 degrees, but is {:g} degrees",
                                  loading.angle * 180 / std::numbers::pi));
  if (!(loading.force_factor > 0))
    throw OutOfDomain(fmt::format("a side's force factor must be positive, but is {:g}", loading.force_factor));
  return {std::tan(loading.angle), {loading.eccentricity, loading.vertical_eccentricity}, loading.force_factor};
}

} // namespace crushwright
