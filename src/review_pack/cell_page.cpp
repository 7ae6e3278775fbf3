#include "review_pack/cell_page.hpp"

#include "quantities/units.hpp"
#include "review_pack/cell_drawing.hpp"
#include "review_pack/cell_sections.hpp"
#include "review_pack/evidence_table.hpp"
#include "review_pack/html.hpp"
#include "review_pack/verdict_words.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string heading(const CellReport& report) {
  return fmt::format("<h1>{}</h1>\n<p class=\"lead\">{} <span class=\"id quiet\">{}</span>, relative density {}, "
                     "crushed along {}</p>\n<p>{}</p>\n",
                     escape_html(report.cell.name), escape_html(report.material.name),
                     escape_html(report.material.id), value_html(report.relative_density, Dimension::fraction),
                     escape_html(report.direction), escape_html(report.cell.description));
}

std::string drawing(const CellReport& report) {
  if (!has_drawing(report.cell)) {
    return "<p>A foam is stated by its density and has no drawing.</p>\n";
  }
  CellDrawingOptions options;
  options.crush_direction = report.direction;
  return fmt::format(
      "<figure>{}<figcaption>One repeating cell from its own solid; arrows: crush along {} in the cell's "
      "axes.</figcaption></figure>\n",
      cell_drawing_svg(report.cell, report.size_ratio, options), escape_html(report.direction));
}

const char* name_of_class(CellClass kind) {
  switch (kind) {
  case CellClass::strut:
    return "struts";
  case CellClass::sheet:
    return "sheet";
  case CellClass::skeletal:
    return "skeletal";
  case CellClass::plate:
    return "plates";
  case CellClass::solid:
    return "own closed surface";
  case CellClass::honeycomb:
    return "honeycomb";
  case CellClass::foam:
    return "foam";
  }
  return "";
}

const char* name_of_behaviour(CellBehaviour behaviour) {
  switch (behaviour) {
  case CellBehaviour::bending:
    return "bending";
  case CellBehaviour::stretching:
    return "stretching";
  case CellBehaviour::folding:
    return "folding";
  }
  return "";
}

std::string printable_text(const CellReport& report) {
  const Quantity& least = *report.cell.printable_minimum;
  std::string html = value_html(least.value, Dimension::length);
  const double size = report.size_ratio * report.cell_edge;
  if (report.cell_edge > 0 && size < least.value) {
    html += fmt::format("<br><span class=\"differs\">\u26a0\u00a0this one has {}</span>",
                        value_html(size, Dimension::length));
  }
  return html;
}

std::string figures(const CellReport& report) {
  std::vector<std::vector<std::string>> rows = {
      {"class", name_of_class(report.cell.cell_class)},
      {"carries load by", name_of_behaviour(report.cell.behaviour)},
      {"symmetry", escape_html(report.cell.symmetry)},
      {"relative density, true", value_html(report.relative_density, Dimension::fraction)}};
  if (!report.cell.nominal_density_coefficients.empty()) {
    rows.push_back({"relative density, nominal", value_html(report.nominal_relative_density, Dimension::fraction)});
  }
  if (report.material.density) {
    rows.push_back(
        {"density", value_html(report.relative_density * report.material.density->value, Dimension::density)});
  }
  if (is_sized(report.cell)) {
    rows.push_back({escape_html(fmt::format("{} over {}", report.cell.size_name, report.cell.edge_name)),
                    fmt::format("{:.4g}", report.size_ratio)});
    if (report.cell_edge > 0) {
      rows.push_back({escape_html(report.cell.edge_name), value_html(report.cell_edge, Dimension::length)});
      rows.push_back(
          {escape_html(report.cell.size_name), value_html(report.size_ratio * report.cell_edge, Dimension::length)});
    }
  }
  if (report.cell.printable_minimum) {
    rows.push_back({"smallest usually printed", printable_text(report)});
  }
  return table({{""}, {"", true}}, rows);
}

std::string evidence(const CellReport& report) {
  std::string html = "<section id=\"evidence\">\n<h2>Evidence</h2>\n";
  const std::string side_by_side = report.evidence ? evidence_table(*report.evidence) : std::string();
  if (side_by_side.empty()) {
    return html + "<p>The catalogue holds no law that serves this cell in this metal.</p>\n</section>\n";
  }
  return html +
         "<p class=\"small quiet\">Every value with its law; the one used is framed. Values more than 30 % off it "
         "are "
         "marked.</p>\n" +
         side_by_side + "</section>\n";
}

std::string cautions(const CellReport& report) {
  std::vector<std::string> sentences = report.warnings;
  if (report.evidence) {
    for (const std::string& warning : report.evidence->warnings) {
      if (std::find(sentences.begin(), sentences.end(), warning) == sentences.end()) {
        sentences.push_back(warning);
      }
    }
  }
  std::string html = "<section id=\"cautions\">\n<h2>Cautions</h2>\n" + bullet_list(sentences);
  return html + element("p", escape_html(caution_not_claimed())) + "\n" + element("p", escape_html(caution_defer())) +
         "\n</section>\n";
}

} // namespace

std::string cell_page(const CellReport& report, const std::string& program_version) {
  ChartSet charts;
  std::string html = heading(report);
  html += element("div", drawing(report) + figures(report), "beside") + "\n";
  html += stiffness_section(report);
  html += collapse_section(report, charts);
  html += evidence(report);
  html += fit_section(report);
  html += cautions(report);
  html += fmt::format("<p class=\"small quiet\">crushwright {}</p>\n", escape_html(program_version));
  return self_contained_page(fmt::format("{}, {}", report.cell.name, report.material.name), html, charts);
}

} // namespace crushwright
