#include "review_pack/cell_sections.hpp"
#include "review_pack/html.hpp"
#include "review_pack/svg.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

/// Direction in the cell's axes in the fewest words: "001" where it is one, its parts otherwise.
std::string direction_text(const Eigen::Vector3d& direction) {
  for (const char* digits : {"100", "010", "001", "110", "101", "011", "111"}) {
    if ((direction.normalized() - direction_vector(digits)).norm() < 1e-6) {
      return digits;
    }
  }
  return fmt::format("[{:.3f} {:.3f} {:.3f}]", direction[0], direction[1], direction[2]);
}

const FrameLoad* load_along(const CellReport& report, const Eigen::Vector3d& direction) {
  for (const FrameLoad& load : report.loads) {
    if ((load.direction - direction).norm() < 1e-6) {
      return &load;
    }
  }
  return nullptr;
}

std::string buckling_text(const FrameLoad& load, const CellReport& report) {
  if (load.first_buckling_member < 0) {
    return "none";
  }
  return over_base(load.first_buckling, report.material.youngs_modulus);
}

/// Whether a strut buckles before the cell collapses; unknown without both base properties.
bool buckles_first(const FrameLoad& load, const FrameCollapse& collapse, const BaseMaterial& material) {
  return load.first_buckling_member >= 0 && material.youngs_modulus && material.proof_stress &&
         load.first_buckling * material.youngs_modulus->value < collapse.lower * material.proof_stress->value;
}

std::string frame_table(const CellReport& report) {
  const std::optional<Quantity>& yield = report.material.proof_stress;
  const std::vector<TableColumn> columns = {{"Direction"},
                                            {"First yield", true},
                                            {"Collapse, lower", true},
                                            {"Collapse, upper", true},
                                            {"First strut buckles", true},
                                            {"Mean over the path", true}};
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> flags;
  for (const FrameCollapse& collapse : report.collapses) {
    const std::string direction = direction_text(collapse.direction);
    const FrameLoad* load = load_along(report, collapse.direction);
    rows.push_back({direction, load != nullptr ? over_base(load->first_yield, yield) : "",
                    over_base(collapse.lower, yield), over_base(collapse.upper, yield),
                    load != nullptr ? buckling_text(*load, report) : "",
                    collapse.path_strain.empty() ? "" : over_base(collapse.mean_path_stress, yield)});
    if (load != nullptr && buckles_first(*load, collapse, report.material)) {
      flags.push_back(
          fmt::format("Along {} a strut buckles before the cell collapses plastically: the collapse stress "
                      "is not reached.",
                      direction));
    }
  }
  return "<div class=\"keep\"><h3>Frame, limit analysis</h3>\n" + table(columns, rows) +
         "<p class=\"small quiet\">Lower: certainly carried; upper: certainly not. Buckling by elastic forces.</p>"
         "</div>\n" +
         bullet_list(flags);
}

std::string solid_table(const CellReport& report) {
  const std::optional<Quantity>& yield = report.material.proof_stress;
  const std::vector<TableColumn> columns = {
      {"Direction"},         {"Voxels an edge", true},          {"Elastic modulus", true},
      {"First yield", true}, {"Collapse, 0.2 % plastic", true}, {"Greatest reached", true},
      {"Slope behind", true}};
  std::vector<std::vector<std::string>> rows;
  for (const SolidCollapse& solid : report.solid_collapses) {
    rows.push_back({direction_text(solid.direction), fmt::format("{}", solid.grid),
                    over_base(solid.elastic_modulus, report.material.youngs_modulus),
                    over_base(solid.first_yield, yield), over_base(solid.collapse, yield),
                    over_base(solid.greatest, yield),
                    over_base(solid.post_yield_slope, report.material.youngs_modulus)});
  }
  return "<div class=\"keep\"><h3>Solid, with the metal's hardening</h3>\n" + table(columns, rows) + "</div>\n";
}

LineChart stress_chart(const CellReport& report, const std::string& id, const std::string& title) {
  LineChart chart;
  chart.id = id;
  chart.title = title;
  chart.x_title = "strain [%]";
  chart.y_title = report.material.proof_stress ? "stress [MPa]" : "stress over yield stress [-]";
  chart.height = 240;
  return chart;
}

double shown_stress(const CellReport& report) {
  return report.material.proof_stress ? report.material.proof_stress->value * 1e-6 : 1;
}

ChartLine curve(const std::string& label, const std::vector<double>& strain, const std::vector<double>& stress,
                double factor, std::size_t place) {
  constexpr Dash dashes[] = {Dash::solid, Dash::dashed, Dash::dotted, Dash::dash_dot};
  ChartLine line;
  line.label = label;
  line.dash = dashes[place % 4];
  line.label_at = 0.85 - 0.2 * static_cast<double>(place % 4);
  for (std::size_t i = 0; i < strain.size() && i < stress.size(); ++i) {
    line.points.push_back({100 * strain[i], factor * stress[i]});
  }
  return line;
}

std::string drawn(LineChart chart, ChartSet& charts) {
  if (chart.lines.empty()) {
    return {};
  }
  double greatest = 0, farthest = 0;
  for (const ChartLine& line : chart.lines) {
    for (const ChartPoint& point : line.points) {
      greatest = std::max(greatest, point.y);
      farthest = std::max(farthest, point.x);
    }
  }
  if (!(greatest > 0) || !(farthest > 0)) {
    return {};
  }
  chart.x_high = farthest;
  chart.y_high = rounded_up(1.15 * greatest);
  return charts.figure(chart);
}

