#include "envelope/outline_places.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace crushwright {

namespace {

constexpr double pi = std::numbers::pi;

// Outlines are taken at every layer with one of two numbers of points, so the directions of these are kept: steps of
// a quarter for outline()'s usual 72 points and for the 144 of a beam's section.
constexpr std::size_t usual_steps = 18, fine_steps = 36;

/// Cosine and sine of the places of a quarter turn that a corner's arc goes through.
Polygon arc_of_corner(std::size_t corner, std::size_t steps) {
  Polygon arc;
  for (std::size_t i = 0; i <= steps; ++i) {
    const double angle =
        pi / 2 * (static_cast<double>(corner) - 1 + static_cast<double>(i) / static_cast<double>(steps));
    arc.push_back({std::cos(angle), std::sin(angle)});
  }
  return arc;
}

std::array<Polygon, 4> arcs_of_corners(std::size_t steps) {
  return {arc_of_corner(0, steps), arc_of_corner(1, steps), arc_of_corner(2, steps), arc_of_corner(3, steps)};
}

/// The kept ones; null for any other number of steps.
const std::array<Polygon, 4>* kept_arcs(std::size_t steps) {
  static const std::array<Polygon, 4> usual = arcs_of_corners(usual_steps), fine = arcs_of_corners(fine_steps);
  return steps == usual_steps ? &usual : steps == fine_steps ? &fine : nullptr;
}

Polygon rectangle(double width, double height) {
  const double y = width / 2;
  const double z = height / 2;
  return {{y, -z}, {y, z}, {-y, z}, {-y, -z}};
}

/// Four arcs; where a flat has gone, the end of one is the start of the next, and without a radius each is one place.
Polygon rounded_rectangle(const Section& section, std::size_t points) {
  const double radius = section.corner_radius;
  const std::size_t steps = points / 4;
  Polygon line;
  line.reserve(points + 4);
  const auto* kept = kept_arcs(steps);
  const Polygon corners = rectangle(section.width - 2 * radius, section.height - 2 * radius);
  for (std::size_t corner = 0; corner < 4; ++corner) {
    const Polygon own = kept == nullptr ? arc_of_corner(corner, steps) : Polygon{};
    for (const Point& direction : kept == nullptr ? own : (*kept)[corner]) {
      line.push_back({corners[corner][0] + radius * direction[0], corners[corner][1] + radius * direction[1]});
    }
  }
  return line;
}

Polygon trapezoid(double lower, double upper, double height) {
  const double z = height / 2;
  return {{lower / 2, -z}, {upper / 2, z}, {-upper / 2, z}, {-lower / 2, -z}};
}

Polygon ellipse(double width, double height, std::size_t points) {
  Polygon line;
  line.reserve(points);
  for (std::size_t i = 0; i < points; ++i) {
    const double angle = 2 * pi * static_cast<double>(i) / static_cast<double>(points);
    line.push_back({width / 2 * std::cos(angle), height / 2 * std::sin(angle)});
  }
  return line;
}

Polygon about_own_origin(const Section& section, std::size_t points) {
  switch (section.shape) {
  case SectionShape::rounded_rectangle:
    return rounded_rectangle(section, points);
  case SectionShape::trapezoid:
    return trapezoid(section.width, section.upper_width, section.height);
  case SectionShape::ellipse:
    return ellipse(section.width, section.height, points);
  case SectionShape::polygon:
    return section.corners;
  case SectionShape::sliced:
    return section.figure.loops->front();
  case SectionShape::rectangle:
    break;
  }
  return rectangle(section.width, section.height);
}

void drop_coincident(Polygon& line, double same) {
  const auto coincide = [same](const Point& p, const Point& q) {
    const double y = p[0] - q[0], z = p[1] - q[1];
    return y * y + z * z < same * same;
  };
  line.erase(std::unique(line.begin(), line.end(), coincide), line.end());
  if (coincide(line.front(), line.back()))
    line.pop_back();
}

} // namespace

Polygon outline_places(const Section& section, std::size_t points) {
  properties_of(section); // refuses what has no outline
  constexpr std::size_t fewest = 12;
  Polygon line = about_own_origin(section, std::max(points, fewest));
  for (Point& point : line) {
    point[0] += section.centre[0];
    point[1] += section.centre[1];
  }
  return line;
}

std::vector<std::array<double, 2>> outline(const Section& section, std::size_t points) {
  Polygon line = outline_places(section, points);
  if (section.shape == SectionShape::rounded_rectangle)
    drop_coincident(line, 1e-9 * std::max(section.width, section.height));
  return line;
}

} // namespace crushwright
