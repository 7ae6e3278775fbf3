#include "surface/surface_cut.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace crushwright {
namespace {

using Edge = std::array<std::int32_t, 2>; // the lower place first
using Loop = std::vector<std::array<double, 2>>;

/// A plane, and on which side of it a corner in the plane itself counts: as if the plane were moved towards the
/// middle of the mesh by less than any length. No coordinate changes, and loops close by the mesh's edges alone.
struct Plane {
  double station = 0;
  bool in_plane_is_above = false;

  bool above(double x) const { return in_plane_is_above ? x >= station : x > station; }
};

/// One triangle's part in a cut: it comes in over one edge and goes out over another, with the solid to its left.
struct Step {
  Edge in;
  Edge out;
};

Edge edge_of(std::int32_t a, std::int32_t b) {
  return {std::min(a, b), std::max(a, b)};
}

/// Two equal edges when all corners are on one side.
Step step_of(const TriangleMesh& mesh, const std::array<std::int32_t, 3>& triangle, const Plane& plane) {
  Step step{{-1, -1}, {-1, -1}};
  for (std::size_t i = 0; i < 3; ++i) {
    const std::int32_t here = triangle[i], next = triangle[(i + 1) % 3];
    const bool here_above = plane.above(mesh.points[std::size_t(here)][0]);
    const bool next_above = plane.above(mesh.points[std::size_t(next)][0]);
    if (here_above && !next_above)
      step.in = edge_of(here, next);
    if (!here_above && next_above)
      step.out = edge_of(here, next);
  }
  return step;
}

/// From the lower place to the higher one, so that both triangles of an edge give the same point.
std::array<double, 2> point_on(const TriangleMesh& mesh, const Edge& edge, double station) {
  const auto& a = mesh.points[std::size_t(edge[0])];
  const auto& b = mesh.points[std::size_t(edge[1])];
  if (a[0] == station)
    return {a[1], a[2]};
  if (b[0] == station)
    return {b[1], b[2]};
  const double part = (station - a[0]) / (b[0] - a[0]);
  return {a[1] + part * (b[1] - a[1]), a[2] + part * (b[2] - a[2])};
}

double twice_area(const Loop& loop) {
  double sum = 0;
  for (std::size_t i = 1; i + 1 < loop.size(); ++i)
    sum += (loop[i][0] - loop[0][0]) * (loop[i + 1][1] - loop[0][1]) -
           (loop[i][1] - loop[0][1]) * (loop[i + 1][0] - loop[0][0]);
  return sum;
}

/// A corner in the plane is met by several edges; it stays once.
Loop without_repeats(Loop loop) {
  loop.erase(std::unique(loop.begin(), loop.end()), loop.end());
  while (loop.size() > 1 && loop.back() == loop.front())
    loop.pop_back();
  return loop;
}

std::vector<Loop> loops_of(const TriangleMesh& mesh, std::vector<Step>& steps, double station) {
  std::sort(steps.begin(), steps.end(), [](const Step& a, const Step& b) { return a.in < b.in; });
  std::vector<char> used(steps.size(), 0);
  std::vector<Loop> loops;
  for (std::size_t start = 0; start < steps.size(); ++start) {
    Loop loop;
    for (std::size_t at = start; !used[at];) {
      used[at] = 1;
      loop.push_back(point_on(mesh, steps[at].in, station));
      const auto next = std::lower_bound(steps.begin(), steps.end(), steps[at].out,
                                         [](const Step& step, const Edge& edge) { return step.in < edge; });
      if (next == steps.end() || next->in != steps[at].out)
        throw OutOfDomain(fmt::format("the cut at {:.6g} does not close: the surface is open there", station));
      at = static_cast<std::size_t>(next - steps.begin());
    }
    loop = without_repeats(std::move(loop));
    if (loop.size() >= 3 && twice_area(loop) != 0)
      loops.push_back(std::move(loop));
  }
  std::stable_sort(loops.begin(), loops.end(),
                   [](const Loop& a, const Loop& b) { return std::abs(twice_area(a)) > std::abs(twice_area(b)); });
  return loops;
}

/// The planes in rising order of station.
std::vector<Plane> planes_at(const TriangleMesh& mesh, const std::vector<double>& stations) {
  const auto [low, high] = std::minmax_element(mesh.points.begin(), mesh.points.end(),
                                               [](const auto& a, const auto& b) { return a[0] < b[0]; });
  std::vector<Plane> planes;
  for (double station : stations)
    planes.push_back({station, low != mesh.points.end() && station > 0.5 * ((*low)[0] + (*high)[0])});
  return planes;
}

} // namespace

std::vector<SurfaceCut> cuts_across(const TriangleMesh& mesh, const std::vector<double>& stations) {
  std::vector<std::size_t> order(stations.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return stations[a] < stations[b]; });
  std::vector<double> rising;
  for (std::size_t place : order)
    rising.push_back(stations[place]);
  const std::vector<Plane> planes = planes_at(mesh, rising);
  std::vector<std::vector<Step>> steps(planes.size());
  for (const auto& triangle : mesh.triangles) {
    const auto x = [&](std::size_t i) { return mesh.points[std::size_t(triangle[i])][0]; };
    const auto [low, high] = std::minmax({x(0), x(1), x(2)});
    const auto first = std::lower_bound(rising.begin(), rising.end(), low);
    for (auto at = static_cast<std::size_t>(first - rising.begin()); at < rising.size() && rising[at] <= high; ++at) {
      const Step step = step_of(mesh, triangle, planes[at]);
      if (step.in != step.out)
        steps[at].push_back(step);
    }
  }
  std::vector<SurfaceCut> cuts(stations.size());
  for (std::size_t at = 0; at < planes.size(); ++at)
    cuts[order[at]] = {rising[at], loops_of(mesh, steps[at], rising[at])};
  return cuts;
}

} // namespace crushwright
