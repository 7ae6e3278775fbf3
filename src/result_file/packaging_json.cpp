#include "result_file/packaging_json.hpp"

namespace crushwright {

namespace {

Json place_json(const std::array<double, 3>& place) {
  return Json{{"unit", "m"}, {"station", place[0]}, {"y", place[1]}, {"z", place[2]}};
}

Json ramp_json(const RampProfile& ramp, double over) {
  Json json{{"face", name_of(ramp.face)}};
  json["steepest"] = quantity_json(ramp.steepest, "rad");
  json["from"] = quantity_json(ramp.from, "m");
  json["over"] = quantity_json(over, "m");
  json["station"] = series_json(ramp.station, "m");
  json["reach"] = series_json(ramp.reach, "m");
  json["angle"] = series_json(ramp.angle, "rad");
  return json;
}

Json centroid_json(const CentroidLine& line) {
  std::vector<double> y, z;
  for (const auto& place : line.at) {
    y.push_back(place[0]);
    z.push_back(place[1]);
  }
  Json json;
  json["tilt"] = quantity_json(line.tilt, "rad");
  json["steepest_tilt"] = quantity_json(line.steepest_tilt, "rad");
  json["steepest_station"] = quantity_json(line.steepest_station, "m");
  json["station"] = series_json(line.station, "m");
  json["y"] = series_json(y, "m");
  json["z"] = series_json(z, "m");
  return json;
}

} // namespace

Json clearances_json(const std::vector<Clearance>& clearances) {
  Json json = Json::array();
  for (const Clearance& clearance : clearances) {
    Json each{{"keep_out", clearance.keep_out}};
    each["clearance"] = quantity_json(clearance.value, "m");
    each["on_structure"] = place_json(clearance.on_structure);
    each["on_keep_out"] = place_json(clearance.on_keep_out);
    each["struck"] = clearance.struck;
    json.push_back(std::move(each));
  }
  return json;
}

Json packaging_json(const StructureModel& structure) {
  Json json;
  double inside = 0;
  for (const Layer& layer : structure.layers) {
    inside += layer.lattice_area * layer.height;
  }
  json["outer_volume"] = quantity_json(volume_of(structure.envelope), "m^3");
  json["lattice_volume"] = quantity_json(inside, "m^3");
  if (structure.envelope.surface) {
    json["surface"] = structure.envelope.file->name;
    json["centroid_line"] = centroid_json(centroid_line(structure.envelope));
  }
  if (!structure.packaging) {
    return json;
  }
  const PackagingInput& input = structure.packaging->input();
  const auto size = structure.packaging->bounds().size();
  json["size"] = Json{{"unit", "m"}, {"length", size[0]}, {"width", size[1]}, {"height", size[2]}};
  json["ramp_limit"] = quantity_json(input.ramp_limit, "rad");
  json["ramps"] = Json::array();
  for (const RampProfile& ramp : structure.packaging->ramps()) {
    json["ramps"].push_back(ramp_json(ramp, input.ramp_length));
  }
  json["clearances"] = clearances_json(structure.packaging->clearances());
  return json;
}

} // namespace crushwright
