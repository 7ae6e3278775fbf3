#include "review_pack/page.hpp"

#include "quantities/units.hpp"
#include "result_file/curve_files.hpp"
#include "review_pack/html.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr double to_mm = 1e3, to_kn = 1e-3, to_kj = 1e-3, to_mpa = 1e-6;
constexpr int band_points = 120;
constexpr std::size_t longest_names = 22; // more would not fit across a narrow chart

std::vector<ChartPoint> points(const std::vector<double>& x, double x_factor, const std::vector<double>& y,
                               double y_factor) {
  std::vector<ChartPoint> result;
  result.reserve(x.size());
  for (std::size_t i = 0; i < x.size(); ++i) {
    result.push_back({x[i] * x_factor, y[i] * y_factor});
  }
  return result;
}

/// Greatest crush of a structure or its mirrors in an impact, nominal, and what it is asked to absorb.
struct Demand {
  std::string impact;
  double crush = 0;
  double energy = 0;
};

std::vector<Demand> demands(const Estimate& estimate, std::size_t structure) {
  std::vector<Demand> result;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    Demand demand{impact.id, 0, 0};
    for (const ColumnMotion& column : impact.motion.columns) {
      if (is_same_body(estimate, structure, column.structure) && column.input_energy > demand.energy) {
        demand.crush = column.peak_crush;
        demand.energy = column.input_energy;
      }
    }
    if (demand.energy > 0) {
      result.push_back(demand);
    }
  }
  return result;
}

/// Force limits on a structure or its mirrors; equal values share one line.
std::vector<ChartLevel> force_limits(const Estimate& estimate, std::size_t structure) {
  std::map<double, std::set<std::string>> by_value;
  for (const Check& check : estimate.deciding.verdict.checks) {
    const Limit& limit = check.limit;
    if (limit.quantity == LimitedQuantity::force && is_same_body(estimate, structure, limit.of)) {
      by_value[limit.value.value].insert(limit.id);
    }
  }
  std::vector<ChartLevel> levels;
  for (const auto& [value, ids] : by_value) {
    std::string who = fmt::format("{}", fmt::join(ids, ", "));
    if (who.size() > longest_names) {
      who = fmt::format("{} limits", ids.size());
    }
    levels.push_back({fmt::format("limit {} ({})", show(value, Dimension::force), who), value * to_kn, true});
  }
  return levels;
}

ChartBand band(const StructureCurves& curves, double crush_high, double (CrushCurve::*value)(double) const,
               double factor) {
  ChartBand result;
  for (int i = 0; i <= band_points; ++i) {
    const double crush = crush_high * i / band_points;
    result.x.push_back(crush * to_mm);
    result.low.push_back((curves.weak.*value)(crush)*factor);
    result.high.push_back((curves.strong.*value)(crush)*factor);
  }
  return result;
}

double shown_crush(const StructureCurves& curves, const std::vector<Demand>& asked) {
  double crush = std::max({curves.weak.bottoming_crush, curves.nominal.bottoming_crush, curves.strong.bottoming_crush,
                           curves.usable_stroke});
  for (const Demand& demand : asked) {
    crush = std::max(crush, demand.crush);
  }
  return 1.04 * crush;
}

std::vector<ChartLevel> stroke_marks(const StructureCurves& curves) {
  std::vector<ChartLevel> marks = {
      {fmt::format("usable stroke {}", show(curves.usable_stroke, Dimension::length)), curves.usable_stroke * to_mm}};
  const double bottoming = curves.nominal.bottoming_crush;
  if (std::abs(bottoming - curves.usable_stroke) > 0.002 * bottoming) {
    marks.push_back({fmt::format("used up {}", show(bottoming, Dimension::length)), bottoming * to_mm});
  }
  return marks;
}

std::vector<ChartLine> side_lines(const StructureCurves& curves, const std::vector<double> CrushCurve::*values,
                                  double factor) {
  const auto line = [&](const char* label, const CrushCurve& curve, Dash dash, double at, bool below) {
    return ChartLine{label, points(curve.crush, to_mm, curve.*values, factor), dash, at, below};
  };
  return {line("strong", curves.strong, Dash::dotted, 0.22, false),
          line("weak", curves.weak, Dash::dashed, 0.42, true),
          line("nominal", curves.nominal, Dash::solid, 0.6, false)};
}

