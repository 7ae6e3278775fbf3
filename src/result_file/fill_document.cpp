#include "result_file/fill_document.hpp"

#include "result_file/document_parts.hpp"

namespace crushwright {
namespace {

Json place_json(const std::array<double, 3>& place) {
  return series_json({place[0], place[1], place[2]}, "m");
}

Json direction_json(const std::array<double, 3>& direction) {
  return Json::array({direction[0], direction[1], direction[2]});
}

Json placement_json(const LatticePlacement& placement) {
  Json axes = Json::array();
  for (const auto& axis : placement.axes)
    axes.push_back(direction_json(axis));
  return Json{{"cell_edge", quantity_json(placement.cell_edge, "m")},
              {"origin", place_json(placement.origin)},
              {"axes", axes}};
}

Json tally_json(const StrutTally& tally) {
  return Json{{"struts", tally.struts},
              {"length", quantity_json(tally.length, "m")},
              {"volume", quantity_json(tally.volume, "m^3")}};
}

Json sampled_json(const SampledVolume& volume) {
  return Json{{"value", volume.value}, {"unit", "m^3"}, {"standard_error", volume.error}};
}

Json struts_json(const FilledBody& body) {
  const FillReport& report = body.report;
  const FillDifference& parts = report.difference;
  Json json{{"whole_cells", report.whole_cells},
            {"cut_cells", report.cut_cells},
            {"struts", report.struts},
            {"cut_struts", report.cut_struts},
            {"nodes", report.nodes},
            {"strut_length", quantity_json(report.strut_length, "m")},
            {"smallest_diameter", quantity_json(report.smallest_diameter, "m")},
            {"largest_diameter", quantity_json(report.largest_diameter, "m")},
            {"shortest_strut", quantity_json(report.shortest_strut, "m")},
            {"room", quantity_json(report.room, "m^3")},
            {"metal", sampled_json(report.metal)},
            {"metal_inside", sampled_json(report.metal_inside)},
            {"estimated", quantity_json(report.estimated, "m^3")}};
  json["difference"] = Json{{"cut_cells", quantity_json(parts.cut_cells, "m^3")},
                            {"grading", quantity_json(parts.grading, "m^3")},
                            {"method", quantity_json(parts.method, "m^3")},
                            {"short_pieces", quantity_json(parts.short_pieces, "m^3")},
                            {"fragments", quantity_json(parts.fragments, "m^3")},
                            {"loose_ends", quantity_json(parts.loose_ends, "m^3")}};
  json["taken_away"] = Json{{"fragments", body.lattice.fragments},
                            {"in_fragments", tally_json(body.lattice.in_fragments)},
                            {"loose_ends", tally_json(body.lattice.loose)},
                            {"short_pieces", tally_json(body.lattice.short_pieces)}};
  json["ties"] = tally_json(body.lattice.ties);
  return json;
}

Json walls_json(const WallFill& walls) {
  return Json{{"cells", quantity_json(walls.cells, "1")},
              {"smallest", quantity_json(walls.smallest, "m")},
              {"room", quantity_json(walls.room, "m^3")},
              {"metal", sampled_json(walls.metal)},
              {"estimated", quantity_json(walls.estimated, "m^3")}};
}

Json print_json(const BodyPrintFigures& print, const std::string& currency) {
  Json json{{"direction", direction_json(print.direction)},
            {"build_height", quantity_json(print.build_height, "m")},
            {"unsupported_share", quantity_json(print.lattice.share(), "1")},
            {"longest_span", quantity_json(print.lattice.longest_span, "m")},
            {"nodes_without_base", print.lattice.nodes_without_base},
            {"overhang_outside", quantity_json(print.overhang.outside, "m^2")},
            {"overhang_inside", quantity_json(print.overhang.inside, "m^2")},
            {"thinnest_strut", quantity_json(print.thinnest_strut, "m")},
            {"fits", print.fit_judged ? Json(print.fits) : Json(nullptr)},
            {"time", print.time ? quantity_json(*print.time, "s") : Json(nullptr)},
            {"cost", print.cost ? quantity_json(*print.cost, currency) : Json(nullptr)}};
  json["faults"] = print.faults;
  return json;
}

Json best_json(const BestDirection& best) {
  return Json{{"direction", direction_json(best.direction)},
              {"unsupported_share", quantity_json(best.trouble.unsupported, "1")},
              {"tried", best.tried}};
}

Json result_json(const FillResult& result) {
  const FilledStructure& filled = *result.filled;
  Json json{{"structure", filled.id},
            {"mirrors", filled.mirrors},
            {"cell", filled.cell.id},
            {"material", filled.material},
            {"placement", placement_json(filled.placement)},
            {"lattice_mass", quantity_json(filled.lattice_mass(), "kg")},
            {"estimated_mass", quantity_json(filled.estimated_mass(), "kg")},
            {"layer_mass", quantity_json(filled.layer_mass, "kg")}};
  json["struts"] = filled.struts ? struts_json(*filled.struts) : Json(nullptr);
  json["walls"] = filled.walls ? walls_json(*filled.walls) : Json(nullptr);
  json["printing"] = result.print == nullptr ? Json(nullptr) : print_json(*result.print, result.currency);
  json["best_direction"] = result.best == nullptr ? Json(nullptr) : best_json(*result.best);
  json["notes"] = filled.notes;
  json["files"] = result.files;
  return json;
}

} // namespace

std::string fill_document(const CrashCase& crash_case, const std::vector<FillResult>& results,
                          const Provenance& provenance) {
  Json json = document_head("fill", crash_case, provenance);
  json["structures"] = list_of(results, result_json);
  return json_text(json);
}

} // namespace crushwright
