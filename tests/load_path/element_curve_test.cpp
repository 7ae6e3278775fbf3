#include "load_path/element_curve.hpp"

#include "crushwright/errors.hpp"
#include "load_path/placed.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

using namespace placed;
using sections::ellipse;
using sections::rectangle;

namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double pi = std::numbers::pi;
const Window everywhere{-endless, endless, -endless, endless};

bool never_falls(const CrushCurve& curve) {
  return std::is_sorted(curve.force.begin(), curve.force.end()) &&
         std::adjacent_find(curve.crush.begin(), curve.crush.end(), std::greater_equal<>()) == curve.crush.end();
}

Quantity between_ends(double low, double nominal, double high) {
  Quantity quantity = value(nominal);
  quantity.low = low;
  quantity.high = high;
  return quantity;
}

} // namespace

TEST_CASE("a cone that digs into a block takes pressure times the frustum's volume") {
  // Diameter 60 mm at the tip, 140 mm after 400 mm; volume of a frustum h (A0 + sqrt(A0 A1) + A1) / 3.
  const Envelope cone = between(ellipse(0.06, 0.06), ellipse(0.14, 0.14), 0.4);
  const CrushCurve curve =
      imprint_curve(block("block", 0.31e6, 0.375, 0.8), everywhere, {"cone", &cone, 0, 0.4}, SeriesEnd::nominal);
  const auto area = [](double station) { return pi * std::pow(0.03 + 0.1 * station, 2); };
  for (const double depth : {0.075, 0.15, 0.3}) {
    const double volume = depth * (area(0) + std::sqrt(area(0) * area(depth)) + area(depth)) / 3;
    CHECK(curve.energy_at(depth) == Approx(0.31e6 * volume).epsilon(5e-5));
    CHECK(curve.force_at(depth) == Approx(0.31e6 * area(depth)).epsilon(5e-5));
  }
  CHECK(curve.crush.front() == 0);
  CHECK(curve.force.front() == Approx(0.31e6 * area(0)).epsilon(1e-9));
  CHECK(curve.bottoming_crush == Approx(0.3).epsilon(1e-12));
  CHECK(never_falls(curve));
}

TEST_CASE("a tip like a needle loses the most to sampling and still keeps the cone's energy to 1e-3") {
  const Envelope needle = between(ellipse(0.0001, 0.0001), ellipse(0.3, 0.3), 0.3);
  const CrushCurve curve =
      imprint_curve(block("block", 1e6, 0.3, 0.9), everywhere, {"needle", &needle, 0, 0}, SeriesEnd::nominal);
  CHECK(curve.energy_at(0.27) == Approx(1e6 * pi * std::pow(0.27, 3) / 12).epsilon(1e-3));
}

TEST_CASE("a structure that draws in again leaves the hole as wide as it was punched") {
  Section middle = rectangle(0.1, 0.1);
  middle.station = 0.1;
  Section end = rectangle(0.05, 0.1);
  end.station = 0.2;
  const Envelope waisted{{rectangle(0.06, 0.1), middle, end}, {}};
  const CrushCurve curve =
      imprint_curve(block("block", 1e6, 0.5, 0.8), everywhere, {"waisted", &waisted, 0, 0}, SeriesEnd::nominal);
  CHECK(never_falls(curve));
  CHECK(curve.force_at(0.05) == Approx(1e6 * 0.08 * 0.1).epsilon(1e-9));
  CHECK(curve.force_at(0.1) == Approx(1e6 * 0.1 * 0.1).epsilon(1e-9));
  CHECK(curve.force_at(0.15) == Approx(1e6 * 0.1 * 0.1).epsilon(1e-9));
  // Deeper than the structure is long: its attachment is not taken to dig in.
  CHECK(curve.force_at(0.35) == Approx(1e6 * 0.1 * 0.1).epsilon(1e-9));
}

