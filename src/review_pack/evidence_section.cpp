#include "review_pack/page.hpp"

#include "quantities/units.hpp"
#include "review_pack/evidence_table.hpp"
#include "review_pack/html.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

/// Evidence of one law at the stations of a structure; absent where the law was not available.
struct EvidenceRow {
  const PropertyEvidence* first = nullptr;
  std::vector<const PropertyEvidence*> at; ///< shape = (number of stations)
  std::vector<bool> used;                  ///< the same
};

std::vector<EvidenceRow> evidence_rows(const StructureModel& structure, CellProperty CellProperties::*member) {
  std::vector<EvidenceRow> rows;
  const std::size_t stations = structure.cells.size();
  for (std::size_t station = 0; station < stations; ++station) {
    const CellProperty& property = structure.cells[station].properties.*member;
    for (std::size_t i = 0; i < property.all.size(); ++i) {
      const PropertyEvidence& evidence = property.all[i];
      const auto known = std::find_if(rows.begin(), rows.end(), [&](const EvidenceRow& row) {
        return row.first->law == evidence.law && row.first->evidence == evidence.evidence &&
               row.at[station] == nullptr;
      });
      EvidenceRow& row = known != rows.end() ? *known : rows.emplace_back();
      if (row.first == nullptr) {
        row.first = &evidence;
        row.at.assign(stations, nullptr);
        row.used.assign(stations, false);
      }
      row.at[station] = &evidence;
      row.used[station] = i == 0;
    }
  }
  return rows;
}

std::string evidence_value(const EvidenceRow& row, std::size_t station, Dimension dimension) {
  const PropertyEvidence* evidence = row.at[station];
  if (evidence == nullptr) {
    return "";
  }
  std::string html = value_html(evidence->value, dimension);
  if (!evidence->inside_fitted_range) {
    html += "<br><span class=\"quiet\">outside range</span>";
  }
  return row.used[station] ? fmt::format("<span class=\"used\">{}</span><br><span class=\"quiet\">used</span>", html)
                           : html;
}

std::string evidence_text(const PropertyEvidence& evidence) {
  std::string html =
      fmt::format("{}<br><span class=\"id quiet\">{}</span>", name_of(evidence.evidence), escape_html(evidence.law));
  if (evidence.coefficient_of_variation) {
    html += fmt::format("<br><span class=\"quiet\">scatter {}</span>",
                        value_html(*evidence.coefficient_of_variation, Dimension::fraction));
  }
  return html;
}

std::string reasons(const StructureModel& structure, CellProperty CellProperties::*member) {
  std::vector<std::string> seen;
  std::string text;
  for (const CellAtStation& cell : structure.cells) {
    const std::string& reason = (cell.properties.*member).reason;
    if (!reason.empty() && std::find(seen.begin(), seen.end(), reason) == seen.end()) {
      seen.push_back(reason);
      text += fmt::format("{}{}: {}.", text.empty() ? "" : " ", cell.where, reason);
    }
  }
  return seen.size() == 1 ? fmt::format("Why this one: {}.", seen[0]) : text;
}

std::string property_table(const StructureModel& structure, const ShownProperty& shown) {
  std::vector<TableColumn> columns = {{"Evidence"}};
  for (const CellAtStation& cell : structure.cells) {
    columns.push_back({cell.where, true});
  }
  columns.push_back({"Remark"});
  columns.push_back({"Source"});
  std::vector<std::vector<std::string>> rows;
  for (const EvidenceRow& evidence : evidence_rows(structure, shown.member)) {
    std::vector<std::string> row = {evidence_text(*evidence.first)};
    for (std::size_t station = 0; station < structure.cells.size(); ++station) {
      row.push_back(evidence_value(evidence, station, shown.dimension));
    }
    row.push_back(escape_html(evidence.first->remark));
    row.push_back(source_html(evidence.first->source));
    rows.push_back(row);
  }
  return fmt::format("<div class=\"keep\"><h3>{}</h3>\n{}<p class=\"small quiet\">{}</p></div>\n", shown.name,
                     table(columns, rows), escape_html(reasons(structure, shown.member)));
}

std::string station_table(const StructureModel& structure) {
  const std::vector<TableColumn> columns = {
      {"Where"},         {"Station", true}, {"Strut or wall", true},   {"Relative density, true", true},
      {"nominal", true}, {"Density", true}, {"Energy over mass", true}};
  std::vector<std::vector<std::string>> rows;
  for (const CellAtStation& cell : structure.cells) {
    const CellProperties& properties = cell.properties;
    rows.push_back({escape_html(cell.where), value_html(cell.station, Dimension::length),
                    structure.cell_edge > 0 ? value_html(cell.size, Dimension::length) : std::string(),
                    value_html(properties.relative_density, Dimension::fraction),
                    value_html(properties.nominal_relative_density, Dimension::fraction),
                    value_html(properties.density, Dimension::density),
                    value_html(properties.specific_energy_absorption, Dimension::specific_energy)});
  }
  return table(columns, rows);
}

std::string lower_first(std::string text) {
  if (!text.empty() && text[0] >= 'A' && text[0] <= 'Z') {
    text[0] = static_cast<char>(text[0] - 'A' + 'a');
  }
  return text;
}

