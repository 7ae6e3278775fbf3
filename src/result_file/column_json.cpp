#include "result_file/column_json.hpp"

#include <cmath>

namespace crushwright {

namespace {

/// A force that cannot be reached has no number in JSON.
Json finite_json(double value, const std::string& unit) {
  return std::isfinite(value) ? quantity_json(value, unit) : Json(nullptr);
}

Json service_json(const ServiceOutcome& outcome) {
  Json json{{"load", outcome.load}};
  json["use"] = quantity_json(outcome.use, "1");
  json["skin_use"] = quantity_json(outcome.skin_use, "1");
  json["lattice_use"] = quantity_json(outcome.lattice_use, "1");
  json["root_use"] = quantity_json(outcome.root_use, "1");
  json["panel_use"] = quantity_json(outcome.panel_use, "1");
  json["station"] = quantity_json(outcome.station, "m");
  json["deflection"] = quantity_json(outcome.deflection, "m");
  return json;
}

Json damage_json(const std::optional<double>& damage) {
  return damage ? quantity_json(*damage, "1") : Json(nullptr);
}

Json fatigue_json(const FatigueOutcome& fatigue) {
  return Json{{"skin", damage_json(fatigue.skin)},
              {"lattice", damage_json(fatigue.lattice)},
              {"root", damage_json(fatigue.root)},
              {"missing", fatigue.missing}};
}

Json map_json(const ColumnMap& map) {
  Json json;
  json["angles"] = series_json(map.angles, "rad");
  json["shares_of_peak_force"] = series_json(map.shares, "1");
  json["use"] = Json::array();
  for (const std::vector<double>& row : map.use) {
    json["use"].push_back(series_json(row, "1"));
  }
  return json;
}

} // namespace

Json column_json(const StructureModel& structure) {
  Json json;
  json["bending_frequency"] = quantity_json(structure.bending_frequency, "Hz");
  json["service"] = list_of(structure.service, service_json);
  if (structure.fatigue) {
    json["fatigue"] = fatigue_json(*structure.fatigue);
  }
  return json;
}

Json column_state_json(const ImpactOutcome& impact, std::size_t index) {
  const ColumnUnderForce& state = impact.column_states.at(index);
  Json json{{"structure", impact.mapped.at(index)}};
  json["angle"] = quantity_json(state.angle, "rad");
  json["crush"] = quantity_json(state.crush, "m");
  json["force"] = quantity_json(state.force, "N");
  json["section"] = Json{{"station", quantity_json(state.section.station, "m")},
                         {"axial", quantity_json(state.section.axial, "1")},
                         {"bending", quantity_json(state.section.bending, "1")},
                         {"shear", quantity_json(state.section.shear, "1")},
                         {"use", quantity_json(state.section.use, "1")}};
  json["bolt_use"] = state.bolts_stated ? quantity_json(state.bolt_use, "1") : Json(nullptr);
  json["buckling_force"] = finite_json(state.buckling_force, "N");
  json["tilting_force"] = finite_json(state.tilting_force, "N");
  json["stability_reserve"] = finite_json(state.stability_reserve, "1");
  json["critical_angle"] = quantity_json(impact.critical_angles.at(index), "rad");
  json["map"] = map_json(impact.column_maps.at(index));
  return json;
}

} // namespace crushwright
