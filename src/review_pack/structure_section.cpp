#include "review_pack/page.hpp"

#include "quantities/units.hpp"
#include "review_pack/cell_drawing.hpp"
#include "review_pack/drawing.hpp"
#include "review_pack/html.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string length_html(double metres) {
  return value_html(metres, Dimension::length);
}

std::string cell_text(const StructureModel& structure) {
  return structure.cell_id.empty() ? "no lattice" : structure.cell_id;
}

std::string size_range(const StructureModel& structure) {
  if (structure.cells.empty() || structure.cell_edge <= 0) {
    return "";
  }
  const auto [least, greatest] = std::minmax_element(structure.layers.begin(), structure.layers.end(),
                                                     [](const Layer& a, const Layer& b) { return a.size < b.size; });
  if (greatest->size - least->size < 1e-9) {
    return length_html(least->size);
  }
  return fmt::format("{} to {}", length_html(structure.layers.front().size),
                     length_html(structure.layers.back().size));
}

/// One line of the table of facts: its name and its value for each structure.
struct Fact {
  std::string name;
  std::vector<std::string> values;
};

class Facts {
public:
  explicit Facts(const Estimate& estimate) : estimate_(estimate) {}

  template <class Write>
  void add(const std::string& name, Write&& write) {
    Fact fact{name, {}};
    for (std::size_t i = 0; i < estimate_.structures.size(); ++i) {
      fact.values.push_back(write(estimate_.structures[i], estimate_.deciding.curves.at(i)));
    }
    facts_.push_back(std::move(fact));
  }

  std::string html() const {
    std::vector<TableColumn> columns = {{""}};
    for (const StructureModel& structure : estimate_.structures) {
      columns.push_back({structure.id, true});
    }
    std::vector<std::vector<std::string>> rows;
    for (const Fact& fact : facts_) {
      std::vector<std::string> row = {escape_html(fact.name)};
      row.insert(row.end(), fact.values.begin(), fact.values.end());
      rows.push_back(std::move(row));
    }
    return table(columns, rows);
  }

private:
  const Estimate& estimate_;
  std::vector<Fact> facts_;
};

void add_make(Facts& facts) {
  facts.add("made as", [](const StructureModel& s, const StructureCurves&) {
    return s.mirror_of.empty() ? std::string("drawn") : escape_html("mirror of " + s.mirror_of);
  });
  facts.add("cell", [](const StructureModel& s, const StructureCurves&) { return escape_html(cell_text(s)); });
  facts.add("material", [](const StructureModel& s, const StructureCurves&) { return escape_html(s.material_id); });
  facts.add("cell edge", [](const StructureModel& s, const StructureCurves&) {
    return s.cell_edge > 0 ? length_html(s.cell_edge) : std::string();
  });
  facts.add("strut or wall, struck end to attachment",
            [](const StructureModel& s, const StructureCurves&) { return size_range(s); });
  facts.add("cells across, smallest", [](const StructureModel& s, const StructureCurves&) {
    return s.cells_across > 0 ? value_html(s.cells_across, Dimension::number) : std::string();
  });
  facts.add("skin", [](const StructureModel& s, const StructureCurves&) {
    return s.skin_thickness > 0 ? length_html(s.skin_thickness) : std::string("none");
  });
  facts.add("lattice's part of the crush force", [](const StructureModel& s, const StructureCurves&) {
    return value_html(s.lattice_share, Dimension::fraction);
  });
  facts.add("rate factor, low / nominal / high", [](const StructureModel& s, const StructureCurves&) {
    return fmt::format("{:.2f} / {:.2f} / {:.2f}", s.rate_low, s.rate_nominal, s.rate_high);
  });
  facts.add("strength factor at service temperature", [](const StructureModel& s, const StructureCurves&) {
    return fmt::format("{:.2f}", s.temperature_factor);
  });
}

void add_merit(Facts& facts, bool plates) {
  facts.add(plates ? "length, end plates included" : "length",
            [](const StructureModel& s, const StructureCurves&) { return length_html(s.envelope.length()); });
  facts.add("usable stroke, nominal",
            [](const StructureModel&, const StructureCurves& c) { return length_html(c.usable_stroke); });
  facts.add("usable stroke over length", [](const StructureModel&, const StructureCurves& c) {
    return value_html(c.stroke_efficiency, Dimension::fraction);
  });
  facts.add("mean over peak crush force", [](const StructureModel&, const StructureCurves& c) {
    return value_html(c.crush_force_efficiency, Dimension::fraction);
  });
  facts.add("energy to the usable stroke over mass", [](const StructureModel&, const StructureCurves& c) {
    return value_html(c.specific_energy_absorption, Dimension::specific_energy);
  });
  facts.add("crush force, weak and strong over nominal", [](const StructureModel&, const StructureCurves& c) {
    return fmt::format("{:.2f} / {:.2f}", c.weak_factor, c.strong_factor);
  });
}

using MassMember = double MassBreakdown::*;

