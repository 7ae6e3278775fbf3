#include "review_pack/page.hpp"

#include "quantities/units.hpp"
#include "review_pack/column_text.hpp"
#include "review_pack/html.hpp"
#include "review_pack/root_strengths.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string force_or_none(double force) {
  return std::isfinite(force) ? value_html(force, Dimension::force) : "none";
}

std::string critical_text(double angle) {
  return angle < 0.25 * std::numbers::pi ? value_html(angle, Dimension::angle) : "above 45 °";
}

std::string state_table(const Estimate& estimate) {
  std::vector<std::vector<std::string>> rows;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    for (const AlikeColumns& group : alike_columns(impact)) {
      const std::size_t i = group.first;
      const ColumnUnderForce& state = impact.column_states[i];
      rows.push_back({element("span", escape_html(impact.id), "id"),
                      element("span", escape_html(group.structures), "id"), value_html(state.angle, Dimension::angle),
                      value_html(state.force, Dimension::force), value_html(state.section.axial, Dimension::fraction),
                      value_html(state.section.bending < 1e-9 ? 0 : state.section.bending, Dimension::fraction),
                      element("span", value_html(state.section.use, Dimension::fraction),
                              state.section.use >= 1 ? "chosen" : ""),
                      value_html(state.section.station, Dimension::length), critical_text(impact.critical_angles[i]),
                      state.bolts_stated ? value_html(state.bolt_use, Dimension::fraction) : "not stated",
                      force_or_none(state.buckling_force), force_or_none(state.tilting_force)});
    }
  }
  return table({{"Impact"},
                {"Structure"},
                {"Angle", true},
                {"Force", true},
                {"Axial", true},
                {"Bending", true},
                {"Section", true},
                {"Station", true},
                {"Tips from", true},
                {"Bolts", true},
                {"Buckles", true},
                {"Tilts", true}},
               rows);
}

std::string map_table(const ColumnMap& map) {
  std::vector<TableColumn> columns = {{"Angle", true}};
  for (const double share : map.shares) {
    columns.push_back({fmt::format("{:.0f} %", 100 * share), true});
  }
  std::vector<std::vector<std::string>> rows;
  for (std::size_t a = 0; a < map.angles.size(); ++a) {
    std::vector<std::string> row = {value_html(map.angles[a], Dimension::angle)};
    for (const double use : map.use[a]) {
      const std::string text = value_html(use, Dimension::fraction);
      row.push_back(use >= 1 ? element("span", text, "chosen") : text);
    }
    rows.push_back(row);
  }
  return table(columns, rows);
}

/// One map a structure: of the impact that uses its section most.
std::string maps(const Estimate& estimate) {
  std::string html;
  for (const std::size_t own : own_structures(estimate)) {
    const ImpactOutcome* worst = nullptr;
    std::size_t place = 0;
    for (const ImpactOutcome& impact : estimate.deciding.impacts) {
      for (std::size_t i = 0; i < impact.mapped.size(); ++i) {
        if (is_same_body(estimate, own, impact.mapped[i]) &&
            (worst == nullptr || impact.column_states[i].force > worst->column_states[place].force)) {
          worst = &impact;
          place = i;
        }
      }
    }
    if (worst == nullptr) {
      continue;
    }
    html += fmt::format("<div class=\"keep\"><h3>Section use of {} by angle and force</h3>\n",
                        escape_html(with_mirrors(estimate, own)));
    html += fmt::format(
        "<p class=\"small\">Greatest use of the plastic section over the stroke of impact {}: rows, the force's "
        "angle to the axis; columns, its size over the impact's peak force. Framed: 100 % and more, the "
        "column tips or shears before it crushes on.</p>\n",
        escape_html(worst->id));
    html += map_table(worst->column_maps[place]) + "</div>\n";
  }
  return html;
}