LineChart force_chart(const Estimate& estimate, std::size_t structure) {
  const StructureCurves& curves = estimate.deciding.curves.at(structure);
  const std::vector<Demand> asked = demands(estimate, structure);
  const double crush_high = shown_crush(curves, asked);
  LineChart chart;
  chart.id = fmt::format("force-{}", structure);
  chart.title = fmt::format("Force against crush, {}", with_mirrors(estimate, structure));
  chart.caption = "Solid: nominal; dashed: weak; dotted: strong; shaded between weak and strong. Heavy broken lines: "
                  "limits. Dots: greatest crush of each impact at nominal.";
  chart.x_title = "crush [mm]";
  chart.y_title = "force [kN]";
  chart.x_high = crush_high * to_mm;
  chart.height = 340;
  chart.levels = force_limits(estimate, structure);
  chart.verticals = stroke_marks(curves);
  chart.bands = {band(curves, crush_high, &CrushCurve::force_at, to_kn)};
  chart.lines = side_lines(curves, &CrushCurve::force, to_kn);
  double force_high = curves.strong.peak_force_up_to(0.9 * curves.strong.bottoming_crush) * to_kn;
  for (const Demand& demand : asked) {
    const double force = curves.nominal.force_at(demand.crush) * to_kn;
    chart.markers.push_back({demand.impact, {demand.crush * to_mm, force}});
    force_high = std::max(force_high, force);
  }
  for (const ChartLevel& level : chart.levels) {
    force_high = std::max(force_high, level.value);
  }
  chart.y_high = rounded_up(1.12 * force_high);
  return chart;
}

LineChart energy_chart(const Estimate& estimate, std::size_t structure) {
  const StructureCurves& curves = estimate.deciding.curves.at(structure);
  const std::vector<Demand> asked = demands(estimate, structure);
  const double crush_high = shown_crush(curves, asked);
  LineChart chart;
  chart.id = fmt::format("energy-{}", structure);
  chart.title = fmt::format("Energy absorbed against crush, {}", with_mirrors(estimate, structure));
  chart.caption = "Fine horizontal lines: the energy that each impact asks of this structure, nominal.";
  chart.x_title = "crush [mm]";
  chart.y_title = "energy [kJ]";
  chart.x_high = crush_high * to_mm;
  chart.height = 300;
  chart.verticals = stroke_marks(curves);
  chart.bands = {band(curves, crush_high, &CrushCurve::energy_at, to_kj)};
  chart.lines = side_lines(curves, &CrushCurve::energy, to_kj);
  double energy_high = curves.strong.energy_at(0.95 * curves.strong.bottoming_crush) * to_kj;
  for (const Demand& demand : asked) {
    chart.levels.push_back(
        {fmt::format("{} asks {}", demand.impact, show(demand.energy, Dimension::energy)), demand.energy * to_kj});
    energy_high = std::max(energy_high, demand.energy * to_kj);
  }
  chart.y_high = rounded_up(1.05 * energy_high);
  return chart;
}

double greatest_y(const std::vector<ChartLine>& lines) {
  double greatest = 0;
  for (const ChartLine& line : lines) {
    for (const ChartPoint& point : line.points) {
      greatest = std::max(greatest, point.y);
    }
  }
  return greatest;
}

using LayerValue = double (*)(const Layer&);

ChartLine layer_line(const StructureModel& structure, const std::string& label, LayerValue value, Dash dash,
                     double label_at) {
  ChartLine line;
  line.label = label;
  line.dash = dash;
  line.label_at = label_at;
  for (const Layer& layer : structure.layers) {
    line.points.push_back({(layer.station + 0.5 * layer.height) * to_mm, value(layer)});
  }
  return line;
}

LineChart along_axis(const StructureModel& structure, const std::string& id, const std::string& title,
                     const std::string& y_title, std::vector<ChartLine> lines) {
  LineChart chart;
  chart.id = id;
  chart.title = title;
  chart.x_title = "station from the struck end [mm]";
  chart.y_title = y_title;
  chart.x_high = structure.envelope.length() * to_mm;
  chart.height = 200;
  chart.lines = std::move(lines);
  chart.y_high = rounded_up(1.12 * greatest_y(chart.lines));
  return chart;
}