std::vector<std::string> mass_row(const Estimate& estimate, const std::string& name, MassMember member) {
  std::vector<std::string> row = {name};
  double sum = 0;
  for (const StructureModel& structure : estimate.structures) {
    sum += structure.mass.*member;
    row.push_back(value_html(structure.mass.*member, Dimension::mass));
  }
  row.push_back(value_html(sum, Dimension::mass));
  return row;
}

/// The structure's cell at mid length with the direction it is crushed along; a foam is named, as it has no shape.
std::string drawn_cell(const StructureModel& structure, const UnitCell& cell, const std::string& whose) {
  const CellAtStation& middle = structure.cells[structure.cells.size() / 2];
  const std::string& direction = middle.properties.direction;
  const std::string density = value_html(middle.properties.relative_density, Dimension::fraction);
  if (!has_drawing(cell)) {
    return fmt::format("<p>{}: {}, relative density {}. A foam is stated by its density and has no drawing.</p>\n",
                       escape_html(whose), escape_html(cell.name), density);
  }
  CellDrawingOptions options;
  options.crush_direction = direction;
  const double ratio = is_sized(cell) && structure.cell_edge > 0 ? middle.size / structure.cell_edge : 1;
  return fmt::format("<figure><b>{}: {}</b>{}<figcaption>At {}, relative density {}; arrows: "
                     "crush along {} in the cell's axes.</figcaption></figure>\n",
                     escape_html(whose), escape_html(cell.name), cell_drawing_svg(cell, ratio, options),
                     escape_html(middle.where), density, escape_html(direction));
}

std::string drawn_cells(const PageContent& content) {
  const Estimate& estimate = content.estimate;
  std::string html;
  for (const std::size_t i : own_structures(estimate)) {
    const StructureModel& structure = estimate.structures[i];
    const auto cell = std::find_if(content.cells.begin(), content.cells.end(),
                                   [&](const UnitCell& each) { return each.id == structure.cell_id; });
    if (cell != content.cells.end() && !structure.cells.empty()) {
      html += drawn_cell(structure, *cell, with_mirrors(estimate, i));
    }
  }
  return html.empty() ? html : "<h3>Cells</h3>\n" + element("div", html, "cells") + "\n";
}

} // namespace

std::string structure_section(const PageContent& content) {
  const Estimate& estimate = content.estimate;
  std::string html = "<section id=\"structure\">\n<h2>Structure</h2>\n";
  html += plan_drawing(estimate.structures);
  html += "<p class=\"small quiet\">Plan to scale: attachment (hatched) at the top, struck end at the bottom, y to "
          "the left. Darker is denser; "
          "dashed lines part the named station ranges.</p>\n";
  for (const std::size_t i : own_structures(estimate)) {
    html += fmt::format("<h3>Sections of {}</h3>\n", escape_html(with_mirrors(estimate, i)));
    html += section_drawing(estimate.structures[i]);
  }
  html += drawn_cells(content);
  Facts facts(estimate);
  add_make(facts);
  add_merit(facts, std::any_of(estimate.structures.begin(), estimate.structures.end(),
                               [](const StructureModel& structure) { return structure.mass.end_plates > 0; }));
  html += "<div class=\"keep\"><h3>In figures</h3>\n" + facts.html() + "</div>\n";
  return html + "</section>\n";
}

std::string mass_section(const PageContent& content) {
  const Estimate& estimate = content.estimate;
  std::vector<TableColumn> columns = {{""}};
  for (const StructureModel& structure : estimate.structures) {
    columns.push_back({structure.id, true});
  }
  columns.push_back({"all", true});
  std::vector<std::vector<std::string>> rows = {mass_row(estimate, "lattice", &MassBreakdown::lattice),
                                                mass_row(estimate, "skin", &MassBreakdown::skin),
                                                mass_row(estimate, "end plates", &MassBreakdown::end_plates),
                                                mass_row(estimate, "fasteners and inserts", &MassBreakdown::fixed)};
  if (std::any_of(estimate.structures.begin(), estimate.structures.end(),
                  [](const StructureModel& structure) { return structure.mass.joints > 0; })) {
    rows.push_back(mass_row(estimate, "joints between printed pieces", &MassBreakdown::joints));
  }
  std::vector<std::string> total = mass_row(estimate, "total", &MassBreakdown::total);
  for (std::string& cell : total) {
    cell = element("span", cell, "used");
  }
  rows.push_back(total);
  std::string html = "<section id=\"mass\">\n<h2>Mass</h2>\n" + table(columns, rows);
  std::vector<std::string> notes;
  for (const std::size_t i : own_structures(estimate)) {
    const StructureModel& structure = estimate.structures[i];
    if (structure.mass.weighed) {
      notes.push_back(
          fmt::format("{}: the total is the weighed mass plus what is bolted on.", with_mirrors(estimate, i)));
    }
    for (const std::string& note : structure.as_built_notes) {
      notes.push_back(fmt::format("{}: {}", with_mirrors(estimate, i), note));
    }
  }
  return html + bullet_list(notes) + "</section>\n";
}

} // namespace crushwright
