#include "crushwright/packaging.hpp"

#include "envelope/sections.hpp"
#include "packaging/packaging_reader.hpp"
#include "packaging/triangle_tree.hpp"
#include "surface/made_surfaces.hpp"
#include "surface/surface_probe.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>
#include <utility>

using namespace crushwright;
namespace made = crushwright::made_surfaces;

namespace {

/// A bar of 100 mm × 80 mm about the x axis, 400 mm long.
Envelope bar() {
  Envelope envelope;
  envelope.sections = {sections::rectangle(0.1, 0.08), sections::rectangle(0.1, 0.08)};
  envelope.sections[1].station = 0.4;
  return envelope;
}

KeepOut box(const Place& low, const Place& high) {
  KeepOut keep_out;
  keep_out.id = "box";
  keep_out.surface = box_surface(low, high);
  return keep_out;
}

Packaging with(const Envelope& envelope, const KeepOut& keep_out) {
  PackagingInput input;
  input.keep_outs = {keep_out};
  return Packaging(envelope, input, 40);
}

Clearance before(const KeepOut& keep_out) {
  return with(bar(), keep_out).clearances().front();
}

/// 40 equal layers, each shortened by the same part.
CrushedStations evenly(double part) {
  std::vector<Layer> layers(40);
  for (std::size_t i = 0; i < layers.size(); ++i) {
    layers[i].station = 0.01 * static_cast<double>(i);
    layers[i].height = 0.01;
  }
  return {layers, std::vector<double>(40, 0.01 * part)};
}

void check_place(const Place& place, const Place& expected) {
  for (std::size_t axis = 0; axis < 3; ++axis)
    CHECK(place[axis] == Approx(expected[axis]).margin(1e-9));
}

} // namespace

TEST_CASE("the clearance of two boxes is their gap, exactly, with both places") {
  // Face to face, edge to edge, corner to corner.
  CHECK(before(box({0.1, 0.062, -0.01}, {0.2, 0.1, 0.01})).value == Approx(0.012).epsilon(1e-12));
  CHECK(before(box({0.1, 0.053, 0.044}, {0.2, 0.1, 0.1})).value == Approx(0.005).epsilon(1e-12));
  const Clearance corner = before(box({0.402, 0.053, 0.046}, {0.5, 0.1, 0.1}));
  CHECK(corner.value == Approx(0.007).epsilon(1e-12));
  check_place(corner.on_structure, {0.4, 0.05, 0.04});
  check_place(corner.on_keep_out, {0.402, 0.053, 0.046});
  CHECK(corner.keep_out == "box");
}

TEST_CASE("an overlap counts below zero by how deep it is") {
  CHECK(before(box({0.1, 0.047, -0.2}, {0.2, 0.2, 0.2})).value == Approx(-0.003).epsilon(1e-9));
  // A corner inside: its distance from the nearest face.
  const Clearance corner = before(box({0.38, 0.03, 0.035}, {0.6, 0.6, 0.6}));
  CHECK(corner.value == Approx(-0.005).epsilon(1e-9));
  // Touching faces.
  CHECK(before(box({0.1, 0.05, -0.01}, {0.2, 0.1, 0.01})).value == Approx(0).margin(1e-12));
  // Wholly inside, and all around: the inner one's deepest place is its middle or its corner, 30 mm from the side.
  CHECK(before(box({0.19, -0.01, -0.01}, {0.21, 0.01, 0.01})).value == Approx(-0.04).epsilon(0.02));
  CHECK(before(box({-1, -1, -1}, {1, 1, 1})).value == Approx(-0.95).epsilon(0.06));
}

TEST_CASE("a body crushed by 100 mm has its struck end 100 mm farther and its attachment where it was") {
  const CrushedStations crushed = evenly(0.25);
  CHECK(crushed.crush() == Approx(0.1).epsilon(1e-12));
  CHECK(crushed.at(0) == Approx(0.1).epsilon(1e-12));
  CHECK(crushed.at(0.4) == Approx(0.4).epsilon(1e-12));
  CHECK(crushed.at(0.2) == Approx(0.25).epsilon(1e-12));
  CHECK(crushed.at(0.205) == Approx(0.205 + 0.25 * 0.195).epsilon(1e-12));
  // Layers that shorten unevenly: what lies behind a point moves it.
  std::vector<Layer> layers(2);
  layers[0].height = layers[1].height = 0.2;
  layers[1].station = 0.2;
  const CrushedStations tip_only(layers, {0.1, 0});
  CHECK(tip_only.at(0) == Approx(0.1));
  CHECK(tip_only.at(0.2) == Approx(0.2));
  CHECK(tip_only.at(0.3) == Approx(0.3));
  const CrushedStations root_only(layers, {0, 0.1});
  CHECK(root_only.at(0.2) == Approx(0.3));
  CHECK(root_only.at(0.3) == Approx(0.35));
}

