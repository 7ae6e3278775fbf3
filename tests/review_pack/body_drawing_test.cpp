#include "review_pack/body_drawing.hpp"

#include "crushwright/errors.hpp"
#include "review_pack/body_figure.hpp"
#include "review_pack/drawn_bodies.hpp"
#include "review_pack/page_style.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace crushwright;

namespace {

/// An invented box of 120 x 60 x 60 mm with a skin and a centred lattice, in six layers that get denser.
struct Sample {
  TriangleMesh surface = box_mesh({0, -0.03, -0.03}, {0.12, 0.03, 0.03});
  StrutBody struts = centred_lattice({0.01, -0.025, -0.025}, {5, 2, 2}, 0.02, 0.001);
  BodyDrawing drawing;
  Sample() {
    drawing.name = "left";
    drawing.shape.surface = &surface;
    drawing.shape.skin_thickness = 0.0015;
    drawing.shape.struts = &struts;
    drawing.shape.cell_edge = 0.02;
    for (int i = 0; i < 6; ++i) {
      drawing.layers.push_back({0.02 * i, 0.02 * (i + 1), 0.10 + 0.02 * i, i + 1});
    }
  }
};

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++found;
  }
  return found;
}

} // namespace

TEST_CASE("a body with skin and lattice has three pictures in each colouring and one to turn") {
  const std::string html = body_pictures_html(Sample().drawing);
  CHECK(count(html, "<figure>") == 6);
  CHECK(count(html, "<title>Outer surface of left</title>") == 2);
  CHECK(count(html, "<title>Lattice of left</title>") == 2);
  CHECK(count(html, "<title>Cut through left</title>") == 2);
  CHECK(count(html, "class=\"turn\"") == 1);
  CHECK(count(html, "type=\"radio\"") == 2);
  CHECK(contains(html, "Skin 1.5 mm."));
}

TEST_CASE("scales of the pictures show both ends with their unit, and the ruler is in millimetres") {
  const std::string html = body_pictures_html(Sample().drawing);
  for (const char* words :
       {">10 %</text>", ">20 %</text>", ">relative density</text>", ">relative density [%]</text>",
        ">crush order of the layers, 1 first to 6 last</text>", ">1</text>", ">6</text>", ">station [mm]</text>",
        ">120</text>", ">60 mm</text>", ">struck end</text>", ">attachment</text>", ">cut skin</text>"}) {
    INFO(words);
    CHECK(contains(html, words));
  }
}

TEST_CASE("values stand under the marks of the ruler, at a boundary those towards the attachment") {
  const std::string html = body_pictures_html(Sample().drawing);
  // Layers of 20 mm, marks every 20 mm: 0 mm lies in the first, 20 mm begins the second, 120 mm ends the last.
  const std::size_t row = html.find(">relative density [%]</text>");
  REQUIRE(row != std::string::npos);
  std::size_t at = row;
  for (const char* value : {">10.0</text>", ">12.0</text>", ">14.0</text>", ">16.0</text>", ">18.0</text>",
                            ">20.0</text>", ">20.0</text>"}) {
    at = html.find("</text>\n<text", at + 1);
    REQUIRE(at != std::string::npos);
    CHECK(html.compare(html.find('>', at + 10), std::string(value).size(), value) == 0);
  }
}

TEST_CASE("a body without values along it is drawn in one colour, without a choice and without a scale") {
  Sample sample;
  sample.drawing.layers.clear();
  const std::string html = body_pictures_html(sample.drawing);
  CHECK(count(html, "<figure>") == 3);
  CHECK_FALSE(contains(html, "type=\"radio\""));
  CHECK_FALSE(contains(html, "class=\"legend\""));
}

TEST_CASE("a body without a lattice shows its surface and a cut, one without a surface its lattice and a cut") {
  Sample hollow, bare;
  hollow.drawing.shape.struts = nullptr;
  CHECK(count(body_pictures_html(hollow.drawing), "<title>Lattice of") == 0);
  CHECK(count(body_pictures_html(hollow.drawing), "<title>Cut through") == 2);
  bare.drawing.shape.surface = nullptr;
  CHECK(count(body_pictures_html(bare.drawing), "<title>Outer surface of") == 0);
  CHECK(count(body_pictures_html(bare.drawing), "<title>Lattice of") == 2);
  CHECK_FALSE(contains(body_pictures_html(bare.drawing), "Skin"));
}

