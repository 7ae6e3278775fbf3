#include "crushwright/envelope.hpp"
#include "crushwright/errors.hpp"
#include "envelope/polygon.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fmt/format.h>
#include <numbers>
#include <string_view>

namespace crushwright {

namespace {

constexpr double pi = std::numbers::pi;
// Sections between two stations meet their limits only to rounding.
constexpr double rounding = 1e-9;
const double folding_turn = 20 * pi / 180; // our convention, docs/method/envelope.md

void require_positive(double value, std::string_view name) {
  if (!(value > 0) || !std::isfinite(value))
    throw OutOfDomain(fmt::format("the {} of a section must be positive, but is {:g} m", name, value));
}

SectionProperties rectangle(double width, double height) {
  SectionProperties section;
  section.area = width * height;
  section.perimeter = 2 * (width + height);
  section.corner_count = 4;
  section.offset_term = 4;
  section.smallest_width = std::min(width, height);
  return section;
}

SectionProperties rounded_rectangle(const Section& given) {
  SectionProperties section = rectangle(given.width, given.height);
  const double largest = section.smallest_width / 2;
  const double radius = given.corner_radius;
  if (!(radius >= 0 && radius <= largest * (1 + rounding)))
    throw OutOfDomain(
        fmt::format("the corner radius of a section must lie between 0 and half its smaller side, {:g} m, "
                    "but is {:g} m",
                    largest, radius));
  if (radius == 0)
    return section;
  section.area -= (4 - pi) * radius * radius;
  section.perimeter -= (8 - 2 * pi) * radius;
  section.offset_term = pi;
  section.corner_radius = radius;
  section.sharp_corner_term = 4 - pi;
  if (radius >= largest * (1 - rounding))
    section.corner_count = 0;
  return section;
}

SectionProperties trapezoid(double lower, double upper, double height) {
  const double overhang = (lower - upper) / 2;
  const double leg = std::hypot(height, overhang);
  SectionProperties section;
  section.area = height * (lower + upper) / 2;
  section.perimeter = lower + upper + 2 * leg;
  // Two corners turn by 90 degrees plus the legs' lean, two by 90 degrees less it.
  section.offset_term = 4 * leg / height;
  const double lean = std::atan2(std::abs(overhang), height);
  section.corner_count = pi / 2 - lean > folding_turn ? 4 : 2;
  const double across_legs = std::max(lower, upper) * height / leg;
  section.smallest_width = std::min(height, across_legs);
  return section;
}

SectionProperties ellipse(double width, double height) {
  const double larger = std::max(width, height) / 2;
  const double smaller = std::min(width, height) / 2;
  const double ratio = smaller / larger;
  SectionProperties section;
  section.area = pi * larger * smaller;
  section.perimeter = 4 * larger * std::comp_ellint_2(std::sqrt((1 - ratio) * (1 + ratio)));
  section.offset_term = pi;
  section.smallest_width = 2 * smaller;
  return section;
}

SectionProperties polygon(const Polygon& corners) {
  if (corners.size() < 3)
    throw OutOfDomain(fmt::format("a polygon needs three corners or more, but has {}", corners.size()));
  SectionProperties section;
  section.area = signed_area(corners);
  if (!(section.area > 0))
    throw OutOfDomain(fmt::format(
        "the corners of a polygon must go counter-clockwise, but enclose {:g} m^2 so counted", section.area));
  const std::size_t count = corners.size();
  for (std::size_t i = 0; i < count; ++i) {
    const Point& before = corners[(i + count - 1) % count];
    const Point& corner = corners[i];
    const Point& after = corners[(i + 1) % count];
    const Point in{corner[0] - before[0], corner[1] - before[1]};
    const Point out{after[0] - corner[0], after[1] - corner[1]};
    const double length = std::hypot(out[0], out[1]);
    require_positive(length, "edge");
    const double lengths = std::hypot(in[0], in[1]) * length;
    const double cosine = (in[0] * out[0] + in[1] * out[1]) / lengths;
    const double sine = (in[0] * out[1] - in[1] * out[0]) / lengths;
    section.perimeter += length;
    section.offset_term += sine / (1 + cosine); // tangent of half the turn
    if (cosine < std::cos(folding_turn))
      ++section.corner_count;
  }
  section.smallest_width = smallest_width(corners);
  return section;
}

} // namespace

SectionProperties properties_of(const Section& section) {
  if (section.shape == SectionShape::polygon)
    return polygon(section.corners);
  if (section.shape == SectionShape::sliced) {
    require_positive(section.figure.properties.perimeter, "outline");
    return section.figure.properties;
  }
  require_positive(section.width, "width");
  require_positive(section.height, "height");
  switch (section.shape) {
  case SectionShape::rounded_rectangle:
    return rounded_rectangle(section);
  case SectionShape::trapezoid:
    require_positive(section.upper_width, "upper width");
    return trapezoid(section.width, section.upper_width, section.height);
  case SectionShape::ellipse:
    return ellipse(section.width, section.height);
  case SectionShape::rectangle:
  case SectionShape::polygon:
  case SectionShape::sliced:
    break;
  }
  return rectangle(section.width, section.height);
}

double area_inside(const SectionProperties& section, double thickness) {
  if (!(thickness >= 0))
    throw OutOfDomain(fmt::format("the thickness of a skin must not be negative, but is {:g} m", thickness));
  // Past its lowest point the quadratic rises again, though nothing is left inside.
  const bool past_lowest = 2 * section.offset_term * thickness >= section.perimeter;
  if (2 * thickness >= section.smallest_width || past_lowest)
    return 0;
  const double past_radius = std::max(0.0, thickness - section.corner_radius);
  const double left = section.area - section.perimeter * thickness + section.offset_term * thickness * thickness +
                      section.sharp_corner_term * past_radius * past_radius;
  return std::max(0.0, left);
}

} // namespace crushwright