TEST_CASE("a change of taper between two samples is not cut off") {
  // Widens to 43.7 mm deep, straight from there; the even samples lie 6.25 mm apart.
  Section shoulder = rectangle(0.1, 0.1);
  shoulder.station = 0.0437;
  Section end = rectangle(0.1, 0.1);
  end.station = 0.5;
  const Envelope body{{rectangle(0.06, 0.1), shoulder, end}, {}};
  const CrushCurve curve =
      imprint_curve(block("block", 1e6, 0.5, 0.8), everywhere, {"body", &body, 0, 0}, SeriesEnd::nominal);
  CHECK(curve.force_at(0.0437) == Approx(1e6 * 0.1 * 0.1).epsilon(1e-12));
  CHECK(curve.energy_at(0.4) == Approx(1e5 * (0.08 * 0.0437 + 0.1 * 0.3563)).epsilon(1e-12));
}

TEST_CASE("only what lies in front of the block is punched") {
  // A bar 100 mm high of which the lower 40 mm meet the block.
  const Envelope beam = bar(rectangle(0.2, 0.1));
  const CrushCurve curve =
      imprint_curve(block("block", 1e6, 0.1, 0.5), {-1, 1, 0, 0.39}, {"bar", &beam, 0, 0.4}, SeriesEnd::nominal);
  CHECK(curve.force_at(0.03) == Approx(1e6 * 0.2 * 0.04).epsilon(1e-9));
  CHECK(curve.energy_at(0.05) == Approx(1e6 * 0.2 * 0.04 * 0.05).epsilon(1e-9));
}

TEST_CASE("a plate takes pressure times area times depth up to its lock") {
  // Crushable face of a moving barrier for rear impacts: 0.310 MPa on 1676 x 559 mm (memory, FMVSS 301) are 290.4 kN
  // (derived); 80 % of 381 mm take 88.5 kJ. Its strip: 1.690 MPa on 1676 x 203 mm are 575.0 kN.
  FaceInput face = flat(1.676, 0.559, 0.279);
  const FaceBlock back = block("block", 0.310e6, 0.381, 0.8, Spread::plate);
  const CrushCurve curve = plate_curve(back, window_of(face, back), SeriesEnd::nominal);
  CHECK(curve.force.front() == Approx(290.4e3).epsilon(2e-4));
  CHECK(curve.force_at(0.3048) == Approx(290.4e3).epsilon(2e-4));
  CHECK(curve.energy_at(0.3048) == Approx(0.310e6 * 1.676 * 0.559 * 0.3048).epsilon(1e-12));
  CHECK(curve.bottoming_crush == Approx(0.3048).epsilon(1e-12));
  CHECK(curve.bottoming_force == Approx(curve.force.front()).epsilon(1e-12));
  CHECK(never_falls(curve));
  FaceBlock strip = block("strip", 1.690e6, 0.102, 0.8, Spread::plate);
  strip.height = value(0.203);
  strip.lower_edge = value(0.330);
  CHECK(plate_curve(strip, window_of(face, strip), SeriesEnd::nominal).force.front() ==
        Approx(575.0e3).epsilon(2e-4));
}

TEST_CASE("a locked block doubles its force within a thousandth of what is left of it") {
  const FaceBlock made = block("block", 1e6, 0.5, 0.8, Spread::plate);
  const CrushCurve curve = plate_curve(made, {-0.5, 0.5, 0, 1}, SeriesEnd::nominal);
  CHECK(curve.force_at(0.4) == Approx(1e6).epsilon(1e-12));
  CHECK(curve.force_at(0.4 + 0.1 / 1000) == Approx(2e6).epsilon(1e-9));
  CHECK(curve.force_at(0.4 + 0.1 / 100) == Approx(11e6).epsilon(1e-9));
  CHECK(curve.elastic_stiffness == Approx(1e6 * 1000 / 0.1).epsilon(1e-12));
}

