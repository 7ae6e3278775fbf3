#include "result_file/cell_document.hpp"

#include "result_file/document_parts.hpp"
#include "result_file/result_document.hpp"

namespace crushwright {

namespace {

/// Shape (6, 6), Voigt order.
Json matrix_json(const StiffnessMatrix& matrix, double factor, std::string_view unit) {
  Json rows = Json::array();
  for (int i = 0; i < 6; ++i) {
    Json row = Json::array();
    for (int j = 0; j < 6; ++j) {
      row.push_back(matrix(i, j) * factor);
    }
    rows.push_back(row);
  }
  return Json{{"unit", unit}, {"order", "xx, yy, zz, yz, xz, xy"}, {"rows", rows}};
}

Json vector_json(const Eigen::Vector3d& vector) {
  return Json::array({vector[0], vector[1], vector[2]});
}

Json moduli_json(const StiffnessMatrix& stiffness, double modulus) {
  const ModulusExtremes extremes = modulus_extremes(stiffness);
  Json json;
  json["matrix"] = matrix_json(stiffness, modulus, "Pa");
  json["zener_ratio"] = quantity_json(zener_ratio(stiffness), "1");
  json["universal_anisotropy"] = quantity_json(universal_anisotropy(stiffness), "1");
  json["stiffest"] = Json{{"direction", vector_json(extremes.stiffest)},
                          {"elastic_modulus", quantity_json(extremes.greatest * modulus, "Pa")}};
  json["softest"] = Json{{"direction", vector_json(extremes.softest)},
                         {"elastic_modulus", quantity_json(extremes.least * modulus, "Pa")}};
  return json;
}

Json frame_json(const CellReport& report, double modulus, double strength) {
  if (!report.frame) {
    return nullptr;
  }
  Json json{{"stiffness", moduli_json(report.frame->over_youngs_modulus, modulus)},
            {"node_to_node", matrix_json(report.frame->node_to_node, modulus, "Pa")}};
  json["loads"] = Json::array();
  for (const FrameLoad& load : report.loads) {
    const bool buckles = load.first_buckling_member >= 0;
    json["loads"].push_back(
        Json{{"direction", vector_json(load.direction)},
             {"first_yield", quantity_json(load.first_yield * strength, "Pa")},
             {"first_buckling", buckles ? quantity_json(load.first_buckling * modulus, "Pa") : Json(nullptr)}});
  }
  json["collapses"] = Json::array();
  for (const FrameCollapse& collapse : report.collapses) {
    Json entry{{"direction", vector_json(collapse.direction)},
               {"lower", quantity_json(collapse.lower * strength, "Pa")},
               {"upper", quantity_json(collapse.upper * strength, "Pa")}};
    entry["path"] = collapse.path_strain.empty()
                        ? Json(nullptr)
                        : Json{{"strain", series_json(collapse.path_strain, "1")},
                               {"stress_over_yield_stress", series_json(collapse.path_stress, "1")},
                               {"mean_over_yield_stress", quantity_json(collapse.mean_path_stress, "1")}};
    json["collapses"].push_back(entry);
  }
  json["yield_surface"] = Json::array();
  for (const YieldPoint& point : report.yield_surface) {
    json["yield_surface"].push_back(Json{{"axial_over_yield_stress", quantity_json(point.axial, "1")},
                                         {"lateral_over_yield_stress", quantity_json(point.lateral, "1")}});
  }
  return json;
}

Json grids_json(const CellReport& report, double modulus) {
  Json grids = Json::array();
  for (const SolidStiffness& solid : report.solids) {
    grids.push_back(Json{{"grid", solid.grid},
                         {"relative_density", quantity_json(solid.relative_density, "1")},
                         {"voxels_across", quantity_json(solid.voxels_across, "1")},
                         {"dropped_voxels", solid.dropped_voxels},
                         {"iterations", solid.iterations},
                         {"residual", quantity_json(solid.residual, "1")},
                         {"matrix", matrix_json(solid.over_youngs_modulus, modulus, "Pa")}});
  }
  return grids;
}

Json solid_collapse_json(const SolidCollapse& collapse, double modulus, double strength) {
  Json json{{"direction", vector_json(collapse.direction)}, {"grid", collapse.grid}};
  json["elastic_modulus"] = quantity_json(collapse.elastic_modulus * modulus, "Pa");
  json["first_yield"] = quantity_json(collapse.first_yield * strength, "Pa");
  json["collapse"] = quantity_json(collapse.collapse * strength, "Pa");
  json["greatest"] = quantity_json(collapse.greatest * strength, "Pa");
  json["post_yield_slope"] = quantity_json(collapse.post_yield_slope * modulus, "Pa");
  json["strain"] = series_json(collapse.strain, "1");
  json["stress_over_yield_stress"] = series_json(collapse.stress, "1");
  return json;
}

Json solid_json(const CellReport& report, double modulus, double strength) {
  if (report.solids.empty()) {
    return nullptr;
  }
  Json json{{"grids", grids_json(report, modulus)}};
  json["extrapolated"] = report.extrapolated_solid ? moduli_json(*report.extrapolated_solid, modulus) : Json(nullptr);
  json["collapses"] = Json::array();
  for (const SolidCollapse& collapse : report.solid_collapses) {
    json["collapses"].push_back(solid_collapse_json(collapse, modulus, strength));
  }
  return json;
}

Json law_json(const FittedLaw& fitted) {
  const PowerLaw& law = fitted.law;
  Json json{{"property", fitted.property}, {"id", law.origin.id}, {"direction", law.origin.direction}};
  json["coefficient"] = quantity_json(law.coefficient, "1");
  json["exponent"] = quantity_json(law.exponent, "1");
  json["fitted_relative_density"] =
      series_json({law.origin.fitted_relative_density.low, law.origin.fitted_relative_density.high}, "1");
  json["largest_residual"] = quantity_json(fitted.largest_residual, "1");
  json["points"] = Json{{"relative_density", series_json(fitted.relative_density, "1")},
                        {"value", series_json(fitted.computed, "1")}};
  return json;
}

Json evidence_or_null(const CellReport& report) {
  return report.evidence ? properties_json(*report.evidence) : Json(nullptr);
}

Json positive_or_null(double value, std::string_view unit) {
  return value > 0 ? quantity_json(value, unit) : Json(nullptr);
}

} // namespace

std::string cell_document(const CellReport& report, const Provenance& provenance) {
  const double modulus = report.material.youngs_modulus.value().value;
  const double strength = report.material.proof_stress.value().value;
  Json json = program_head("cell", provenance);
  json["cell"] = report.cell.id;
  json["name"] = report.cell.name;
  json["material"] = report.material.id;
  json["direction"] = report.direction;
  json["relative_density"] = quantity_json(report.relative_density, "1");
  json["nominal_relative_density"] = quantity_json(report.nominal_relative_density, "1");
  json["size_ratio"] = positive_or_null(report.size_ratio, "1");
  json["cell_edge"] = positive_or_null(report.cell_edge, "m");
  json["size"] = positive_or_null(report.size_ratio * report.cell_edge, "m");
  json["metal_area"] = positive_or_null(report.metal_area.value_or(0), "1");
  json["frame"] = frame_json(report, modulus, strength);
  json["solid"] = solid_json(report, modulus, strength);
  json["evidence"] = evidence_or_null(report);
  json["laws"] = Json::array();
  for (const FittedLaw& law : report.fitted_laws) {
    json["laws"].push_back(law_json(law));
  }
  json["warnings"] = report.warnings;
  return json_text(json);
}

} // namespace crushwright
