#include "command_line/cell_text.hpp"

#include "command_line/candidate_table.hpp"
#include "quantities/units.hpp"
#include "review_pack/html.hpp"
#include "review_pack/text_table.hpp"
#include "review_pack/verdict_words.hpp"

#include <Eigen/Geometry>
#include <cmath>
#include <vector>

#include <fmt/format.h>

namespace crushwright {

namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string stress(double pascal) {
  return pascal >= 1e10 ? fmt::format("{:.4g} GPa", pascal / 1e9) : show(pascal, Dimension::stress);
}

std::string bare(double value) {
  return fmt::format("{:.3f}", value);
}

std::string percent(double part) {
  return fmt::format("{:.1f} %", 100 * part);
}

std::string indented(const std::string& table) {
  std::string text = "  ";
  for (std::size_t i = 0; i < table.size(); ++i) {
    text += table[i];
    if (table[i] == '\n' && i + 1 < table.size()) {
      text += "  ";
    }
  }
  return text;
}

std::string figures_table(const Rows& rows) {
  std::vector<bool> figures(rows.front().size(), true);
  figures.front() = false;
  return indented(text_table(figures, rows));
}

/// "1 0 1" of a unit vector when whole numbers up to 4 tell it, otherwise three decimals.
std::string vector_text(const Eigen::Vector3d& vector) {
  double least = 1;
  for (int i = 0; i < 3; ++i) {
    const double part = std::abs(vector[i]);
    least = part > 1e-6 && part < least ? part : least;
  }
  const Eigen::Vector3d scaled = vector / least;
  const Eigen::Vector3d whole = scaled.array().round();
  if ((scaled - whole).norm() < 1e-3 && whole.cwiseAbs().maxCoeff() < 5) {
    return fmt::format("[{:.0f} {:.0f} {:.0f}]", whole[0] + 0.0, whole[1] + 0.0, whole[2] + 0.0);
  }
  return fmt::format("[{:.3f} {:.3f} {:.3f}]", vector[0], vector[1], vector[2]);
}

/// Two directions across `along`, the first in a plane of the cell's axes where there is one.
Eigen::Vector3d across(const Eigen::Vector3d& along) {
  const Eigen::Vector3d axis = std::abs(along[2]) < 0.9 ? Eigen::Vector3d::UnitZ() : Eigen::Vector3d::UnitX();
  return along.cross(axis).normalized();
}

struct NamedDirection {
  std::string digits;
  Eigen::Vector3d along;
};

std::vector<NamedDirection> shown_directions(const CellReport& report) {
  std::vector<NamedDirection> all = {{report.direction, direction_vector(report.direction)}};
  const std::vector<std::string> usual = report.cell.symmetry == "cubic" || report.cell.symmetry == "isotropic"
                                             ? std::vector<std::string>{"100", "110", "111"}
                                             : std::vector<std::string>{"001", "100", "110", "101", "111"};
  for (const std::string& digits : usual) {
    if (digits != report.direction) {
      all.push_back({digits, direction_vector(digits)});
    }
  }
  return all;
}

std::string heading(const CellReport& report) {
  return fmt::format("{} in {}, crushed along {}\n", report.cell.name, report.material.name, report.direction);
}

std::string size_line(const CellReport& report) {
  if (report.size_ratio <= 0 || report.cell.size_name.empty()) {
    return "";
  }
  if (report.cell_edge > 0) {
    return fmt::format("{} {} with a {} of {} (ratio {:.4f})", report.cell.size_name,
                       show(report.size_ratio * report.cell_edge, Dimension::length), report.cell.edge_name,
                       show(report.cell_edge, Dimension::length), report.size_ratio);
  }
  return fmt::format("{} over {} {:.4f}; --cell-edge gives it in mm", report.cell.size_name, report.cell.edge_name,
                     report.size_ratio);
}

/// What powder clings to and a coating covers.
std::string area_line(const CellReport& report) {
  if (!report.metal_area) {
    return "";
  }
  if (report.cell_edge > 0) {
    return fmt::format("  metal surface {:.4g} mm² per cm³ of lattice\n", *report.metal_area / report.cell_edge);
  }
  return fmt::format("  metal surface {:.4g} per volume of lattice, times the {}\n", *report.metal_area,
                     report.cell.edge_name);
}

std::string density_part(const CellReport& report) {
  std::string text = fmt::format("\nDensity\n  relative density {:.2f} % true", 100 * report.relative_density);
  // A network or a user's surface has no walls or struts to sum.
  if (!report.cell.nominal_density_coefficients.empty()) {
    text += fmt::format(", {:.2f} % nominal", 100 * report.nominal_relative_density);
  }
  if (report.material.density) {
    text += fmt::format("; {:.4g} kg/m³", report.relative_density * report.material.density->value);
  }
  const std::string size = size_line(report);
  return text + '\n' + (size.empty() ? "" : wrapped("  " + size, text_width, 2)) + area_line(report);
}

Rows modulus_rows(const CellReport& report, const StiffnessMatrix& stiffness, const StiffnessMatrix* beside,
                  const char* beside_name) {
  const double solid = report.material.youngs_modulus->value;
  Rows rows = {{"along", "E", "E/Es", "across", "G", "nu"}};
  if (beside != nullptr) {
    rows.front().emplace_back(beside_name);
  }
  for (const NamedDirection& direction : shown_directions(report)) {
    const Eigen::Vector3d side = across(direction.along);
    const double modulus = youngs_modulus(stiffness, direction.along);
    rows.push_back({direction.digits, stress(modulus * solid), fmt::format("{:.5f}", modulus), vector_text(side),
                    stress(shear_modulus(stiffness, direction.along, side) * solid),
                    bare(poissons_ratio(stiffness, direction.along, side))});
    if (beside != nullptr) {
      rows.back().push_back(stress(youngs_modulus(*beside, direction.along) * solid));
    }
  }
  return rows;
}

std::string anisotropy_lines(const CellReport& report, const StiffnessMatrix& stiffness) {
  const double solid = report.material.youngs_modulus->value;
  const ModulusExtremes extremes = modulus_extremes(stiffness);
  std::string text;
  if (report.cell.symmetry == "cubic") {
    text += fmt::format("  Zener ratio {:.3f}, ", zener_ratio(stiffness));
  } else {
    text += "  ";
  }
  return text +
         fmt::format("universal anisotropy {:.3f} (isotropic: {}0)\n", universal_anisotropy(stiffness),
                     report.cell.symmetry == "cubic" ? "1 and " : "") +
         fmt::format("  stiffest along {}, {}; softest along {}, {}\n", vector_text(extremes.stiffest),
                     stress(extremes.greatest * solid), vector_text(extremes.softest),
                     stress(extremes.least * solid));
}

std::string frame_part(const CellReport& report) {
  if (!report.frame) {
    return "";
  }
  std::string text = "\nStiffness, as a frame of beams with stiff nodes\n";
  text += figures_table(
      modulus_rows(report, report.frame->over_youngs_modulus, &report.frame->node_to_node, "E, node to node"));
  text += anisotropy_lines(report, report.frame->over_youngs_modulus);
  text += wrapped("  Beams from node centre to node centre are softer than the metal; that column only shows by how "
                  "much.",
                  text_width, 2);
  return text;
}

std::string collapse_part(const CellReport& report) {
  if (report.collapses.empty()) {
    return "";
  }
  const double strength = report.material.proof_stress->value;
  const double modulus = report.material.youngs_modulus->value;
  Rows rows = {{"along", "first yield", "collapse, safe", "collapse, unsafe", "struts buckle at"}};
  for (std::size_t i = 0; i < report.collapses.size(); ++i) {
    const FrameCollapse& collapse = report.collapses[i];
    const FrameLoad& load = report.loads[i];
    const bool buckles = load.first_buckling_member >= 0;
    rows.push_back({vector_text(collapse.direction), stress(load.first_yield * strength),
                    stress(collapse.lower * strength), stress(collapse.upper * strength),
                    buckles ? stress(load.first_buckling * modulus) : "never"});
  }
  std::string text = "\nCollapse, by limit analysis of the frame at the proof stress\n" + figures_table(rows);
  const FrameCollapse& own = report.collapses.front();
  if (!own.path_strain.empty()) {
    text +=
        wrapped(fmt::format("  Followed to {:.0f} % strain, the mean stress along {} is {} at the proof stress, {} "
                            "at the flow stress; first collapse over it is {:.2f}.",
                            100 * own.path_strain.back(), report.direction, stress(own.mean_path_stress * strength),
                            stress(own.mean_path_stress * flow_stress(report.material).value),
                            own.lower / own.mean_path_stress),
                text_width, 2);
  }
  return text;
}

Rows grid_rows(const CellReport& report) {
  const double solid = report.material.youngs_modulus->value;
  const double strength = report.material.proof_stress->value;
  const Eigen::Vector3d along = direction_vector(report.direction);
  Rows rows = {{"grid", "density", "voxels across", "E", "first yield", "collapse"}};
  for (std::size_t i = 0; i < report.solids.size(); ++i) {
    const SolidStiffness& each = report.solids[i];
    const bool crushed = i < report.solid_collapses.size();
    rows.push_back({fmt::format("{}", each.grid), percent(each.relative_density),
                    fmt::format("{:.1f}", each.voxels_across),
                    stress(youngs_modulus(each.over_youngs_modulus, along) * solid),
                    crushed ? stress(report.solid_collapses[i].first_yield * strength) : "none",
                    crushed ? stress(report.solid_collapses[i].collapse * strength) : "none"});
  }
  return rows;
}

std::string solid_part(const CellReport& report) {
  if (report.solids.empty() || !report.extrapolated_solid) {
    return "";
  }
  const double solid = report.material.youngs_modulus->value;
  const Eigen::Vector3d along = direction_vector(report.direction);
  const double limit = youngs_modulus(*report.extrapolated_solid, along);
  const double finest = youngs_modulus(report.solids.back().over_youngs_modulus, along);
  std::string text =
      fmt::format("\nSolid of voxels, along {}\n", report.direction) + figures_table(grid_rows(report));
  text += fmt::format("  extrapolated: E {}, {} from the finest grid\n", stress(limit * solid),
                      percent(std::abs(limit - finest) / limit));
  text += figures_table(modulus_rows(report, *report.extrapolated_solid, nullptr, ""));
  text += anisotropy_lines(report, *report.extrapolated_solid);
  if (!report.solid_collapses.empty()) {
    const SolidCollapse& fine = report.solid_collapses.back();
    text +=
        wrapped(fmt::format("  Collapse is the stress at 0.2 % plastic strain with the metal's own hardening; beyond "
                            "it the stress rises by {} per unit of strain. Small strains: no folding, no contact.",
                            stress(fine.post_yield_slope * solid)),
                text_width, 2);
  }
  return text;
}

bool of_this_run(const PropertyEvidence& evidence) {
  return evidence.law == "frame-here" || evidence.law == "solid-here";
}

void add_rows(const std::string& name, const CellProperty& property, Rows& rows) {
  for (std::size_t place = 0; place < property.all.size(); ++place) {
    const PropertyEvidence& each = property.all[place];
    const std::string mark = place == 0 ? "> used" : of_this_run(each) ? "  here" : "";
    rows.push_back({place == 0 ? name : "", mark, std::string(name_of(each.evidence)), each.law, stress(each.value),
                    each.inside_fitted_range ? "" : "extrapolated"});
  }
}

std::string evidence_part(const CellReport& report) {
  if (!report.evidence) {
    return "";
  }
  const CellProperties& evidence = *report.evidence;
  Rows rows = {{"", "", "evidence", "law", "value", ""}};
  add_rows("E", evidence.elastic_modulus, rows);
  add_rows("plateau", evidence.plateau_stress, rows);
  std::string text = report.fitted_laws.empty() ? "\nEvidence; a case would use the first of each\n"
                                                : "\nEvidence, with the laws below in the entry\n";
  text += indented(text_table({false, false, false, false, true, false}, rows));
  text += wrapped("  E: " + evidence.elastic_modulus.reason + ".", text_width, 4);
  text += wrapped("  plateau: " + evidence.plateau_stress.reason + ".", text_width, 4);
  if (is_sized(report.cell)) {
    text += wrapped(
        "  Values marked `here` are computed at this density alone; --laws LOW HIGH --write makes laws of them "
        "that a case can use.",
        text_width, 4);
  }
  return text;
}

std::string laws_part(const CellReport& report) {
  if (report.fitted_laws.empty()) {
    return "";
  }
  Rows rows = {{"law", "C", "m", "from", "to", "misses by at most"}};
  for (const FittedLaw& fitted : report.fitted_laws) {
    const Range& range = fitted.law.origin.fitted_relative_density;
    rows.push_back({fitted.law.origin.id, fmt::format("{:.4g}", fitted.law.coefficient),
                    fmt::format("{:.3f}", fitted.law.exponent), fmt::format("{:.3g}", range.low),
                    fmt::format("{:.3g}", range.high), percent(fitted.largest_residual)});
  }
  return "\nComputed laws, C x (true relative density)^m; stiffness over E of the metal, strength over its flow "
         "stress\n" +
         figures_table(rows);
}

std::string warnings_part(const CellReport& report) {
  std::vector<std::string> all = report.warnings;
  if (report.evidence) {
    all.insert(all.end(), report.evidence->warnings.begin(), report.evidence->warnings.end());
  }
  std::string text = all.empty() ? "" : "\nWarnings\n";
  for (const std::string& warning : all) {
    text += wrapped("- " + warning, text_width, 2);
  }
  return text;
}

} // namespace

std::string cell_text(const CellReport& report) {
  return heading(report) + density_part(report) + frame_part(report) + collapse_part(report) + solid_part(report) +
         laws_part(report) + evidence_part(report) + warnings_part(report) + '\n' +
         wrapped(caution_not_claimed(), text_width, 0) + wrapped(caution_defer(), text_width, 0);
}

} // namespace crushwright