TEST_CASE("an attachment shortens elastically, crushes at its capacity and locks when its room is used up") {
  AttachmentInput rail;
  rail.capacity = value(95e3);
  rail.stiffness = value(30e6);
  rail.crush_room = value(0.120);
  const CrushCurve curve = attachment_curve(rail, SeriesEnd::nominal);
  const double elastic = 95e3 / 30e6;
  CHECK(curve.force_at(elastic / 2) == Approx(47.5e3).epsilon(1e-12));
  CHECK(curve.force_at(0.06) == Approx(95e3).epsilon(1e-12));
  CHECK(curve.energy_at(0.120) == Approx(95e3 * (0.120 - elastic / 2)).epsilon(1e-12));
  CHECK(curve.bottoming_crush == Approx(0.120).epsilon(1e-12));
  CHECK(curve.force_at(0.120 + 0.00012) == Approx(190e3).epsilon(1e-9));
  CHECK(curve.elastic_stiffness == 30e6);
  CHECK(never_falls(curve));
}

TEST_CASE("an attachment of unknown stiffness is rigid up to its capacity, without room it crushes on and on") {
  AttachmentInput rail;
  rail.capacity = value(95e3);
  const CrushCurve curve = attachment_curve(rail, SeriesEnd::nominal);
  CHECK(curve.force_at(0) == Approx(95e3).epsilon(1e-14));
  CHECK(curve.force_at(5) == Approx(95e3).epsilon(1e-14));
  CHECK(curve.energy_at(5) == Approx(5 * 95e3).epsilon(1e-14));
  CHECK(curve.elastic_stiffness == 0);
  CHECK(curve.bottoming_crush == endless);
  CHECK(never_falls(curve));
}

TEST_CASE("the rest of a body hardens beyond its capacity") {
  RestOfBodyInput rest;
  rest.stiffness = value(12e6);
  rest.capacity = value(260e3);
  rest.hardening = value(0.3e6);
  const double elastic = 260e3 / 12e6;
  const CrushCurve open = rest_of_body_curve(rest, SeriesEnd::nominal);
  CHECK(open.force_at(elastic) == Approx(260e3).epsilon(1e-12));
  CHECK(open.force_at(elastic + 0.1) == Approx(290e3).epsilon(1e-12));
  CHECK(open.force_at(elastic + 3) == Approx(260e3 + 0.9e6).epsilon(1e-12));
  rest.crush_room = value(0.250);
  const CrushCurve bounded = rest_of_body_curve(rest, SeriesEnd::nominal);
  CHECK(bounded.bottoming_crush == Approx(0.250).epsilon(1e-12));
  CHECK(bounded.bottoming_force == Approx(260e3 + 0.3e6 * (0.250 - elastic)).epsilon(1e-12));
  CHECK(never_falls(bounded));
}

TEST_CASE("the ends of stated intervals are taken together") {
  AttachmentInput rail;
  rail.capacity = between_ends(90e3, 95e3, 105e3);
  rail.stiffness = between_ends(20e6, 30e6, 40e6);
  CHECK(attachment_curve(rail, SeriesEnd::low).force_at(1) == Approx(90e3));
  CHECK(attachment_curve(rail, SeriesEnd::low).elastic_stiffness == 20e6);
  CHECK(attachment_curve(rail, SeriesEnd::high).force_at(1) == Approx(105e3));
  CHECK(attachment_curve(rail, SeriesEnd::high).elastic_stiffness == 40e6);
  FaceBlock made = block("block", 1e6, 0.5, 0.8, Spread::plate);
  made.crush_pressure = between_ends(0.9e6, 1e6, 1.2e6);
  const Window square{-0.5, 0.5, 0, 1};
  CHECK(plate_curve(made, square, SeriesEnd::low).force.front() == Approx(0.9e6));
  CHECK(plate_curve(made, square, SeriesEnd::nominal).force.front() == Approx(1e6));
  CHECK(plate_curve(made, square, SeriesEnd::high).force.front() == Approx(1.2e6));
}

TEST_CASE("what locks before it crushes is refused") {
  AttachmentInput rail;
  rail.capacity = value(100e3);
  rail.stiffness = value(10e6);
  rail.crush_room = value(0.01);
  CHECK_THROWS_AS(attachment_curve(rail, SeriesEnd::nominal), OutOfDomain);
}
