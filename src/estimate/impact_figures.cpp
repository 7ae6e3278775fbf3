#include "estimate/impact_figures.hpp"

#include "crushwright/errors.hpp"
#include "estimate/rate_curve.hpp"
#include "verdict/structure_in_run.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {
namespace {

const BodyInput& carrier(const ImpactInput& impact) {
  return impact.structures_on_striker ? impact.striker : impact.struck;
}

const StructureModel& model_of(const std::vector<StructureModel>& structures, const std::string& id) {
  return *std::find_if(structures.begin(), structures.end(),
                       [&](const StructureModel& each) { return each.id == id; });
}

void add_yaw(const ImpactInput& impact, ImpactOutcome& outcome) {
  const BodyInput& body = carrier(impact);
  if (!impact.face || body.held)
    return;
  const Body& moved = impact.structures_on_striker ? outcome.motion.striker : outcome.motion.struck;
  outcome.yaw = yaw_load(outcome.motion, moved, body.lateral, body.yaw_radius ? body.yaw_radius->value : 0);
}

void add_column_maps(const RunView& run, ImpactOutcome& outcome) {
  for (const ColumnMotion& column : outcome.motion.columns) {
    const StructureView& view = structure_of(run, column.structure);
    if (view.column == nullptr || !(column.peak_crush > 0))
      continue;
    const ColumnLoading loading = column_loading(run, column, view);
    outcome.mapped.push_back(column.structure);
    outcome.column_states.push_back(column_state(run, column, view));
    outcome.column_maps.push_back(column_map(*view.column->column, *view.layers, loading, view.column->bolts));
    outcome.critical_angles.push_back(
        critical_angle(*view.column->column, *view.layers, loading, view.column->bolts));
  }
}

Chain chain_of(const StructureModel& structure, const StructureView& view, double share) {
  Chain chain;
  chain.structure = structure.id;
  chain.layers = &structure.layers;
  chain.layer_masses = structure.layer_masses;
  chain.tip_mass = structure.tip_mass;
  chain.force_factor = view.force_factor;
  chain.crush_factor = view.crush_factor;
  chain.share = share;
  return chain;
}

/// With shares every structure moves alone with its part of both bodies; with a face all stand between the same two.
void add_resolved(const ImpactInput& impact, const std::vector<StructureModel>& structures, const RunView& run,
                  ImpactOutcome& outcome) {
  if (!impact.resolved || outcome.motion.columns.empty())
    return;
  const ImpactMotion& motion = outcome.motion;
  std::vector<Chain> chains;
  for (const ColumnMotion& column : motion.columns)
    chains.push_back(chain_of(model_of(structures, column.structure), structure_of(run, column.structure),
                              motion.groups[column.group].share));
  for (Chain& chain : chains)
    for (const Contact& contact : outcome.contacts)
      if (contact.structure == chain.structure)
        chain.stagger = contact.stagger;
  // The last layer of a chain is joined to the body that carries it.
  const Body& hits = impact.structures_on_striker ? motion.struck : motion.striker;
  const Body& carries = impact.structures_on_striker ? motion.striker : motion.struck;
  try {
    outcome.resolved = resolved_impact(hits, carries, motion.closing_speed, chains);
  } catch (const OutOfDomain& fault) {
    outcome.notes.push_back(
        fmt::format("{}: the run with own inertia could not be had: {}", impact.id, fault.what()));
    return;
  }
  if (!motion.elements.empty())
    outcome.notes.push_back(
        fmt::format("{}: the run with the structures' own inertia leaves out face blocks, attachments and the rest "
                    "of the body: it stands between rigid bodies.",
                    impact.id));
}

void add_after_hit(const RunView& run, ImpactOutcome& outcome) {
  for (const ColumnMotion& column : outcome.motion.columns) {
    const StructureView& view = structure_of(run, column.structure);
    outcome.after_hit.push_back(after_hit(*view.curve, *view.layers, column.peak_crush,
                                          layers_at_stop(view, column).force, usable_stroke(run, column, view)));
  }
}

void add_layer_rates(const ImpactSetup& setup, const std::vector<StructureModel>& structures,
                     ImpactOutcome& outcome) {
  for (std::size_t i = 0; i < structures.size(); ++i) {
    const bool struck = setup.contacts().empty() || setup.contacts()[i].struck;
    if (structures[i].has_rate_law && struck && setup.moving_mass(i) > 0)
      outcome.layer_rates.push_back(layer_rates(structures[i], setup.speed(), setup.moving_mass(i)));
  }
}

/// A structure whose attachment gives way first is said aloud, whether a limit asks for it or not.
void name_weak_attachments(ImpactOutcome& outcome) {
  for (const ElementMotion& element : outcome.motion.elements)
    if (element.kind == ElementKind::attachment && element.first_crush_time >= 0)
      outcome.notes.push_back(fmt::format("{}: what carries {} crushes by {:.1f} mm at {:.1f} kN: it is weaker than "
                                          "the structure, which therefore does not "
                                          "do its work alone.",
                                          outcome.id, element.structure, 1e3 * element.lasting_crush,
                                          1e-3 * element.peak_force));
}

} // namespace

void add_impact_figures(const CrashCase& crash_case, const ImpactInput& impact,
                        const std::vector<StructureModel>& structures, const ImpactSetup& setup,
                        const SettledStructures& nominal, ImpactOutcome& outcome) {
  if (outcome.motion.groups.empty())
    return;
  const ImpactView about{impact.force_angle.value, setup.contacts().empty() ? nullptr : &setup.contacts(),
                         impact.striker.lateral, impact.struck.lateral};
  const RunView run{&outcome.id, &outcome.motion, &nominal.views, &crash_case.limits, nullptr, about};
  add_yaw(impact, outcome);
  add_column_maps(run, outcome);
  add_resolved(impact, structures, run, outcome);
  add_after_hit(run, outcome);
  add_layer_rates(setup, structures, outcome);
  name_weak_attachments(outcome);
}

} // namespace crushwright