std::string path_charts(const CellReport& report, ChartSet& charts) {
  LineChart frame = stress_chart(report, "frame-path", "Crushing on: the frame's mechanism");
  frame.caption = "Sides free, no hardening, struts do not touch.";
  for (const FrameCollapse& collapse : report.collapses) {
    if (!collapse.path_strain.empty()) {
      frame.lines.push_back(curve(direction_text(collapse.direction), collapse.path_strain, collapse.path_stress,
                                  shown_stress(report), frame.lines.size()));
    }
  }
  LineChart solid = stress_chart(report, "solid-path", "First yield and collapse: the solid");
  solid.caption = "Sides free, small strains, the metal hardens.";
  for (const SolidCollapse& collapse : report.solid_collapses) {
    solid.lines.push_back(curve(fmt::format("{}, {} voxels", direction_text(collapse.direction), collapse.grid),
                                collapse.strain, collapse.stress, shown_stress(report), solid.lines.size()));
  }
  const std::string html = drawn(std::move(frame), charts) + drawn(std::move(solid), charts);
  return html.empty() ? html : element("div", html, "charts two") + "\n";
}

/// Axial stress to the right, lateral upwards, to one scale, closed to a ring.
std::string yield_drawing(const CellReport& report) {
  constexpr double half = 130, centre_x = 210, centre_y = 165;
  double greatest = 0;
  for (const YieldPoint& point : report.yield_surface) {
    greatest = std::max({greatest, std::abs(point.axial), std::abs(point.lateral)});
  }
  if (!(greatest > 0)) {
    return {};
  }
  std::vector<SvgPoint> ring;
  for (std::size_t i = 0; i <= report.yield_surface.size(); ++i) {
    const YieldPoint& point = report.yield_surface[i % report.yield_surface.size()];
    ring.push_back({centre_x + half * point.axial / greatest, centre_y - half * point.lateral / greatest});
  }
  Svg svg;
  svg.line({centre_x - half - 10, centre_y}, {centre_x + half + 10, centre_y}, "axis");
  svg.line({centre_x, centre_y - half - 10}, {centre_x, centre_y + half + 10}, "axis");
  svg.path(ring, "curve");
  const YieldPoint& first = report.yield_surface.front();
  const SvgPoint uniaxial = {centre_x + half * first.axial / greatest, centre_y};
  svg.line({uniaxial[0], centre_y - 7}, {uniaxial[0], centre_y + 7}, "outline");
  svg.text({uniaxial[0] + 4, centre_y + 22}, fmt::format("{:.3g}", first.axial), "start");
  svg.text({centre_x + half + 16, centre_y + 4}, "axial", "start");
  svg.text({centre_x, centre_y - half - 14}, "lateral, both sides");
  return fmt::format(
      "<figure><b>Yield surface about {}</b>{}<figcaption>Over the yield stress of the metal, compression "
      "positive; lower bounds. The short stroke marks crushing with free sides.</figcaption></figure>\n",
      escape_html(report.direction), svg.take(420, centre_y + half + 24, "Axial and lateral stress at collapse"));
}

} // namespace

std::string collapse_section(const CellReport& report, ChartSet& charts) {
  std::string html = "<section id=\"collapse\">\n<h2>Collapse, computed</h2>\n";
  if (report.collapses.empty() && report.solid_collapses.empty()) {
    return html + "<p>No collapse was computed.</p>\n</section>\n";
  }
  if (report.material.proof_stress) {
    html += fmt::format(
        "<p class=\"small quiet\">In {} with 0.2 % proof stress {}; quiet figures are over that stress, "
        "those of moduli and buckling over Young's modulus.</p>\n",
        escape_html(report.material.name), value_html(report.material.proof_stress->value, Dimension::stress));
  }
  if (!report.collapses.empty()) {
    html += frame_table(report);
  }
  if (!report.solid_collapses.empty()) {
    html += solid_table(report);
  }
  html += path_charts(report, charts);
  if (!report.yield_surface.empty()) {
    html += yield_drawing(report);
  }
  return html + "</section>\n";
}

std::string fit_section(const CellReport& report) {
  if (report.fitted_laws.empty()) {
    return {};
  }
  const std::vector<TableColumn> columns = {
      {"Property"},     {"Direction"},     {"C", true},      {"Exponent", true},
      {"Fitted range"}, {"Density basis"}, {"Points", true}, {"Largest residual", true}};
  std::vector<std::vector<std::string>> rows;
  for (const FittedLaw& fit : report.fitted_laws) {
    const LawOrigin& origin = fit.law.origin;
    rows.push_back(
        {escape_html(fit.property), escape_html(origin.direction), fmt::format("{:.4g}", fit.law.coefficient),
         fmt::format("{:.3f}", fit.law.exponent),
         fmt::format("{:.3g} to {:.3g}", origin.fitted_relative_density.low, origin.fitted_relative_density.high),
         std::string(name_of(origin.density_basis)), fmt::format("{}", fit.computed.size()),
         value_html(fit.largest_residual, Dimension::fraction)});
  }
  return "<section id=\"fit\">\n<h2>Laws fitted to computed points</h2>\n<p class=\"small quiet\">C times relative "
         "density to the exponent, times the base property.</p>\n" +
         table(columns, rows) + "</section>\n";
}

} // namespace crushwright
