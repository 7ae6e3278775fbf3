#include "result_file/printing_json.hpp"

#include "result_file/result_document.hpp"
#include "review_pack/sample_estimate.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

Json structure_of(const Estimate& estimate) {
  return Json::parse(result_document(hand_made::crash_case(), estimate, {"0.1.0", "0123"}))["structures"][0];
}

} // namespace

TEST_CASE("a structure without printability figures has no such key, nor joints in its mass") {
  const Json structure = structure_of(hand_made::estimate());
  CHECK_FALSE(structure.contains("printing"));
  CHECK_FALSE(structure["mass"].contains("joints"));
}

TEST_CASE("printability figures are written with their units, cost as a bare number") {
  Estimate estimate = hand_made::estimate();
  PrintFigures figures;
  figures.lattice.whole = 4;
  figures.lattice.unsupported = 1;
  figures.share_of = "wall area";
  figures.pieces = {{0, 0.2, 0.25, {0.1, 0.12}, 0}};
  figures.time = 7200;
  figures.cost = 99.5;
  estimate.structures.front().printing = figures;
  estimate.structures.front().mass.joints = 0.4;
  const Json structure = structure_of(estimate);
  const Json& printing = structure["printing"];
  CHECK(printing["unsupported_share"] == Json{{"value", 0.25}, {"unit", "1"}});
  CHECK(printing["build_direction"]["text"] == "-x");
  CHECK(printing["pieces"][0]["height"] == Json{{"value", 0.25}, {"unit", "m"}});
  CHECK(printing["time"] == Json{{"value", 7200.0}, {"unit", "s"}});
  CHECK(printing["cost"] == 99.5);
  CHECK(structure["mass"]["joints"] == Json{{"value", 0.4}, {"unit", "kg"}});
  figures.time.reset();
  estimate.structures.front().printing = figures;
  CHECK(structure_of(estimate)["printing"]["time"].is_null());
}