TEST_CASE("clearance after the crush: beside the body, ahead of the striker, and struck") {
  // Beside the struck end, 12 mm off: the striker's plane, 100 mm in, has passed its first 40 mm.
  const Packaging beside = with(bar(), box({0.06, 0.062, -0.01}, {0.3, 0.1, 0.01}));
  const Clearance struck = beside.clearances_after(evenly(0.25)).front();
  CHECK(struck.struck);
  CHECK(struck.value == Approx(-0.04).epsilon(1e-12));
  check_place(struck.on_structure, {0.1, struck.on_keep_out[1], struck.on_keep_out[2]});
  CHECK(struck.on_keep_out[0] == Approx(0.06));
  // Farther in, the striker stops short of it by less than it is off.
  const Packaging near = with(bar(), box({0.105, 0.062, -0.01}, {0.3, 0.1, 0.01}));
  const Clearance ahead = near.clearances_after(evenly(0.25)).front();
  CHECK_FALSE(ahead.struck);
  CHECK(ahead.value == Approx(0.005).epsilon(1e-12));
  // Beyond reach of the striker the side's distance stays: nothing moves sideways.
  const Packaging far = with(bar(), box({0.2, 0.062, -0.01}, {0.3, 0.1, 0.01}));
  CHECK(far.clearances_after(evenly(0.25)).front().value == Approx(0.012).epsilon(1e-12));
  CHECK(far.clearances_after(evenly(0)).front().value == far.clearances().front().value);
}

TEST_CASE("a tapered body draws its wide part past what stood beside its narrow part") {
  // Half-width 30 mm at the tip and 70 mm at the attachment; a plate at station 300 to 310 mm, half-width 64 mm away.
  Envelope cone;
  cone.sections = {sections::rectangle(0.06, 0.06), sections::rectangle(0.14, 0.06)};
  cone.sections[1].station = 0.4;
  const Packaging room = with(cone, box({0.3, 0.064, -0.01}, {0.310, 0.1, 0.01}));
  const double slope = std::atan(0.04 / 0.4);
  // Before: from the plate's corner at 310 mm square to the slanting side, half-width there 61 mm.
  CHECK(room.clearances().front().value == Approx(0.003 * std::cos(slope)).epsilon(1e-9));
  // Crushed evenly by a quarter, x' = 0.1 + 0.75 x: at 310 mm stands what was at 280 mm, half-width 58 mm.
  const double crushed_slope = std::atan(0.04 / 0.3);
  CHECK(room.clearances_after(evenly(0.25)).front().value == Approx(0.006 * std::cos(crushed_slope)).epsilon(1e-9));
}

TEST_CASE("the clearance of two balls is the distance of their centres less both radii") {
  const TriangleTree one(made::sphere(0.05, 120), {}),
      other(made::moved(made::sphere(0.03, 120), {0.06, 0.06, 0.07}), {});
  const double apart = std::sqrt(0.06 * 0.06 * 2 + 0.07 * 0.07) - 0.08;
  CHECK(one.nearest(other, nullptr).distance == Approx(apart).epsilon(3e-3));
  // Into each other by 10 mm along x.
  const TriangleTree deep(made::moved(made::sphere(0.03, 120), {0.07, 0, 0}), {});
  CHECK(one.nearest(deep, nullptr).distance == 0);
  CHECK(deep.deepest_in(one, nullptr, nullptr, 5e-4).distance == Approx(0.01).epsilon(5e-3));
}

