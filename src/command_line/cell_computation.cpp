#include "command_line/cell_computation.hpp"

#include "crushwright/errors.hpp"
#include "homogenisation/computed_laws.hpp"
#include "homogenisation/declared_symmetry.hpp"
#include "homogenisation/hardening_curve.hpp"
#include "homogenisation/voxel_extrapolation.hpp"
#include "lattice_body/metal_area.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

/// Yield surface of the page: every 15 degrees.
constexpr int yield_points = 24;
/// Under this many voxels across a strut or wall a solid is too stiff, docs/method/voxel.md.
constexpr double fewest_voxels_across = 3;
/// What is computed and what the catalogue says may differ by this before it is said.
constexpr double notable_disagreement = 0.30;

double poissons_ratio_of(const BaseMaterial& material, std::vector<std::string>& warnings) {
  if (material.poissons_ratio) {
    return material.poissons_ratio->value;
  }
  const double assumed = LawAssumptions{}.poissons_ratio;
  warnings.push_back(fmt::format("{} states no Poisson's ratio; {:g} is taken.", material.name, assumed));
  return assumed;
}

double required(const std::optional<Quantity>& value, const BaseMaterial& material, const char* what,
                const char* key) {
  if (!value) {
    throw OutOfDomain(
        fmt::format("{}: no {}, so nothing of a cell can be computed in it. Add {}, with its source, to "
                    "base_materials/{}.yaml.",
                    material.name, what, key, material.id));
  }
  return value->value;
}

std::vector<std::string> directions_of(const CellReport& report) {
  std::vector<std::string> directions = {report.direction};
  for (const std::string& direction : law_directions(report.cell)) {
    if (direction != report.direction) {
      directions.push_back(direction);
    }
  }
  return directions;
}

void add_frame(double poissons_ratio, CellReport& report) {
  report.frame = frame_stiffness(report.cell, report.size_ratio, poissons_ratio);
  for (const std::string& direction : directions_of(report)) {
    const Eigen::Vector3d along = direction_vector(direction);
    const double path_end = direction == report.direction ? LawAssumptions{}.path_end : 0;
    report.loads.push_back(frame_load(report.cell, report.size_ratio, poissons_ratio, along));
    report.collapses.push_back(frame_collapse(report.cell, report.size_ratio, along, path_end));
  }
  report.yield_surface =
      frame_yield_surface(report.cell, report.size_ratio, direction_vector(report.direction), yield_points);
}

/// A newcomer's entry may declare the wrong symmetry; shown here, refused where laws are made of it.
void warn_of_symmetry(const StiffnessMatrix& stiffness, double limit, CellReport& report) {
  try {
    require_declared_symmetry(report.cell, stiffness, limit);
  } catch (const OutOfDomain& fault) {
    report.warnings.push_back(fault.what());
  }
}

void warn_of_buckling(CellReport& report) {
  const double modulus = report.material.youngs_modulus->value;
  const double strength = report.material.proof_stress->value;
  const FrameLoad& load = report.loads.front();
  const double buckling = load.first_buckling * modulus;
  const double collapse = report.collapses.front().lower * strength;
  if (load.first_buckling_member >= 0 && buckling < collapse) {
    report.warnings.push_back(
        fmt::format("Struts buckle elastically at {:.3g} MPa, before the cell collapses at {:.3g} MPa: neither the "
                    "collapse load nor the path behind it can be relied on. Take thicker struts.",
                    buckling / 1e6, collapse / 1e6));
  }
}

/// A user's surface has one size, so no second one to bring its grids to one density with.
ExtrapolatedStiffness extrapolated_of(const CellReport& report, double poissons_ratio, int grid) {
  if (report.cell.cell_class != CellClass::solid) {
    return extrapolated_stiffness(report.cell, report.size_ratio, poissons_ratio, grid / 2, grid);
  }
  ExtrapolatedStiffness result;
  SolidOptions options;
  options.grid = grid / 2;
  result.coarse = solid_stiffness(report.cell, report.size_ratio, poissons_ratio, options);
  options.grid = grid;
  result.fine = solid_stiffness(report.cell, report.size_ratio, poissons_ratio, options);
  for (Eigen::Index i = 0; i < result.over_youngs_modulus.size(); ++i) {
    result.over_youngs_modulus(i) =
        extrapolated(result.coarse.over_youngs_modulus(i), result.fine.over_youngs_modulus(i), 2).value;
  }
  result.density_exponent = 1;
  return result;
}

bool crushes_at_small_strains(const UnitCell& cell) {
  return cell.behaviour != CellBehaviour::folding;
}

