#include "review_pack/cell_sections.hpp"
#include "review_pack/html.hpp"
#include "review_pack/polar_drawing.hpp"

#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

struct NamedStiffness {
  std::string name;
  StiffnessMatrix over_youngs_modulus;
};

/// Best first: what the page draws and prints in full is the first.
std::vector<NamedStiffness> stiffnesses(const CellReport& report) {
  std::vector<NamedStiffness> all;
  if (report.extrapolated_solid) {
    all.push_back({"solid, extrapolated", *report.extrapolated_solid});
  }
  for (auto solid = report.solids.rbegin(); solid != report.solids.rend(); ++solid) {
    all.push_back({fmt::format("solid, {} voxels an edge", solid->grid), solid->over_youngs_modulus});
  }
  if (report.frame) {
    all.push_back({"frame, stiff nodes", report.frame->over_youngs_modulus});
    all.push_back({"frame, node to node", report.frame->node_to_node});
  }
  return all;
}

std::string three_digits(double value) {
  if (value == 0) {
    return "0";
  }
  const int before = static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
  return fmt::format("{:.{}f}", value, std::max(0, 3 - before));
}

std::string matrix_table(const NamedStiffness& stiffness, const std::optional<Quantity>& modulus) {
  const double factor = modulus ? modulus->value * 1e-9 : 1;
  constexpr const char* names[] = {"xx", "yy", "zz", "yz", "xz", "xy"};
  std::vector<TableColumn> columns = {{""}};
  for (const char* name : names) {
    columns.push_back({name, true});
  }
  const double greatest = stiffness.over_youngs_modulus.cwiseAbs().maxCoeff();
  std::vector<std::vector<std::string>> rows;
  for (Eigen::Index i = 0; i < 6; ++i) {
    std::vector<std::string> row = {element("span", names[i], "used")};
    for (Eigen::Index k = 0; k < 6; ++k) {
      const double value = stiffness.over_youngs_modulus(i, k);
      // What symmetry makes zero comes out of a solver as a rest far below any digit that is shown.
      row.push_back(std::abs(value) < 1e-4 * greatest ? std::string("0") : three_digits(value * factor));
    }
    rows.push_back(std::move(row));
  }
  return fmt::format("<div class=\"keep\"><h3>Stiffness matrix, {}{}</h3>\n{}<p class=\"small quiet\">Stress over "
                     "strain; shear strains are engineering strains. Compression or tension: the same.</p></div>\n",
                     escape_html(stiffness.name), modulus ? ", GPa" : ", over Young's modulus of the metal",
                     table(columns, rows));
}

std::string digits_of(const Eigen::Vector3d& direction) {
  return fmt::format("[{:.2f} {:.2f} {:.2f}]", direction[0], direction[1], direction[2]);
}

std::string moduli_table(const std::vector<NamedStiffness>& all, const std::optional<Quantity>& modulus) {
  std::vector<TableColumn> columns = {{""}};
  for (const NamedStiffness& each : all) {
    columns.push_back({each.name, true});
  }
  std::vector<std::vector<std::string>> rows;
  const auto add = [&](const std::string& name, const auto& write) {
    std::vector<std::string> row = {name};
    for (const NamedStiffness& each : all) {
      row.push_back(write(each.over_youngs_modulus));
    }
    rows.push_back(std::move(row));
  };
  for (const char* digits : {"100", "010", "001", "110", "111"}) {
    add(fmt::format("Young's modulus along {}", digits), [&](const StiffnessMatrix& stiffness) {
      return over_base(youngs_modulus(stiffness, direction_vector(digits)), modulus);
    });
  }
  const Eigen::Vector3d x = Eigen::Vector3d::UnitX(), y = Eigen::Vector3d::UnitY();
  add("Shear modulus between x and y",
      [&](const StiffnessMatrix& stiffness) { return over_base(shear_modulus(stiffness, x, y), modulus); });
  add("Poisson's ratio, x to y", [&](const StiffnessMatrix& stiffness) {
    // A solver's rest about zero would print as "-0.000".
    const double ratio = poissons_ratio(stiffness, x, y);
    return fmt::format("{:.3f}", std::abs(ratio) < 5e-4 ? 0.0 : ratio);
  });
  add("Bulk modulus, equal strain",
      [&](const StiffnessMatrix& stiffness) { return over_base(bulk_modulus_voigt(stiffness), modulus); });
  add("Zener's ratio (cubic cells)",
      [&](const StiffnessMatrix& stiffness) { return fmt::format("{:.3g}", zener_ratio(stiffness)); });
  add("Universal anisotropy",
      [&](const StiffnessMatrix& stiffness) { return fmt::format("{:.3g}", universal_anisotropy(stiffness)); });
  add("Stiffest direction", [&](const StiffnessMatrix& stiffness) {
    const ModulusExtremes extremes = modulus_extremes(stiffness);
    return digits_of(extremes.stiffest) + "<br>" + over_base(extremes.greatest, modulus);
  });
  add("Softest direction", [&](const StiffnessMatrix& stiffness) {
    const ModulusExtremes extremes = modulus_extremes(stiffness);
    return digits_of(extremes.softest) + "<br>" + over_base(extremes.least, modulus);
  });
  return "<div class=\"keep methods\"><h3>By direction</h3>\n" + table(columns, rows) + "</div>\n";
}

