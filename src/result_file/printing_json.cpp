#include "result_file/printing_json.hpp"

namespace crushwright {

namespace {

Json direction_json(const BuildDirection& direction) {
  return Json{{"text", direction_text(direction)},
              {"vector", Json::array({direction[0], direction[1], direction[2]})}};
}

Json piece_json(const BuildPiece& piece) {
  Json json;
  json["from"] = quantity_json(piece.from, "m");
  json["to"] = quantity_json(piece.to, "m");
  json["height"] = quantity_json(piece.height, "m");
  json["footprint"] = Json::array({quantity_json(piece.footprint[0], "m"), quantity_json(piece.footprint[1], "m")});
  json["turned"] = quantity_json(piece.turned, "rad");
  return json;
}

Json joint_json(const SplitJoint& joint) {
  Json json;
  json["station"] = quantity_json(joint.station, "m");
  json["section_area"] = quantity_json(joint.section_area, "m^2");
  json["mass"] = quantity_json(joint.mass, "kg");
  json["capacity"] = quantity_json(joint.capacity, "N");
  json["crush_force"] = quantity_json(joint.crush_force, "N");
  return json;
}

} // namespace

Json printing_json(const StructureModel& structure) {
  const PrintFigures& figures = *structure.printing;
  Json json{{"build_direction", direction_json(figures.direction)}};
  if (!figures.share_of.empty()) {
    json["share_of"] = figures.share_of;
    json["unsupported_share"] = quantity_json(figures.lattice.share(), "1");
    json["longest_span"] = quantity_json(figures.longest_span, "m");
  }
  json["overhang_outside"] = quantity_json(figures.overhang.outside, "m^2");
  json["overhang_inside"] = quantity_json(figures.overhang.inside, "m^2");
  json["thinnest"] = Json{{"what", figures.thinnest_name}, {"size", quantity_json(figures.thinnest, "m")}};
  json["escape"] = Json{{"closed", figures.escape.closed},
                        {"opening", quantity_json(figures.escape.opening, "m")},
                        {"at_least", figures.escape.at_least},
                        {"reason", figures.escape.reason}};
  json["stands"] = figures.stands;
  json["build_height"] = quantity_json(figures.build_height, "m");
  json["fit_judged"] = figures.fit_judged;
  json["pieces"] = list_of(figures.pieces, piece_json);
  json["joints"] = list_of(figures.joints, joint_json);
  json["volume"] = quantity_json(figures.volume, "m^3");
  json["mass"] = quantity_json(figures.mass, "kg");
  json["time"] = figures.time ? quantity_json(*figures.time, "s") : Json(nullptr);
  json["cost"] = figures.cost ? Json(*figures.cost) : Json(nullptr);
  json["faults"] = figures.faults;
  if (structure.print_direction) {
    json["least_trouble"] = Json{{"build_direction", direction_json(structure.print_direction->direction)},
                                 {"unsupported", quantity_json(structure.print_direction->trouble.unsupported, "1")}};
  }
  return json;
}

} // namespace crushwright