void add_solid(double poissons_ratio, int grid, CellReport& report, double& density_exponent) {
  if (grid < 16 || grid % 4 != 0) {
    throw OutOfDomain(fmt::format("a solid is computed on a grid and on half of it, so the grid is a multiple of 4 "
                                  "from 16 on, and {} is not",
                                  grid));
  }
  const ExtrapolatedStiffness stiffness = extrapolated_of(report, poissons_ratio, grid);
  report.solids = {stiffness.coarse, stiffness.fine};
  report.extrapolated_solid = stiffness.over_youngs_modulus;
  const double yield_strain = report.material.proof_stress->value / report.material.youngs_modulus->value;
  const MetalCurve metal = metal_curve(report.material);
  if (crushes_at_small_strains(report.cell)) {
    for (const int voxels : {grid / 2, grid}) {
      SolidOptions options;
      options.grid = voxels;
      report.solid_collapses.push_back(solid_collapse(report.cell, report.size_ratio, poissons_ratio, yield_strain,
                                                      metal.curve, direction_vector(report.direction),
                                                      LawAssumptions{}.last_solid_strain, options));
    }
    density_exponent = stiffness.density_exponent;
  }
  const SolidStiffness& fine = report.solids.back();
  warn_of_symmetry(fine.over_youngs_modulus, voxel_symmetry_limit, report);
  if (fine.voxels_across < fewest_voxels_across) {
    report.warnings.push_back(
        fmt::format("The finest grid has {:.1f} voxels across a strut or wall; under {:g} a solid "
                    "is too stiff, and its extrapolation is rough. Ask for a finer --grid.",
                    fine.voxels_across, fewest_voxels_across));
  }
  if (!crushes_at_small_strains(report.cell)) {
    report.warnings.push_back(
        fmt::format("{} crushes by folding its walls, which no solid at small strains shows: its "
                    "collapse is not computed.",
                    report.cell.name));
  }
}

/// Thin foils need grids that nobody waits for; what the catalogue knows of the cell is shown all the same.
void add_solid_if_it_can(double poissons_ratio, int grid, CellReport& report, double& density_exponent) {
  try {
    add_solid(poissons_ratio, grid, report, density_exponent);
  } catch (const OutOfDomain& fault) {
    report.solids.clear();
    report.solid_collapses.clear();
    report.extrapolated_solid.reset();
    report.warnings.push_back(fmt::format("The solid was not computed. {}", fault.what()));
  }
}

void replace_computed(std::vector<PowerLaw>& laws, const CellReport& report, const char* property) {
  const auto computed = [](const PowerLaw& law) { return law.origin.evidence == Evidence::computed; };
  laws.erase(std::remove_if(laws.begin(), laws.end(), computed), laws.end());
  for (const FittedLaw& fitted : report.fitted_laws) {
    if (fitted.property == property) {
      laws.push_back(fitted.law);
    }
  }
}

/// The cell as it would be read with the fitted laws in its entry.
UnitCell with_fitted_laws(const CellReport& report) {
  UnitCell cell = report.cell;
  if (!report.fitted_laws.empty()) {
    replace_computed(cell.elastic_modulus, report, "elastic modulus");
    replace_computed(cell.plateau_stress, report, "plateau stress");
    replace_computed(cell.first_peak_ratio, report, "first peak ratio");
  }
  return cell;
}

void set_beside(const char* law, double value, const std::string& remark, const char* what, CellProperty& property,
                std::vector<std::string>& warnings) {
  PropertyEvidence evidence;
  evidence.evidence = Evidence::computed;
  evidence.law = law;
  evidence.value = value;
  evidence.remark = remark;
  evidence.source = {"own geometry of the cell, docs/method/computed_law.md", Standing::derived};
  const PropertyEvidence& used = property.all.front();
  const double difference = value / used.value - 1;
  if (used.evidence != Evidence::computed && std::abs(difference) > notable_disagreement) {
    warnings.push_back(fmt::format("Computed here, the {} is {:+.0f} % against '{}', which is used.", what,
                                   100 * difference, used.law));
  }
  const bool weaker = used.evidence == Evidence::generic || used.evidence == Evidence::prior;
  if (weaker && property.reason.find("--write") == std::string::npos) {
    property.reason += ". That is what a case would take from the entry as it stands; what is computed here serves a "
                       "case once --laws LOW HIGH --write has made laws of it";
  }
  property.all.push_back(evidence);
}