std::string service_table(const Estimate& estimate) {
  std::vector<std::vector<std::string>> rows;
  for (const StructureModel& structure : estimate.structures) {
    for (const ServiceOutcome& service : structure.service) {
      rows.push_back(
          {element("span", escape_html(service.load), "id"), element("span", escape_html(structure.id), "id"),
           value_html(service.skin_use, Dimension::fraction), value_html(service.lattice_use, Dimension::fraction),
           value_html(service.panel_use, Dimension::fraction),
           structure.bolts ? value_html(service.root_use, Dimension::fraction) : "not stated",
           element("span", value_html(service.use, Dimension::fraction), service.use >= 1 ? "chosen" : ""),
           value_html(service.station, Dimension::length), value_html(service.deflection, Dimension::length)});
    }
  }
  if (rows.empty()) {
    return "<p class=\"small\">No service load is stated (towing eye, jacking, pressure on the outer face, kerb): "
           "whether "
           "the structure stays elastic in service is open.</p>\n";
  }
  return "<h3>Service loads, factor included</h3>\n" + table({{"Load"},
                                                              {"Structure"},
                                                              {"Skin", true},
                                                              {"Lattice", true},
                                                              {"Skin panel", true},
                                                              {"Bolts", true},
                                                              {"Greatest use", true},
                                                              {"At station", true},
                                                              {"Tip moves", true}},
                                                             rows);
}

std::string damage_text(const std::optional<double>& damage) {
  return damage ? fmt::format("{:.2g}", *damage) : "open";
}

std::string fatigue_table(const Estimate& estimate) {
  std::vector<std::vector<std::string>> rows;
  for (const StructureModel& structure : estimate.structures) {
    if (structure.fatigue) {
      const FatigueOutcome& fatigue = *structure.fatigue;
      rows.push_back({element("span", escape_html(structure.id), "id"), damage_text(fatigue.skin),
                      damage_text(fatigue.lattice), damage_text(fatigue.root)});
      if (!fatigue.missing.empty()) {
        rows.push_back({escape_html(fatigue.missing)});
      }
    }
  }
  if (rows.empty()) {
    return "<p class=\"small\">No service load carries a number of cycles: fatigue is open.</p>\n";
  }
  return "<h3>Fatigue damage over the stated spectrum; 1 is the end of the life</h3>\n" +
         table({{"Structure"}, {"Skin", true}, {"Lattice", true}, {"Root", true}}, rows);
}

std::string frequencies(const Estimate& estimate) {
  std::string html;
  for (const std::size_t i : own_structures(estimate)) {
    const StructureModel& structure = estimate.structures[i];
    if (structure.bending_frequency > 0) {
      html += fmt::format("<p class=\"small\">{}: lowest bending frequency on a rigid root {}.</p>\n",
                          escape_html(with_mirrors(estimate, i)),
                          value_html(structure.bending_frequency, Dimension::frequency));
    }
  }
  return html;
}

} // namespace

std::string column_section(const PageContent& content) {
  const Estimate& estimate = content.estimate;
  const bool any = std::any_of(estimate.structures.begin(), estimate.structures.end(),
                               [](const StructureModel& each) { return !each.column.sections.empty(); });
  if (!any) {
    return {};
  }
  std::string html = "<section id=\"columns\">\n<h2>The structure as a column</h2>\n";
  html +=
      "<p class=\"small quiet\">Nominal values over the whole stroke: the force acts at the crush front, sideways at "
      "the "
      "impact's angle, and the lever shortens as the front runs to the root. Axial, bending and section are uses of "
      "the plastic section of skin and lattice, by the force along the axis, by the moment, and by both together "
      "with "
      "shear; at 100 % the column tips instead of crushing on. Station is where that is greatest. Tips from: the "
      "angle at which the section is used up at some time of the stroke; buckles and tilts: the axial force for it. "
      "The root is rigid; wrinkling of the skin, welds and the ductility of the root are not checked.</p>\n";
  html += state_table(estimate) + maps(estimate) + frequencies(estimate) + service_table(estimate) +
          fatigue_table(estimate) + root_strengths(content);
  return html + "</section>\n";
}

} // namespace crushwright
