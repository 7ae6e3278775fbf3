#include "crushwright/envelope.hpp"
#include "crushwright/errors.hpp"
#include "envelope/sections.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <utility>

using namespace crushwright;
using namespace sections;

namespace {

Envelope between(Section struck_end, Section attachment, double length) {
  attachment.station = length;
  return {{struck_end, attachment}, {}};
}

/// Volume by Simpson's rule on many stations.
double volume(const Envelope& envelope) {
  constexpr int intervals = 50;
  const double width = envelope.length() / intervals;
  double sum = 0;
  for (int i = 0; i < intervals; ++i)
    for (const auto& [place, weight] : {std::pair{0.0, 1.0}, std::pair{0.5, 4.0}, std::pair{1.0, 1.0}})
      sum += weight / 6 * width * properties_of(section_at(envelope, (i + place) * width)).area;
  return sum;
}

} // namespace

TEST_CASE("a taper of similar sections holds a frustum's volume") {
  const Section small = GENERATE(rectangle(0.09, 0.11), rounded_rectangle(0.09, 0.11, 0.02),
                                 trapezoid(0.12, 0.07, 0.1), ellipse(0.09, 0.14), five_sided(), angle_section());
  const double scale = 1.7;
  Section large = small;
  large.width *= scale;
  large.upper_width *= scale;
  large.height *= scale;
  large.corner_radius *= scale;
  for (auto& corner : large.corners)
    corner = {corner[0] * scale, corner[1] * scale};
  const double length = 0.520;
  const double a0 = properties_of(small).area;
  const double a1 = properties_of(large).area;
  CHECK(a1 == Approx(scale * scale * a0).epsilon(1e-12));
  CHECK(volume(between(small, large, length)) == Approx(length * (a0 + std::sqrt(a0 * a1) + a1) / 3).epsilon(1e-12));
}

TEST_CASE("a taper that changes its aspect holds a prismatoid's volume") {
  const Envelope envelope =
      between(rounded_rectangle(0.09, 0.11, 0.020), rounded_rectangle(0.15, 0.19, 0.030), 0.520);
  // Simpson's rule over the whole length, by hand: half-way the section is 120 x 150 mm with corners of 25 mm.
  const double round = 4 - std::acos(-1.0);
  const double a0 = 0.09 * 0.11 - round * 0.020 * 0.020;
  const double middle = 0.12 * 0.15 - round * 0.025 * 0.025;
  const double a1 = 0.15 * 0.19 - round * 0.030 * 0.030;
  CHECK(volume(envelope) == Approx(0.520 * (a0 + 4 * middle + a1) / 6).epsilon(1e-12));
}

TEST_CASE("a wedge that runs to a line holds its closed-form volume") {
  // Width 100 mm throughout, height from 10 to 110 mm over 300 mm.
  CHECK(volume(between(rectangle(0.1, 0.01), rectangle(0.1, 0.11), 0.3)) == Approx(0.1 * 0.06 * 0.3).epsilon(1e-12));
}

TEST_CASE("the perimeter of a frustum is linear along it") {
  const Envelope cone = between(ellipse(0.08, 0.08), ellipse(0.14, 0.14), 0.4);
  const Envelope box = between(rounded_rectangle(0.09, 0.11, 0.02), rounded_rectangle(0.15, 0.19, 0.03), 0.4);
  for (const double part : {0.0, 0.2, 0.45, 0.9, 1.0}) {
    CHECK(properties_of(section_at(cone, 0.4 * part)).perimeter ==
          Approx(std::acos(-1.0) * (0.08 + 0.06 * part)).epsilon(1e-12));
    const double p0 = properties_of(box.sections.front()).perimeter;
    const double p1 = properties_of(box.sections.back()).perimeter;
    CHECK(properties_of(section_at(box, 0.4 * part)).perimeter == Approx(p0 + (p1 - p0) * part).epsilon(1e-12));
  }
}

TEST_CASE("a given section is met at its own station, from either side") {
  Envelope envelope = between(rectangle(0.08, 0.10), rectangle(0.16, 0.20), 0.5);
  Section waist = rectangle(0.09, 0.19);
  waist.station = 0.12;
  waist.centre = {0.01, 0.03};
  envelope.sections.insert(envelope.sections.begin() + 1, waist);
  const Section met = section_at(envelope, 0.12);
  CHECK(met.station == 0.12);
  CHECK(met.width == Approx(0.09).epsilon(1e-15));
  CHECK(met.height == Approx(0.19).epsilon(1e-15));
  CHECK(met.centre[0] == Approx(0.01).epsilon(1e-15));
  CHECK(section_at(envelope, 0.12 - 1e-9).height == Approx(0.19).epsilon(1e-7));
  CHECK(section_at(envelope, 0.12 + 1e-9).height == Approx(0.19).epsilon(1e-7));
  // Half-way between the first two and a quarter of the way between the last two.
  CHECK(section_at(envelope, 0.06).width == Approx(0.085).epsilon(1e-14));
  CHECK(section_at(envelope, 0.06).centre[1] == Approx(0.015).epsilon(1e-14));
  CHECK(section_at(envelope, 0.215).height == Approx(0.1925).epsilon(1e-14));
}

TEST_CASE("corners of a polygon move on straight lines") {
  const Envelope envelope =
      between(polygon({{0, 0}, {0.1, 0}, {0, 0.1}}), polygon({{0.02, 0}, {0.2, 0.04}, {0, 0.3}}), 0.4);
  const Section middle = section_at(envelope, 0.1);
  CHECK(middle.corners[0][0] == Approx(0.005).epsilon(1e-14));
  CHECK(middle.corners[1][1] == Approx(0.01).epsilon(1e-14));
  CHECK(middle.corners[2][1] == Approx(0.15).epsilon(1e-14));
}

TEST_CASE("a station outside the length is refused, one beside it by rounding is taken") {
  const Envelope envelope = between(rectangle(0.08, 0.10), rectangle(0.16, 0.20), 0.5);
  CHECK_THROWS_MATCHES(
      section_at(envelope, 0.51), OutOfDomain,
      Catch::Matchers::Message("a section was asked for at station 0.51 m of an envelope that runs from 0 to 0.5 m"));
  CHECK_THROWS_AS(section_at(envelope, -0.001), OutOfDomain);
  CHECK_THROWS_AS(section_at(envelope, std::nan("")), OutOfDomain);
  CHECK(section_at(envelope, 0.5 + 1e-13).width == Approx(0.16).epsilon(1e-15));
  CHECK(section_at(envelope, -1e-13).width == Approx(0.08).epsilon(1e-15));
}

TEST_CASE("sections of different corner counts have none between them") {
  CHECK_THROWS_AS(section_at(between(regular_polygon(5, 0.1), regular_polygon(6, 0.1), 0.4), 0.2), OutOfDomain);
}