/// The values of this very density, computed, behind what a case would choose from.
void set_computed_beside(const CellReport& report, double density_exponent, CellProperties& properties) {
  const double modulus = report.material.youngs_modulus->value;
  const double flow = flow_stress(report.material).value;
  const Eigen::Vector3d along = direction_vector(report.direction);
  std::vector<std::string>& warnings = properties.warnings;
  if (report.frame) {
    set_beside("frame-here", modulus * youngs_modulus(report.frame->over_youngs_modulus, along),
               "beams with stiff nodes, at this density", "elastic modulus", properties.elastic_modulus, warnings);
    set_beside("frame-here",
               flow * std::min(report.collapses.front().mean_path_stress, report.collapses.front().lower),
               fmt::format(
                   "mean along the mechanism's path to {:.0f} % strain, at most first collapse, x flow stress {:.4g} "
                   "MPa, at this density",
                   100 * LawAssumptions{}.path_end, flow / 1e6),
               "plateau stress", properties.plateau_stress, warnings);
  }
  if (report.extrapolated_solid) {
    set_beside("solid-here", modulus * youngs_modulus(*report.extrapolated_solid, along),
               fmt::format("voxels, extrapolated from {} and {} an edge, at this density", report.solids.front().grid,
                           report.solids.back().grid),
               "elastic modulus", properties.elastic_modulus, warnings);
  }
  if (report.solid_collapses.size() > 1) {
    const SolidCollapse& coarse = report.solid_collapses.front();
    const SolidCollapse& fine = report.solid_collapses.back();
    set_beside(
        "solid-here",
        report.material.proof_stress->value *
            extrapolated_collapse(coarse, fine, report.relative_density, density_exponent).value,
        fmt::format("stress at {:.0f} % strain with the metal's own hardening, small strains, folding not followed",
                    100 * LawAssumptions{}.last_solid_strain),
        "plateau stress", properties.plateau_stress, warnings);
  }
}

void add_evidence(double density_exponent, CellReport& report) {
  try {
    CellProperties properties =
        cell_properties(with_fitted_laws(report), report.material, report.direction, report.relative_density);
    set_computed_beside(report, density_exponent, properties);
    report.evidence = properties;
  } catch (const OutOfDomain& fault) {
    report.warnings.push_back(fmt::format("No evidence of the catalogue serves: {}", fault.what()));
  }
}

} // namespace

std::vector<FittedLaw> fitted_laws(const UnitCell& cell, const CellQuestion& question,
                                   std::vector<std::string>& notes) {
  std::vector<FittedLaw> fitted;
  if (!question.law_range) {
    return fitted;
  }
  ComputedLawOptions options;
  options.relative_density = *question.law_range;
  options.grid = question.law_grid;
  options.version = question.version;
  const ComputedLaws computed = computed_laws(cell, options);
  for (const ComputedLaw& law : computed.laws) {
    fitted.push_back(
        {law.property, law.law, law.relative_density, law.computed, law.law.origin.computation->largest_residual});
  }
  notes.insert(notes.end(), computed.notes.begin(), computed.notes.end());
  return fitted;
}

CellReport computed_report(const UnitCell& cell, const BaseMaterial& material, const CellQuestion& question) {
  CellReport report;
  report.cell = cell;
  report.material = material;
  report.direction = question.direction;
  report.cell_edge = question.cell_edge;
  report.relative_density = question.relative_density;
  (void)direction_vector(question.direction);
  required(material.youngs_modulus, material, "Young's modulus", "youngs_modulus");
  required(material.proof_stress, material, "proof stress", "proof_stress");
  if (cell.cell_class != CellClass::foam) {
    report.size_ratio = size_ratio(cell, question.relative_density);
  }
  report.nominal_relative_density = in_basis(cell, question.relative_density, DensityBasis::nominal);
  report.metal_area = metal_area(cell, report.size_ratio);
  double density_exponent = 1;
  const double poissons_ratio = poissons_ratio_of(material, report.warnings);
  if (cell.cell_class == CellClass::strut) {
    add_frame(poissons_ratio, report);
    warn_of_buckling(report);
    warn_of_symmetry(report.frame->over_youngs_modulus, frame_symmetry_limit, report);
  }
  if (question.solid) {
    add_solid(poissons_ratio, question.grid, report, density_exponent);
  } else if (cell.cell_class != CellClass::foam && cell.cell_class != CellClass::strut) {
    add_solid_if_it_can(poissons_ratio, question.grid, report, density_exponent);
  }
  report.fitted_laws = fitted_laws(cell, question, report.warnings);
  add_evidence(density_exponent, report);
  return report;
}

} // namespace crushwright
