#include "column_check/service_beam.hpp"
#include "column_check/service_bolts.hpp"
#include "column_check/service_panel.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {
namespace {

SpaceVector pushes_of(const std::string& side) {
  if (side == "left")
    return {0, -1, 0};
  if (side == "right")
    return {0, 1, 0};
  if (side == "upper")
    return {0, 0, -1};
  if (side == "lower")
    return {0, 0, 1};
  throw OutOfDomain(fmt::format("`{}` is no side of a structure", side));
}

/// The load with its factor.
BeamLoads loads_of(const BeamColumn& column, const ServiceLoad& load) {
  const double factor = load.factor.value;
  BeamLoads loads;
  loads.station = load.station.value;
  for (std::size_t i = 0; i < 3; ++i) {
    loads.acceleration[i] = factor * load.acceleration[i].value;
    loads.force[i] = factor * load.force[i].value - load.carried_mass.value * loads.acceleration[i];
    loads.tip_force[i] = -column.tip_mass * loads.acceleration[i];
  }
  if (load.pressure) {
    loads.pressure = factor * load.pressure->value;
    loads.pushes = pushes_of(load.pressure_side);
  }
  return loads;
}

/// Greatest strains of a cut: along the axis at a corner of its extents, and shear.
struct CutStrain {
  double along = 0;
  double shear = 0;
};

CutStrain strain_of(const BeamCut& cut) {
  const BeamSection& section = cut.section;
  const CutLoad& load = cut.load;
  return {std::abs(load.force[0]) / section.elastic_axial() +
              std::abs(load.moment[2]) * section.half_depth[about_vertical] /
                  section.elastic_bending(about_vertical) +
              std::abs(load.moment[1]) * section.half_depth[about_lateral] / section.elastic_bending(about_lateral),
          std::hypot(load.force[1] / shear_stiffness(section, about_vertical),
                     load.force[2] / shear_stiffness(section, about_lateral))};
}

/// Equivalent stress over the proof stress, von Mises.
double skin_use_of(const BeamSection& section, const CutStrain& strain) {
  if (!(section.skin_area > 0))
    return 0;
  const double normal = section.skin.youngs_modulus * strain.along, shear = section.skin.shear_modulus * strain.shear;
  return std::sqrt(normal * normal + 3 * shear * shear) / section.skin.first_yield;
}

double lattice_use_of(const BeamSection& section, const CutStrain& strain) {
  if (!(section.lattice_area > 0))
    return 0;
  return std::hypot(section.lattice.youngs_modulus * strain.along / section.lattice.first_yield,
                    section.lattice.shear_modulus * strain.shear / section.lattice.shear_strength);
}

double panel_use_of(const BeamSection& section, const ServiceLoad& load, double cell_edge) {
  if (!load.pressure || !(section.skin_area > 0))
    return 0;
  const double pressure = load.factor.value * std::abs(load.pressure->value);
  return panel_stress(section, pressure, load.pressure_side, cell_edge) / section.skin.first_yield;
}

void check_strengths(const BeamSection& section) {
  const bool skin = !(section.skin_area > 0) || section.skin.first_yield > 0;
  const bool lattice =
      !(section.lattice_area > 0) || (section.lattice.first_yield > 0 && section.lattice.shear_strength > 0);
  if (!skin || !lattice)
    throw OutOfDomain(fmt::format("the {} at {} m has no strength", skin ? "lattice" : "skin", section.station));
}

/// Keeps the greatest value of a part and where it stands.
struct Greatest {
  double value = 0;
  double station = 0;
  void look_at(double found, double where) {
    if (found > value) {
      value = found;
      station = where;
    }
  }
};

void fill_uses(const BeamResponse& response, const ServiceLoad& load, double cell_edge, Greatest& greatest,
               ServiceOutcome& outcome) {
  for (const BeamCut& cut : response.cuts) {
    const BeamSection& section = cut.section;
    check_strengths(section);
    const CutStrain strain = strain_of(cut);
    const double skin = skin_use_of(section, strain), lattice = lattice_use_of(section, strain);
    const double panel = panel_use_of(section, load, cell_edge);
    outcome.skin_use = std::max(outcome.skin_use, skin);
    outcome.panel_use = std::max(outcome.panel_use, panel);
    outcome.lattice_use = std::max(outcome.lattice_use, lattice);
    if (section.skin_area > 0)
      outcome.nominal.skin =
          std::max(outcome.nominal.skin.value_or(0), (skin + panel) * section.skin.first_yield / load.factor.value);
    if (section.lattice_area > 0 && section.lattice.metal_proof_stress > 0)
      outcome.nominal.lattice = std::max(outcome.nominal.lattice.value_or(0),
                                         lattice * section.lattice.metal_proof_stress / load.factor.value);
    greatest.look_at(std::max(skin + panel, lattice), section.station);
  }
}

} // namespace

ServiceOutcome service_outcome(const BeamColumn& column, const ServiceLoad& load, const BoltPattern* bolts,
                               double cell_edge) {
  ServiceOutcome outcome;
  outcome.load = load.id;
  outcome.structure = column.structure;
  const BeamResponse response = beam_response(column, loads_of(column, load));
  Greatest greatest;
  fill_uses(response, load, cell_edge, greatest, outcome);
  if (bolts != nullptr) {
    const BoltService at_root = bolt_service(*bolts, response.cuts.back().load, load.alternating);
    outcome.root_use = at_root.use;
    outcome.nominal.bolt = at_root.tension / load.factor.value;
    greatest.look_at(at_root.use, column.length);
  }
  outcome.use = greatest.value;
  outcome.station = greatest.station;
  outcome.deflection =
      std::hypot(response.tip_displacement[0], response.tip_displacement[1], response.tip_displacement[2]);
  return outcome;
}

} // namespace crushwright
