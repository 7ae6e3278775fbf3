#include "load_path/placed.hpp"

#include <catch2/catch.hpp>
#include <utility>

using namespace placed;

namespace {

struct Scene {
  Envelope tip = bar(sections::rectangle(0.080, 0.100));
  std::vector<StructurePlace> structures{{"left", &tip, 0.43, 0.42}, {"right", &tip, -0.43, 0.42}};
  FaceInput face = flat(1.676, 0.559, 0.279);
  AttachmentInput rail;
  RestOfBodyInput rest;
  Scene() {
    face.blocks = {block("strip", 1.69e6, 0.102, 0.8, Spread::plate), block("block", 0.31e6, 0.381, 0.8),
                   block("pad", 0.2e6, 0.05, 0.7)};
    rail.capacity = value(95e3);
    rest.stiffness = value(12e6);
    rest.capacity = value(260e3);
  }
  Scene(const Scene&) = delete;
  Scene& operator=(const Scene&) = delete;
  SeriesCurves curves(SeriesEnd end = SeriesEnd::nominal) const {
    return series_curves(&face, structures, contacts(face, structures), {&rail, nullptr}, &rest, end);
  }
};

} // namespace

TEST_CASE("imprints and attachment stand in series with one structure, plates and the rest with all") {
  const Scene scene;
  const SeriesCurves series = scene.curves();
  REQUIRE(series.elements.size() == 2);
  REQUIRE(series.elements[0].size() == 3);
  CHECK(series.elements[0][0].id == "block");
  CHECK(series.elements[0][0].kind == ElementKind::face_block);
  CHECK(series.elements[0][1].id == "pad");
  CHECK(series.elements[0][2].id == "attachment");
  CHECK(series.elements[0][2].kind == ElementKind::attachment);
  CHECK(series.elements[1].size() == 2);
  REQUIRE(series.common.size() == 2);
  CHECK(series.common[0].id == "strip");
  CHECK(series.common[1].id == "rest_of_body");
  CHECK(series.common[1].kind == ElementKind::rest_of_body);
  CHECK(series.elements[0][0].curve->force.front() == Approx(0.31e6 * 0.008).epsilon(1e-12));
  CHECK(series.common[0].curve->force.front() == Approx(1.69e6 * 1.676 * 0.559).epsilon(1e-12));
}

TEST_CASE("moving the curves keeps every element with its own") {
  const Scene scene;
  SeriesCurves first = scene.curves();
  const SeriesCurves moved = std::move(first);
  for (std::size_t i = 0; i < moved.elements.size(); ++i)
    for (std::size_t k = 0; k < moved.elements[i].size(); ++k)
      CHECK(moved.elements[i][k].curve == &moved.per_structure[i][k]);
  for (std::size_t k = 0; k < moved.common.size(); ++k)
    CHECK(moved.common[k].curve == &moved.common_curves[k]);
}

TEST_CASE("a missed structure has no block before it, and a block that a tip passes by is left out") {
  Scene scene;
  scene.face.lateral = value(0.5); // right end at y = -338 mm: misses the right tip
  CHECK(scene.curves().elements[0].size() == 3);
  CHECK(scene.curves().elements[1].empty());
  scene.face.lateral = value(0);
  scene.face.blocks[1].height = value(0.05); // from 279 to 329 mm, under both tips
  const SeriesCurves passed = scene.curves();
  REQUIRE(passed.elements[1].size() == 1);
  CHECK(passed.elements[1][0].id == "pad");
}

TEST_CASE("without face, attachment and rest nothing stands in series") {
  const Scene scene;
  const SeriesCurves none = series_curves(nullptr, scene.structures, {}, {nullptr, nullptr}, nullptr);
  REQUIRE(none.elements.size() == 2);
  CHECK(none.elements[0].empty());
  CHECK(none.elements[1].empty());
  CHECK(none.common.empty());
}
