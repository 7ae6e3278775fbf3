#include "packaging/packaging_reader.hpp"

#include "crushwright/errors.hpp"
#include "envelope/case_folder.hpp"
#include "envelope/envelope_reader.hpp"
#include "surface/made_surfaces.hpp"

#include <catch2/catch.hpp>
#include <numbers>

using namespace crushwright;
using case_folder::CaseFolder;
namespace made = crushwright::made_surfaces;

namespace {

const std::string shape = "schema: 1\n"
                          "sections:\n"
                          "  shape: rectangle\n"
                          "  stations:\n"
                          "    - {station: 0 mm, width: 80 mm, height: 80 mm}\n"
                          "    - {station: 400 mm, width: 120 mm, height: 80 mm}\n";

PackagingInput read(const std::string& packaging, double lateral = 0.4, const std::string& body = shape,
                    const std::string& file = "case.yaml") {
  Mapping structure = Mapping::read_text(body + packaging, file);
  structure.allow({"sections", "surface", "parts", "packaging"});
  const Envelope envelope = read_envelope(structure);
  return read_packaging(structure.mapping("packaging"), envelope, lateral);
}

std::string message_of(const std::string& packaging, double lateral = 0.4) {
  try {
    read(packaging, lateral);
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

} // namespace

TEST_CASE("a packaging block is read with its usual values: 11 degrees over a tenth of the length") {
  const PackagingInput input =
      read("packaging:\n"
           "  flow_faces: [lower, outer]\n"
           "  keep_out:\n"
           "    tank: {from: [10 mm, -1 cm, 0 mm], to: [20 mm, 1 cm, 5 mm], clearance: 5 mm}\n"
           "    rail: {from: [0 mm, 0 mm, 0 mm], to: [1 m, 1 m, 1 m], clearance: 5 mm, "
           "clearance_after: 1 mm}\n");
  CHECK(input.flow_faces == std::vector<FlowFace>{FlowFace::lower, FlowFace::outer});
  CHECK(input.ramp_limit == Approx(11 * std::numbers::pi / 180));
  CHECK(input.ramp_length == Approx(0.04));
  CHECK(input.outer_side == 1);
  REQUIRE(input.keep_outs.size() == 2);
  CHECK(input.keep_outs[0].clearance_after == Approx(0.005));
  CHECK(input.keep_outs[1].clearance_after == Approx(0.001));
  CHECK(volume_of(input.keep_outs[0].surface) == Approx(0.01 * 0.02 * 0.005));
  CHECK(volume_of(input.keep_outs[1].surface) == Approx(1));
  CHECK(read("packaging: {flow_faces: [outer], ramp_limit: 9 deg, ramp_length: 100 mm}\n", -0.4).outer_side == -1);
}

TEST_CASE("a keep-out surface lies in the same axes and with the same origin as the structure's own") {
  const CaseFolder folder("keep_out");
  // Drawn with x to the rear: the structure's stations grow to the front.
  folder.write_surface("body.ply", made::box({-0.4, 0.3, 0.1}, {0, 0.4, 0.2}));
  folder.write_surface("tank.ply", made::box({-0.35, 0.42, 0.1}, {-0.25, 0.5, 0.2}), 100);
  const PackagingInput input =
      read("packaging: {keep_out: {tank: {surface: {file: tank.ply, unit: cm}, clearance: 5 mm}}}\n", 0,
           "schema: 1\nsurface: {file: body.ply, unit: mm, crush_axis: -x}\n", folder.case_file());
  const SurfaceBounds bounds = bounds_of(input.keep_outs[0].surface);
  CHECK(bounds.low[0] == Approx(0.25));
  CHECK(bounds.high[0] == Approx(0.35));
  CHECK(bounds.low[1] == Approx(-0.5)); // left of the way from the struck end
  CHECK(bounds.low[2] == Approx(0.1));
  CHECK(input.keep_outs[0].file->name == "tank.ply");
}

TEST_CASE("bad packaging is refused at its line") {
  CHECK(message_of("packaging: {flow_faces: [bottom]}\n") ==
        "case.yaml:7:13: packaging.flow_faces: `bottom` is no face of a structure\n"
        "    7 | packaging: {flow_faces: [bottom]}\n"
        "      |             ^\n"
        "   Write one or more of: lower, upper, inner, outer.");
  CHECK(message_of("packaging: {flow_faces: [lower, lower]}\n") ==
        "case.yaml:7:13: packaging.flow_faces: `lower` is named twice\n"
        "    7 | packaging: {flow_faces: [lower, lower]}\n"
        "      |             ^\n"
        "   Name each face once.");
  CHECK(message_of("packaging: {flow_faces: [outer]}\n", 0) ==
        "case.yaml:7:13: packaging.flow_faces: the structure lies in the middle of the car, so that no side is its "
        "outer one\n"
        "    7 | packaging: {flow_faces: [outer]}\n"
        "      |             ^\n"
        "   Place it with `at: {y: ...}`, or name only `lower` and `upper`.");
  CHECK(message_of("packaging: {ramp_limit: 9 deg}\n") ==
        "case.yaml:7:25: packaging.ramp_limit: no face is named that it "
        "would hold for\n"
        "    7 | packaging: {ramp_limit: 9 deg}\n"
        "      |                         ^\n"
        "   Add for instance `flow_faces: [lower]`.");
  CHECK(message_of("packaging: {flow_faces: [lower], ramp_length: 500 mm}\n") ==
        "case.yaml:7:47: packaging.ramp_length: the ramp is looked at over 500 mm, more than the structure's 400 mm\n"
        "    7 | packaging: {flow_faces: [lower], ramp_length: 500 mm}\n"
        "      |                                               ^\n"
        "   Write a part of the length, for instance a tenth.");
}

TEST_CASE("a keep-out without extent, turned inside out or without its clearance is refused at its line") {
  const auto message = [](const std::string& keep_out) {
    return message_of("packaging:\n  keep_out:\n    tank: " + keep_out + "\n");
  };
  CHECK(message("{clearance: 5 mm}") ==
        "case.yaml:9:5: packaging.keep_out.tank: the region has no extent\n"
        "    9 |     tank: {clearance: 5 mm}\n"
        "      |     ^\n"
        "   Add a box, `from: [...]` and `to: [...]`, or `surface: {file: ..., unit: ...}`.");
  CHECK(
      message("{from: [0 mm, 0 mm, 0 mm], to: [1 mm, 1 mm, 1 mm], surface: {file: a.stl, unit: mm}, clearance: 0 mm}")
          .find("packaging.keep_out.tank.surface: the region is already given by a box\n") != std::string::npos);
  CHECK(message("{from: [0 mm, 0 mm], to: [1 mm, 1 mm, 1 mm], clearance: 5 mm}") ==
        "case.yaml:9:12: packaging.keep_out.tank.from: three lengths, [station, y, z], were expected; there are 2\n"
        "    9 |     tank: {from: [0 mm, 0 mm], to: [1 mm, 1 mm, 1 m...\n"
        "      |            ^\n"
        "   Write it for instance as `[200 mm, -150 mm, -40 mm]`, in the structure's own frame.");
  CHECK(message("{from: [0 mm, 5 mm, 0 mm], to: [1 mm, 1 mm, 1 mm], clearance: 5 mm}") ==
        "case.yaml:9:38: packaging.keep_out.tank.to: the box ends at y 1 mm, which is not past its start at 5 mm\n"
        "    9 |     tank: {from: [0 mm, 5 mm, 0 mm], to: [1 mm, 1 mm, 1 mm], clearance: 5 mm}\n"
        "      |                                      ^\n"
        "   Give `from` the smaller value of each of the three and `to` the larger.");
  CHECK(message("{from: [0 mm, 0 mm, 0 mm], to: [1 mm, 1 mm, 1 mm]}") ==
        "case.yaml:9:5: `clearance` is missing in packaging.keep_out.tank\n"
        "    9 |     tank: {from: [0 mm, 0 mm, 0 mm], to: [1 ...\n"
        "      |     ^\n"
        "   Add a line, for instance `clearance: 275 mm`.");
  CHECK(message("{from: [0 mm, 0 mm, 0 mm], to: [1 mm, 1 mm, 1 mm], clearance: {value: 5 mm, low: 4 mm}}")
            .find("packaging.keep_out.tank.clearance: this value carries a spread, which nothing would use\n") !=
        std::string::npos);
}