std::string polar(const std::vector<NamedStiffness>& all, const CellReport& report) {
  const std::optional<Quantity>& modulus = report.material.youngs_modulus;
  const bool both = report.frame && !report.solids.empty();
  const std::optional<StiffnessMatrix> other = both ? std::optional(report.frame->over_youngs_modulus) : std::nullopt;
  return fmt::format("<figure><b>Young's modulus by direction</b>{}<figcaption>The distance from the middle is the "
                     "modulus when pulled or pressed along that direction with free sides. Solid line: {}.{}"
                     "</figcaption></figure>\n",
                     polar_drawing(all.front().over_youngs_modulus, other, modulus ? modulus->value * 1e-9 : 1,
                                   modulus ? "GPa" : "of the metal's"),
                     escape_html(all.front().name), both ? " Dashed: frame, stiff nodes." : "");
}

std::string grid_table(const CellReport& report) {
  const std::vector<TableColumn> columns = {{"Voxels an edge", true},   {"Across a strut or wall", true},
                                            {"Relative density", true}, {"Iterations", true},
                                            {"Residual", true},         {"Loose voxels left out", true}};
  std::vector<std::vector<std::string>> rows;
  for (const SolidStiffness& solid : report.solids) {
    rows.push_back({fmt::format("{}", solid.grid), fmt::format("{:.1f}", solid.voxels_across),
                    value_html(solid.relative_density, Dimension::fraction), fmt::format("{}", solid.iterations),
                    fmt::format("{:.1e}", solid.residual), fmt::format("{}", solid.dropped_voxels)});
  }
  return "<div class=\"keep\"><h3>Grids</h3>\n" + table(columns, rows) +
         "<p class=\"small quiet\">Fewer than 3 voxels across a strut or wall make it too stiff.</p></div>\n";
}

} // namespace

std::string over_base(double ratio, const std::optional<Quantity>& base) {
  if (!base) {
    return fmt::format("{:.4g}", ratio);
  }
  return fmt::format("{}<br><span class=\"quiet\">{:.3g}</span>", value_html(ratio * base->value, Dimension::stress),
                     ratio);
}

std::string stiffness_section(const CellReport& report) {
  std::string html = "<section id=\"stiffness\">\n<h2>Stiffness, computed</h2>\n";
  const std::vector<NamedStiffness> all = stiffnesses(report);
  if (all.empty()) {
    return html + "<p>No stiffness was computed.</p>\n</section>\n";
  }
  if (report.material.youngs_modulus) {
    html += fmt::format("<p class=\"small quiet\">In {} with Young's modulus {}; quiet figures are over that modulus."
                        "</p>\n",
                        escape_html(report.material.name),
                        value_html(report.material.youngs_modulus->value, Dimension::stress));
  }
  html += polar(all, report);
  html += moduli_table(all, report.material.youngs_modulus);
  html += matrix_table(all.front(), report.material.youngs_modulus);
  if (!report.solids.empty()) {
    html += grid_table(report);
  }
  return html + "</section>\n";
}

} // namespace crushwright
