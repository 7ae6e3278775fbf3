#include "crushwright/errors.hpp"
#include "crushwright/printability.hpp"
#include "printability/body_points.hpp"
#include "printability/build_cost.hpp"
#include "printability/build_fit.hpp"
#include "printability/machine_limits.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

/// Radius of the thickest strut at each node; 0 where none ends.
std::vector<double> node_radii(const StrutBody& body) {
  std::vector<double> radius(body.nodes.size(), 0);
  const auto widen = [&](std::int32_t node, double to) {
    double& own = radius.at(static_cast<std::size_t>(node));
    own = std::max(own, to);
  };
  for (const BodyStrut& strut : body.struts) {
    widen(strut.from, strut.from_radius);
    widen(strut.to, strut.to_radius);
  }
  return radius;
}

} // namespace

std::vector<Vector> extreme_points(const PrintedBody& body, const Vector& direction) {
  std::vector<Vector> points;
  if (body.surface != nullptr)
    points = body.surface->points;
  else if (body.struts != nullptr) {
    const std::array<Vector, 2> horizontal = across(direction);
    const std::vector<double> radius = node_radii(*body.struts);
    for (std::size_t node = 0; node < radius.size(); ++node)
      if (radius[node] > 0)
        for (const Vector& way : {direction, horizontal[0], horizontal[1]})
          for (const double side : {-radius[node], radius[node]}) {
            const Vector& centre = body.struts->nodes[node];
            points.push_back({centre[0] + side * way[0], centre[1] + side * way[1], centre[2] + side * way[2]});
          }
  }
  if (points.empty())
    throw OutOfDomain("a body without a strut and without a triangle has no build direction to judge");
  return points;
}

double lowest_along(const std::vector<Vector>& points, const Vector& direction) {
  double lowest = std::numeric_limits<double>::infinity();
  for (const Vector& point : points)
    lowest = std::min(lowest, dot(point, direction));
  return lowest;
}

BodyPrintFigures print_figures(const PrintedBody& body, const PrintingInput& printing) {
  const double angle = printing.machine.self_supporting_angle.value;
  BodyPrintFigures figures;
  figures.direction = printing.build_direction;
  const std::vector<Vector> points = extreme_points(body, figures.direction);
  if (body.struts != nullptr) {
    figures.lattice =
        support_of(*body.struts, figures.direction, angle, body.held, lowest_along(points, figures.direction));
    figures.thinnest_strut = std::numeric_limits<double>::infinity();
    for (const BodyStrut& strut : body.struts->struts)
      figures.thinnest_strut = std::min(figures.thinnest_strut, 2 * std::min(strut.from_radius, strut.to_radius));
    if (body.struts->struts.empty())
      figures.thinnest_strut = 0;
  }
  if (body.surface != nullptr)
    figures.overhang = overhang_of(*body.surface, figures.direction, angle);
  const Placement placement = placement_of(points, figures.direction, printing.machine.build_volume);
  figures.fit_judged = printing.machine.build_volume.has_value();
  figures.fits = placement.fits;
  figures.place = placement.piece;
  figures.build_height = placement.piece.height;
  if (printing.rates && placement.fits && body.volume > 0) {
    const BuildWork work{{figures.build_height}, body.volume, body.mass, body.metal_surface};
    figures.time = build_time(work, *printing.rates);
    figures.cost = build_cost(work, *printing.rates);
  }
  if (!figures.fits)
    figures.faults.push_back(
        fmt::format("Built along {} it does not fit the machine.", direction_text(figures.direction)));
  if (figures.thinnest_strut > 0)
    add_fault(figures.faults, thin_feature_fault(printing.machine, figures.thinnest_strut, "thinnest strut"));
  add_fault(figures.faults, span_fault(printing.machine, figures.lattice.longest_span));
  return figures;
}

} // namespace crushwright
