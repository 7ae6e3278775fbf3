#include "envelope/sliced_figure.hpp"

#include "envelope/folding_corners.hpp"
#include "envelope/polygon.hpp"

#include <cmath>
#include <cstddef>
#include <utility>

namespace crushwright {

namespace {

double length_around(const Polygon& loop) {
  double length = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Point& next = loop[(i + 1) % loop.size()];
    length += std::hypot(next[0] - loop[i][0], next[1] - loop[i][1]);
  }
  return length;
}

/// Σ tan(turn / 2): a mitred corner adds it, and many small turns of a smooth curve add half their angle.
double offset_term_of(const Polygon& loop) {
  double term = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Point& before = loop[(i + loop.size() - 1) % loop.size()];
    const Point& here = loop[i];
    const Point& after = loop[(i + 1) % loop.size()];
    const Point in{here[0] - before[0], here[1] - before[1]}, out{after[0] - here[0], after[1] - here[1]};
    const double lengths = std::hypot(in[0], in[1]) * std::hypot(out[0], out[1]);
    const double cosine = (in[0] * out[0] + in[1] * out[1]) / lengths;
    const double sine = (in[0] * out[1] - in[1] * out[0]) / lengths;
    term += sine / (1 + cosine);
  }
  return term;
}

} // namespace

SlicedFigure sliced_figure(std::vector<Polygon> loops) {
  SlicedFigure figure;
  SectionProperties& properties = figure.properties;
  Point moment{0, 0};
  for (const Polygon& loop : loops) {
    const double area = signed_area(loop), around = length_around(loop);
    const Point centre = centroid(loop);
    moment[0] += area * centre[0];
    moment[1] += area * centre[1];
    properties.area += area;
    properties.perimeter += around;
    // Rounding turns points that all but coincide any way; the turning is that of the loop without them.
    properties.offset_term += offset_term_of(without_straight_corners(loop, 1e-7 * around));
    properties.corner_count += folding_corners(loop);
  }
  figure.centroid = centroid(loops.front());
  if (properties.area > 0)
    figure.centroid = {moment[0] / properties.area, moment[1] / properties.area};
  properties.smallest_width = smallest_width(loops.front());
  figure.loops = std::make_shared<const std::vector<Polygon>>(std::move(loops));
  return figure;
}

} // namespace crushwright