TEST_CASE("inside and nearest agree with another geometry kernel on a knotted body") {
  const TriangleMesh knot = made::knot({}, 160, 24);
  const TriangleTree tree(knot, {-0.05, 0, 0.03});
  const SurfaceProbe probe(knot);
  std::mt19937 random(7);
  std::uniform_real_distribution<double> across(-0.17, 0.17), up(-0.06, 0.06);
  int inside = 0;
  for (int i = 0; i < 400; ++i) {
    const Place point{across(random), across(random), up(random)};
    CHECK(tree.inside(point, nullptr) == probe.inside(point));
    CHECK(tree.nearest(point, nullptr).distance ==
          Approx(std::abs(probe.signed_distance(point))).epsilon(1e-9).margin(1e-12));
    inside += probe.inside(point) ? 1 : 0;
  }
  CHECK(inside > 10);
}

TEST_CASE("a prism's ramp angle is its angle, over any length") {
  // Common practice: a flat ramp over 0.6 m at 9 degrees rises by L tan θ, 95.0 mm.
  const double angle = 9 * std::numbers::pi / 180;
  Envelope ramp;
  ramp.sections = {sections::rectangle(0.1, 0.05), sections::rectangle(0.1, 0.05)};
  ramp.sections[1].station = 0.6;
  ramp.sections[1].height = 0.05 + 0.6 * std::tan(angle);
  ramp.sections[1].centre = {0, -0.3 * std::tan(angle)}; // the upper face stays level
  for (const double over : {0.01, 0.06, 0.25, 0.6}) {
    const RampProfile lower = ramp_profile(ramp, FlowFace::lower, 1, over);
    CHECK(lower.steepest == Approx(angle).epsilon(1e-9));
    CHECK(lower.reach.back() - lower.reach.front() == Approx(0.0950).margin(0.00005));
    for (const double each : lower.angle)
      CHECK(each == Approx(angle).epsilon(1e-9));
    CHECK(ramp_profile(ramp, FlowFace::upper, 1, over).steepest == Approx(0).margin(1e-12));
  }
}

TEST_CASE("inner and outer faces follow the side of the car, and a face that fills out has an angle below zero") {
  Envelope ramp;
  ramp.sections = {sections::rectangle(0.1, 0.05), sections::rectangle(0.16, 0.05)};
  ramp.sections[1].station = 0.3;
  ramp.sections[1].centre = {0.03, 0}; // all of it on the left side
  CHECK(ramp_profile(ramp, FlowFace::outer, 1, 0.03).steepest == Approx(std::atan(0.06 / 0.3)).epsilon(1e-9));
  CHECK(ramp_profile(ramp, FlowFace::inner, 1, 0.03).steepest == Approx(0).margin(1e-12));
  CHECK(ramp_profile(ramp, FlowFace::outer, -1, 0.03).steepest == Approx(0).margin(1e-12));
  CHECK(ramp_profile(ramp, FlowFace::inner, -1, 0.03).steepest == Approx(std::atan(0.06 / 0.3)).epsilon(1e-9));
  std::swap(ramp.sections[0].width, ramp.sections[1].width);
  CHECK(ramp_profile(ramp, FlowFace::outer, 1, 0.03).steepest == Approx(0).margin(1e-12));
  CHECK(ramp_profile(ramp, FlowFace::inner, 1, 0.03).steepest == Approx(-std::atan(0.06 / 0.3)).epsilon(1e-9));
}

TEST_CASE("one step is not a ramp: it is looked at over the stated length, and where that is worst") {
  Envelope step;
  for (const auto& [station, height] :
       {std::pair{0.0, 0.08}, std::pair{0.2, 0.08}, std::pair{0.202, 0.1}, std::pair{0.4, 0.1}}) {
    step.sections.push_back(sections::rectangle(0.1, height));
    step.sections.back().station = station;
  }
  const RampProfile profile = ramp_profile(step, FlowFace::lower, 1, 0.1, 400);
  CHECK(profile.steepest == Approx(std::atan(0.01 / 0.1)).epsilon(1e-9));
  CHECK(profile.from <= 0.2);
  CHECK(profile.from + 0.1 >= 0.202 - 1e-9);
}

TEST_CASE("bounds and outer volume are those of the shape") {
  const Packaging room(bar(), {}, 40);
  CHECK(room.bounds().size()[0] == Approx(0.4));
  CHECK(room.bounds().size()[1] == Approx(0.1));
  CHECK(room.bounds().size()[2] == Approx(0.08));
  CHECK(room.outer_volume() == Approx(0.4 * 0.1 * 0.08));
}