std::string structure_properties(const Estimate& estimate, std::size_t index) {
  const StructureModel& structure = estimate.structures[index];
  const CellProperties& cell = structure.cells.front().properties;
  std::string html =
      fmt::format("<h3>{}: {} in {}, crushed along {}</h3>\n", escape_html(with_mirrors(estimate, index)),
                  escape_html(cell.cell), escape_html(cell.material), escape_html(cell.direction));
  html += station_table(structure);
  const CellAtStation& middle = structure.cells[structure.cells.size() / 2];
  html += fmt::format("<div class=\"keep\"><h3>Side by side at {}, relative density {}</h3>\n{}</div>\n",
                      escape_html(middle.where), value_html(middle.properties.relative_density, Dimension::fraction),
                      evidence_table(middle.properties));
  std::vector<std::string> without;
  for (const ShownProperty& shown : shown_properties) {
    if (evidence_rows(structure, shown.member).empty()) {
      without.push_back(lower_first(shown.name));
    } else {
      html += property_table(structure, shown);
    }
  }
  if (!without.empty()) {
    html += element("p", escape_html(fmt::format("No law of the catalogue gives: {}.", fmt::join(without, "; "))),
                    "small") +
            "\n";
  }
  std::vector<std::string> warnings;
  for (const CellAtStation& at : structure.cells) {
    for (const std::string& warning : at.properties.warnings) {
      if (std::find(warnings.begin(), warnings.end(), warning) == warnings.end()) {
        warnings.push_back(warning);
      }
    }
  }
  return html + (warnings.empty() ? "" : "<h3>Warnings about these properties</h3>\n" + bullet_list(warnings));
}

std::string spread_html(const Quantity& quantity) {
  if (!quantity.low && !quantity.high) {
    return {};
  }
  return fmt::format("{} to {}", value_html(quantity.low_end(), quantity.dimension),
                     value_html(quantity.high_end(), quantity.dimension));
}

std::vector<std::string> quantity_row(const std::string& name, const Quantity& quantity) {
  return {name, value_html(quantity.value, quantity.dimension), spread_html(quantity),
          quantity.coefficient_of_variation ? value_html(*quantity.coefficient_of_variation, Dimension::fraction)
                                            : std::string(),
          source_html(quantity.source)};
}

void add_material_row(std::vector<std::vector<std::string>>& rows, const std::string& name,
                      const std::optional<Quantity>& quantity) {
  if (quantity) {
    rows.push_back(quantity_row(name, *quantity));
  }
}

const std::vector<TableColumn>& quantity_columns(bool inputs) {
  static const std::vector<TableColumn> input_columns = {
      {"Place in the case file"}, {"Value", true}, {"Interval", true}, {"Scatter", true}, {"Source"}};
  static const std::vector<TableColumn> property_columns = {
      {"Property"}, {"Value", true}, {"Interval", true}, {"Scatter", true}, {"Source"}};
  return inputs ? input_columns : property_columns;
}

std::string material_table(const BaseMaterial& material) {
  std::vector<std::vector<std::string>> rows;
  add_material_row(rows, "density", material.density);
  add_material_row(rows, "Young's modulus", material.youngs_modulus);
  add_material_row(rows, "Poisson's ratio", material.poissons_ratio);
  add_material_row(rows, "0.2 % proof stress", material.proof_stress);
  add_material_row(rows, "ultimate stress", material.ultimate_stress);
  add_material_row(rows, "uniform elongation", material.uniform_elongation);
  add_material_row(rows, "fracture elongation", material.fracture_elongation);
  add_material_row(rows, "hardening exponent", material.hardening_exponent);
  add_material_row(rows, "rate factor on the plateau", material.rate_factor);
  for (const TemperatureFactor& factor : material.temperature_factors) {
    rows.push_back(
        {fmt::format("strength at {} over room temperature", value_html(factor.temperature, Dimension::temperature)),
         value_html(factor.factor, Dimension::number), "", "", source_html(material.temperature_factor_source)});
  }
  return table(quantity_columns(false), rows);
}

} // namespace

std::string property_section(const PageContent& content) {
  std::string html;
  for (const std::size_t i : own_structures(content.estimate)) {
    if (!content.estimate.structures[i].cells.empty()) {
      html += structure_properties(content.estimate, i);
    }
  }
  if (html.empty()) {
    return html;
  }
  return "<section id=\"properties\">\n<h2>Cell properties and their evidence</h2>\n"
         "<p class=\"small quiet\">All evidence that the catalogue holds is listed, best first; the value used is in "
         "bold. Measured beats published that matches in cell, direction, alloy, condition, process, range and "
         "density "
         "basis; then computed, other published, and last the generic law of the class. An empty cell under Source "
         "means "
         "that the law names none.</p>\n" +
         html + "</section>\n";
}

std::string material_section(const PageContent& content) {
  std::string html = "<section id=\"materials\">\n<h2>Base materials</h2>\n";
  for (const BaseMaterial& material : content.materials) {
    html += fmt::format("<h3>{} <span class=\"id quiet\">{}</span></h3>\n", escape_html(material.name),
                        escape_html(material.id));
    html += fmt::format("<p class=\"small\">{}; {}; {}.</p>\n", escape_html(material.alloy),
                        escape_html(material.condition), escape_html(material.process));
    html += material_table(material);
    html += bullet_list(missing_properties(material));
  }
  if (content.materials.empty()) {
    html += "<p>No base material was used.</p>\n";
  }
  return html + "</section>\n";
}

std::string input_section(const PageContent& content) {
  std::vector<std::vector<std::string>> rows;
  for (const Quantity& quantity : content.crash_case.all_quantities) {
    rows.push_back(quantity_row(element("span", escape_html(quantity.path), "id"), quantity));
  }
  return "<section id=\"inputs\">\n<h2>Inputs</h2>\n"
         "<p class=\"small quiet\">An empty cell under Source means that the case states no source.</p>\n" +
         table(quantity_columns(true), rows) + "</section>\n";
}

} // namespace crushwright
