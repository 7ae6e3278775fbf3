#include "result_file/document_parts.hpp"

#include "quantities/units.hpp"
#include "result_file/column_json.hpp"
#include "result_file/curve_files.hpp"
#include "result_file/packaging_json.hpp"
#include "result_file/printing_json.hpp"
#include "result_file/result_document.hpp"
#include "result_file/rows_json.hpp"

namespace crushwright {

namespace {

std::string window_text(WindowKind kind) {
  switch (kind) {
  case WindowKind::whole:
    return "whole";
  case WindowKind::first_crush:
    return "first_crush";
  case WindowKind::first_energy:
    return "first_energy";
  }
  return {};
}

Json window_json(const Window& window) {
  Json json{{"kind", window_text(window.kind)}};
  if (window.kind != WindowKind::whole) {
    json["extent"] = quantity_json(window.extent, window.kind == WindowKind::first_crush ? "m" : "J");
  }
  return json;
}

Json limit_json(const Limit& limit) {
  Json json{{"id", limit.id}, {"statement", describe(limit)}, {"impact", limit.impact}, {"of", limit.of}};
  json["quantity"] = name_of(limit.quantity);
  json["statistic"] = name_of(limit.statistic);
  if (limit.statistic_time > 0) {
    json["statistic_time"] = quantity_json(limit.statistic_time, "s");
  }
  json["window"] = window_json(limit.window);
  json["channel_class"] = limit.channel_class;
  json["sense"] = limit.at_most ? "at_most" : "at_least";
  json["value"] = quantity_json(limit.value.value, si_unit(dimension_of(limit.quantity)));
  json["status"] = name_of(limit.status);
  json["requirement"] = Json{{"identifier", limit.requirement.identifier},
                             {"edition", limit.requirement.edition},
                             {"clause", limit.requirement.clause}};
  return json;
}

Json side_json(const std::optional<double>& value, bool bottomed, const std::string& unit) {
  if (!value) {
    return nullptr;
  }
  return Json{{"value", *value}, {"unit", unit}, {"bottomed", bottomed}};
}

Json sides_json(const SideValues& values, const std::string& unit) {
  Json json{{"weak", side_json(values.weak, values.weak_bottomed, unit)},
            {"nominal", side_json(values.nominal, values.nominal_bottomed, unit)},
            {"strong", side_json(values.strong, values.strong_bottomed, unit)}};
  if (!values.reason.empty()) {
    json["reason"] = values.reason;
  }
  return json;
}

bool could_be_had(const Check& check) {
  return check.combined.weak || check.combined.nominal || check.combined.strong;
}

Json check_json(const Check& check) {
  const std::string unit = si_unit(dimension_of(check.limit.quantity));
  Json json{{"limit", limit_json(check.limit)}, {"word", name_of(check.word)}};
  json["worst_side"] = name_of(check.worst_side);
  json["worst_value"] = could_be_had(check) ? quantity_json(check.worst_value, unit) : Json(nullptr);
  json["margin"] = could_be_had(check) ? quantity_json(check.margin, "1") : Json(nullptr);
  json["nominal_margin"] = check.combined.nominal ? quantity_json(check.nominal_margin, "1") : Json(nullptr);
  json["combined"] = sides_json(check.combined, unit);
  json["stacked"] = sides_json(check.stacked, unit);
  json["stacked_holds"] = check.stacked_holds;
  json["note"] = check.note;
  return json;
}

Json evidence_json(const PropertyEvidence& evidence, const std::string& unit) {
  Json json{{"law", evidence.law}, {"evidence", name_of(evidence.evidence)}};
  json["value"] = quantity_json(evidence.value, unit);
  json["inside_fitted_range"] = evidence.inside_fitted_range;
  if (evidence.coefficient_of_variation) {
    json["coefficient_of_variation"] = quantity_json(*evidence.coefficient_of_variation, "1");
  }
  json["remark"] = evidence.remark;
  json["source"] = source_json(evidence.source);
  return json;
}

Json property_json(const CellProperty& property, const std::string& unit) {
  Json json{{"value", property.value}, {"unit", unit}, {"reason", property.reason}, {"evidence", Json::array()}};
  for (const PropertyEvidence& evidence : property.all) {
    json["evidence"].push_back(evidence_json(evidence, unit));
  }
  return json;
}

void put_properties(const CellProperties& properties, Json& json) {
  json["cell"] = properties.cell;
  json["material"] = properties.material;
  json["direction"] = properties.direction;
  json["relative_density"] = quantity_json(properties.relative_density, "1");
  json["nominal_relative_density"] = quantity_json(properties.nominal_relative_density, "1");
  json["density"] = quantity_json(properties.density, "kg/m^3");
  json["elastic_modulus"] = property_json(properties.elastic_modulus, "Pa");
  json["plateau_stress"] = property_json(properties.plateau_stress, "Pa");
  json["first_peak_ratio"] = property_json(properties.first_peak_ratio, "1");
  json["locking_strain"] = property_json(properties.locking_strain, "1");
  json["efficiency_strain"] = property_json(properties.efficiency_strain, "1");
  json["plateau_end_strain"] = property_json(properties.plateau_end_strain, "1");
  json["specific_energy_absorption"] = quantity_json(properties.specific_energy_absorption, "J/kg");
}

Json cell_json(const StructureModel& structure, const CellAtStation& cell) {
  Json json{{"where", cell.where}};
  json["station"] = quantity_json(cell.station, "m");
  json["size"] = quantity_json(cell.size, "m");
  put_properties(cell.properties, json);
  const StressStrain curve = cell_curve_at(structure, cell);
  json["curve"] = Json{{"strain", series_json(curve.strain, "1")}, {"stress", series_json(curve.stress, "Pa")}};
  json["warnings"] = cell.properties.warnings;
  return json;
}

Json layer_series(const std::vector<Layer>& layers, double Layer::*member, std::string_view unit) {
  std::vector<double> values;
  values.reserve(layers.size());
  for (const Layer& layer : layers) {
    values.push_back(layer.*member);
  }
  return series_json(values, unit);
}

Json layers_json(const std::vector<Layer>& layers) {
  Json json;
  json["station"] = layer_series(layers, &Layer::station, "m");
  json["height"] = layer_series(layers, &Layer::height, "m");
  json["section_area"] = layer_series(layers, &Layer::section_area, "m^2");
  json["lattice_area"] = layer_series(layers, &Layer::lattice_area, "m^2");
  json["relative_density"] = layer_series(layers, &Layer::relative_density, "1");
  json["size"] = layer_series(layers, &Layer::size, "m");
  json["lattice_force"] = layer_series(layers, &Layer::lattice_force, "N");
  json["skin_force"] = layer_series(layers, &Layer::skin_force, "N");
  json["efficiency_strain"] = layer_series(layers, &Layer::efficiency_strain, "1");
  return json;
}

Json mass_json(const MassBreakdown& mass) {
  Json json;
  json["lattice"] = quantity_json(mass.lattice, "kg");
  json["skin"] = quantity_json(mass.skin, "kg");
  json["end_plates"] = quantity_json(mass.end_plates, "kg");
  json["fixed"] = quantity_json(mass.fixed, "kg");
  if (mass.joints > 0) {
    json["joints"] = quantity_json(mass.joints, "kg");
  }
  json["total"] = quantity_json(mass.total, "kg");
  json["weighed"] = mass.weighed;
  return json;
}

Json curve_json(const CrushCurve& curve) {
  Json json;
  json["crush"] = series_json(curve.crush, "m");
  json["force"] = series_json(curve.force, "N");
  json["energy"] = series_json(curve.energy, "J");
  json["elastic_stiffness"] = quantity_json(curve.elastic_stiffness, "N/m");
  json["bottoming_crush"] = quantity_json(curve.bottoming_crush, "m");
  json["bottoming_force"] = quantity_json(curve.bottoming_force, "N");
  return json;
}

} // namespace

Json program_head(std::string_view command, const Provenance& provenance) {
  Json json{{"schema", result_schema}, {"program", "crushwright"}, {"version", provenance.program_version}};
  json["command"] = command;
  json["input_hash"] = Json{{"algorithm", "SHA-256"}, {"digest", provenance.input_hash}};
  return json;
}

Json properties_json(const CellProperties& properties) {
  Json json;
  put_properties(properties, json);
  json["warnings"] = properties.warnings;
  return json;
}

Json document_head(std::string_view command, const CrashCase& crash_case, const Provenance& provenance) {
  Json json = program_head(command, provenance);
  json["case"] = Json{{"id", crash_case.id},
                      {"title", crash_case.title},
                      {"description", crash_case.description},
                      {"vehicle", crash_case.vehicle},
                      {"invented_data", crash_case.invented}};
  return json;
}

Json source_json(const Source& source) {
  return Json{{"text", source.text}, {"standing", source.standing ? Json(name_of(*source.standing)) : Json(nullptr)}};
}

Json input_json(const Quantity& quantity) {
  const std::string unit = si_unit(quantity.dimension);
  Json json{{"path", quantity.path}, {"value", quantity.value}, {"unit", unit}};
  if (quantity.low) {
    json["low"] = *quantity.low;
  }
  if (quantity.high) {
    json["high"] = *quantity.high;
  }
  if (quantity.coefficient_of_variation) {
    json["coefficient_of_variation"] = *quantity.coefficient_of_variation;
  }
  json["source"] = source_json(quantity.source);
  return json;
}

Json verdict_json(const JudgedSet& set) {
  const Verdict& verdict = set.verdict;
  Json json{{"scatter_set", set.scatter_set}, {"word", name_of(verdict.word)}};
  json["governing"] = nullptr;
  if (!verdict.checks.empty()) {
    const Limit& governing = verdict.checks.at(verdict.governing).limit;
    json["governing"] = Json{{"limit", governing.id}, {"impact", governing.impact}};
  }
  json["checks"] = Json::array();
  for (const Check& check : verdict.checks) {
    json["checks"].push_back(check_json(check));
  }
  return json;
}

Json structure_json(const StructureModel& structure) {
  Json json{{"id", structure.id}};
  json["mirror_of"] = structure.mirror_of.empty() ? Json(nullptr) : Json(structure.mirror_of);
  json["lateral"] = quantity_json(structure.lateral, "m");
  json["vertical"] = quantity_json(structure.vertical, "m");
  json["length"] = quantity_json(structure.envelope.length(), "m");
  json["cell"] = structure.cell_id.empty() ? Json(nullptr) : Json(structure.cell_id);
  json["material"] = structure.material_id;
  json["cell_edge"] = quantity_json(structure.cell_edge, "m");
  json["skin_thickness"] = quantity_json(structure.skin_thickness, "m");
  json["smallest_wall"] = quantity_json(structure.smallest_wall, "m");
  json["cells_across"] = quantity_json(structure.cells_across, "1");
  json["lattice_share"] = quantity_json(structure.lattice_share, "1");
  json["rate_factor"] = Json{
      {"unit", "1"}, {"low", structure.rate_low}, {"value", structure.rate_nominal}, {"high", structure.rate_high}};
  json["temperature_factor"] = quantity_json(structure.temperature_factor, "1");
  json["first_peak"] = Json{{"ratio", quantity_json(structure.first_peak.ratio, "1")},
                            {"fall_crush", quantity_json(structure.first_peak.fall_crush, "m")}};
  put_rows(structure, json);
  json["mass"] = mass_json(structure.mass);
  json["layers"] = layers_json(structure.layers);
  json["inversions"] = Json::array();
  for (const Inversion& inversion : structure.inversions) {
    json["inversions"].push_back(Json{{"station", quantity_json(inversion.station, "m")},
                                      {"collapse_force", quantity_json(inversion.collapse_force, "N")},
                                      {"outer_collapse_force", quantity_json(inversion.outer_collapse_force, "N")}});
  }
  json["cells"] = Json::array();
  for (const CellAtStation& cell : structure.cells) {
    json["cells"].push_back(cell_json(structure, cell));
  }
  if (structure.printing) {
    json["printing"] = printing_json(structure);
  }
  if (!structure.column.sections.empty()) {
    json["column"] = column_json(structure);
  }
  if (structure.packaging || structure.envelope.surface) {
    json["packaging"] = packaging_json(structure);
  }
  json["as_built_notes"] = structure.as_built_notes;
  json["warnings"] = structure.warnings;
  return json;
}

Json curves_json(const StructureCurves& curves) {
  Json json{{"structure", curves.structure}};
  json["usable_stroke"] = quantity_json(curves.usable_stroke, "m");
  json["stroke_efficiency"] = quantity_json(curves.stroke_efficiency, "1");
  json["crush_force_efficiency"] = quantity_json(curves.crush_force_efficiency, "1");
  json["specific_energy_absorption"] = quantity_json(curves.specific_energy_absorption, "J/kg");
  json["weak_factor"] = quantity_json(curves.weak_factor, "1");
  json["strong_factor"] = quantity_json(curves.strong_factor, "1");
  json["weak"] = curve_json(curves.weak);
  json["nominal"] = curve_json(curves.nominal);
  json["strong"] = curve_json(curves.strong);
  return json;
}

Json candidate_json(const Candidate& candidate) {
  Json json{{"label", candidate.label}};
  json["cell"] = candidate.cell.empty() ? Json(nullptr) : Json(candidate.cell);
  json["material"] = candidate.material;
  json["cell_edge"] = quantity_json(candidate.cell_edge, "m");
  json["size_tip"] = quantity_json(candidate.size_tip, candidate.cell_edge > 0 ? "m" : "1");
  json["size_root"] = quantity_json(candidate.size_root, candidate.cell_edge > 0 ? "m" : "1");
  json["skin_thickness"] = quantity_json(candidate.skin_thickness, "m");
  json["relative_density"] = quantity_json(candidate.relative_density, "1");
  json["mass"] = quantity_json(candidate.mass, "kg");
  json["word"] = name_of(candidate.word);
  json["governing_limit"] = candidate.governing_limit;
  json["governing_margin"] = quantity_json(candidate.governing_margin, "1");
  json["peak_force"] = quantity_json(candidate.peak_force, "N");
  json["peak_crush"] = quantity_json(candidate.peak_crush, "m");
  json["specific_energy_absorption"] = quantity_json(candidate.specific_energy_absorption, "J/kg");
  if (candidate.build_time) {
    json["build_time"] = quantity_json(*candidate.build_time, "s");
  }
  if (candidate.build_cost) {
    json["build_cost"] = *candidate.build_cost;
  }
  json["feasible"] = candidate.feasible;
  json["remark"] = candidate.remark;
  return json;
}

} // namespace crushwright