TEST_CASE("an empty body says that there is nothing to draw") {
  BodyDrawing empty;
  empty.name = "left & right";
  CHECK(body_pictures_html(empty) ==
        "<p class=\"quiet\">left &amp; right: no pictures, because the body has neither a "
        "surface nor a lattice.</p>\n");
  const TriangleMesh no_triangles;
  const StrutBody no_struts;
  empty.shape.surface = &no_triangles;
  empty.shape.struts = &no_struts;
  CHECK(contains(body_pictures_html(empty), "no pictures"));
}

TEST_CASE("a body that cannot be drawn says what is wrong with it") {
  SECTION("a point that is not finite") {
    Sample sample;
    sample.surface.points[3][1] = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_WITH(
        body_pictures_html(sample.drawing),
        "the body left cannot be drawn: a point of its surface is at (0.12, nan, -0.03), which is not finite");
  }
  SECTION("a strut to a point that is not there") {
    Sample sample;
    sample.struts.struts[4].to = 4711;
    CHECK_THROWS_WITH(body_pictures_html(sample.drawing),
                      "the body left cannot be drawn: its lattice names point 4711 of 180");
  }
  SECTION("a strut without thickness") {
    Sample sample;
    sample.struts.struts[4].to_radius = 0;
    CHECK_THROWS_WITH(body_pictures_html(sample.drawing),
                      "the body left cannot be drawn: a strut has the radius 0 m; it has to be above 0");
  }
  SECTION("a lattice without a cell edge") {
    Sample sample;
    sample.drawing.shape.cell_edge = 0;
    CHECK_THROWS_WITH(body_pictures_html(sample.drawing),
                      "the body left cannot be drawn: its lattice has the cell edge 0 m; it has to be above 0");
  }
  SECTION("layers that do not rise") {
    Sample sample;
    sample.drawing.layers[2].from = 0.01;
    CHECK_THROWS_WITH(
        body_pictures_html(sample.drawing),
        "the body left cannot be drawn: its layer 3 reaches from 0.01 m to 0.06 m; stations have to rise");
  }
  SECTION("a density that is none") {
    Sample sample;
    sample.drawing.layers[0].relative_density = 12;
    CHECK_THROWS_WITH(
        body_pictures_html(sample.drawing),
        "the body left cannot be drawn: its layer 1 has the relative density 12; it has to be between 0 "
        "and 1");
  }
}

TEST_CASE("the same body gives the same bytes") {
  CHECK(body_pictures_html(Sample().drawing) == body_pictures_html(Sample().drawing));
}

TEST_CASE("pictures of a body ask nothing of the network and keep hostile names as text") {
  Sample sample;
  sample.drawing.name = "<script>alert('x')</script>\"";
  const std::string html = body_pictures_html(sample.drawing);
  CHECK_FALSE(contains(html, "<script"));
  CHECK_FALSE(contains(html, "http"));
  CHECK_FALSE(contains(html, "url("));
}

TEST_CASE("a body far from the axis is cut through its own middle") {
  Sample sample;
  sample.drawing.axis_y = 0.4;
  CHECK(contains(body_pictures_html(sample.drawing), "plane y = 0 mm"));
  sample.drawing.axis_y = -0.01;
  CHECK(contains(body_pictures_html(sample.drawing), "plane y = -10 mm"));
}

TEST_CASE("marks of a ruler are round and lie on the body") {
  const BodyBox box{{-0.012, 0, 0}, {0.353, 0, 0}};
  const std::vector<double> marks = ruler_marks(box, 8);
  REQUIRE(marks.size() == 8);
  CHECK(marks.front() == Approx(0).margin(1e-12));
  CHECK(marks.back() == Approx(0.35));
  for (const double length : {0.001, 0.03, 0.35, 1.0, 4.2}) {
    CHECK(length / ruler_step(length, 8) <= 8 * (1 + 1e-9));
    CHECK(length / ruler_step(length, 8) > 8 / 2.5 * (1 - 1e-9));
  }
}
