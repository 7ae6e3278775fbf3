#include "envelope/section_between.hpp"

#include "crushwright/errors.hpp"

#include <cstddef>
#include <fmt/format.h>

namespace crushwright {

namespace {

double between(double nearer, double farther, double part) {
  return nearer * (1 - part) + farther * part;
}

std::array<double, 2> between(const std::array<double, 2>& nearer, const std::array<double, 2>& farther,
                              double part) {
  return {between(nearer[0], farther[0], part), between(nearer[1], farther[1], part)};
}

/// Loops have no pairs from cut to cut, so the nearer cut's are kept for drawing; every number is linear.
SlicedFigure between(const SlicedFigure& nearer, const SlicedFigure& farther, double part) {
  const SlicedFigure& near = part < 0.5 ? nearer : farther;
  SlicedFigure figure;
  figure.loops = near.loops;
  const SectionProperties& p = nearer.properties;
  const SectionProperties& q = farther.properties;
  figure.properties.area = between(p.area, q.area, part);
  figure.properties.perimeter = between(p.perimeter, q.perimeter, part);
  figure.properties.corner_count = near.properties.corner_count;
  figure.properties.offset_term = between(p.offset_term, q.offset_term, part);
  figure.properties.smallest_width = between(p.smallest_width, q.smallest_width, part);
  figure.centroid = between(nearer.centroid, farther.centroid, part);
  return figure;
}

} // namespace

Section section_between(const Section& nearer, const Section& farther, double part) {
  if (nearer.shape != farther.shape || nearer.corners.size() != farther.corners.size())
    throw OutOfDomain(
        fmt::format("the sections at {:g} m and {:g} m differ in shape or number of corners, so there is "
                    "none between them",
                    nearer.station, farther.station));
  Section section;
  section.station = between(nearer.station, farther.station, part);
  section.shape = nearer.shape;
  section.width = between(nearer.width, farther.width, part);
  section.upper_width = between(nearer.upper_width, farther.upper_width, part);
  section.height = between(nearer.height, farther.height, part);
  section.corner_radius = between(nearer.corner_radius, farther.corner_radius, part);
  section.centre = between(nearer.centre, farther.centre, part);
  if (section.shape == SectionShape::sliced)
    section.figure = between(nearer.figure, farther.figure, part);
  section.corners.reserve(nearer.corners.size());
  for (std::size_t i = 0; i < nearer.corners.size(); ++i)
    section.corners.push_back(between(nearer.corners[i], farther.corners[i], part));
  return section;
}

} // namespace crushwright