std::string axis_charts(const Estimate& estimate, std::size_t index, ChartSet& charts) {
  const StructureModel& structure = estimate.structures[index];
  const auto id = [&](const char* what) { return fmt::format("{}-{}", what, index); };
  std::string html = "<div class=\"charts two\">\n";
  html += charts.figure(along_axis(
      structure, id("area"), "Section area", "area [cm\u00b2]",
      {layer_line(
           structure, "outer", [](const Layer& l) { return l.section_area * 1e4; }, Dash::solid, 0.3),
       layer_line(
           structure, "lattice", [](const Layer& l) { return l.lattice_area * 1e4; }, Dash::dashed, 0.7)}));
  html += charts.figure(along_axis(
      structure, id("collapse"), "Crush force of each layer", "force [kN]",
      {layer_line(
           structure, "both", [](const Layer& l) { return l.collapse_force() * to_kn; }, Dash::solid, 0.3),
       layer_line(
           structure, "lattice", [](const Layer& l) { return l.lattice_force * to_kn; }, Dash::dashed, 0.55),
       layer_line(
           structure, "skin", [](const Layer& l) { return l.skin_force * to_kn; }, Dash::dotted, 0.8)}));
  if (!structure.cells.empty()) {
    html += charts.figure(
        along_axis(structure, id("density"), "Relative density", "relative density [%]",
                   {layer_line(
                       structure, "", [](const Layer& l) { return l.relative_density * 100; }, Dash::solid, 0.3)}));
  }
  if (structure.cell_edge > 0) {
    html += charts.figure(
        along_axis(structure, id("size"), "Strut or wall", "size [mm]",
                   {layer_line(
                       structure, "", [](const Layer& l) { return l.size * to_mm; }, Dash::solid, 0.3)}));
  }
  return html + "</div>\n";
}

LineChart cell_chart(const Estimate& estimate, std::size_t index) {
  const StructureModel& structure = estimate.structures[index];
  LineChart chart;
  chart.id = fmt::format("cell-{}", index);
  chart.title = fmt::format("Stress against strain of the cell, {}", with_mirrors(estimate, index));
  chart.caption = "Nominal, at the struck end, mid length and the attachment. Dots: efficiency strain, where a layer "
                  "counts as used up.";
  chart.x_title = "strain [%]";
  chart.y_title = "stress [MPa]";
  chart.x_high = 100;
  chart.height = 280;
  const Dash dashes[] = {Dash::solid, Dash::dashed, Dash::dotted, Dash::dash_dot};
  double plateau = 0;
  for (std::size_t i = 0; i < structure.cells.size(); ++i) {
    const CellAtStation& cell = structure.cells[i];
    const StressStrain curve = cell_curve_at(structure, cell);
    ChartLine line{cell.where, points(curve.strain, 100, curve.stress, to_mpa), dashes[i % 4],
                   0.2 + 0.15 * static_cast<double>(i), false};
    const double strain = cell.properties.efficiency_strain.value;
    for (std::size_t k = 1; k < curve.strain.size(); ++k) {
      if (curve.strain[k] >= strain && curve.strain[k - 1] < strain) {
        const double part = (strain - curve.strain[k - 1]) / (curve.strain[k] - curve.strain[k - 1]);
        const double stress = curve.stress[k - 1] + part * (curve.stress[k] - curve.stress[k - 1]);
        chart.markers.push_back({"", {100 * strain, stress * to_mpa}});
      }
    }
    plateau = std::max(plateau, cell.properties.plateau_stress.value * to_mpa);
    chart.lines.push_back(std::move(line));
  }
  chart.y_high = rounded_up(2.6 * plateau);
  return chart;
}

} // namespace

std::string crush_section(const PageContent& content, ChartSet& charts) {
  std::string html = "<section id=\"crush\">\n<h2>Crush</h2>\n";
  for (const std::size_t i : own_structures(content.estimate)) {
    html += charts.figure(force_chart(content.estimate, i));
    html += charts.figure(energy_chart(content.estimate, i));
  }
  return html + "</section>\n";
}

std::string axis_section(const PageContent& content, ChartSet& charts) {
  std::string html = "<section id=\"axis\">\n<h2>Along the axis</h2>\n";
  for (const std::size_t i : own_structures(content.estimate)) {
    html += fmt::format("<h3>{}</h3>\n", escape_html(with_mirrors(content.estimate, i)));
    html += axis_charts(content.estimate, i, charts);
  }
  return html + "</section>\n";
}

std::string cell_section(const PageContent& content, ChartSet& charts) {
  std::string html;
  for (const std::size_t i : own_structures(content.estimate)) {
    if (!content.estimate.structures[i].cells.empty()) {
      html += charts.figure(cell_chart(content.estimate, i));
    }
  }
  return html.empty() ? html : "<section id=\"cell\">\n<h2>Cell</h2>\n" + html + "</section>\n";
}

} // namespace crushwright
