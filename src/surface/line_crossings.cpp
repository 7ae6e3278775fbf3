#include "surface/line_crossings.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Lines = std::vector<std::vector<LineCrossing>>;

struct Flat {
  double u, v;
};

double turn_of(const Flat& a, const Flat& b, const Flat& p) {
  return (b.u - a.u) * (p.v - a.v) - (b.v - a.v) * (p.u - a.u);
}

/// Places of the sorted values inside [low, high].
std::pair<std::size_t, std::size_t> between(const std::vector<double>& values, double low, double high) {
  const auto begin = std::lower_bound(values.begin(), values.end(), low);
  const auto end = std::upper_bound(begin, values.end(), high);
  return {static_cast<std::size_t>(begin - values.begin()), static_cast<std::size_t>(end - values.begin())};
}

void cross_triangle(const std::array<std::array<double, 3>, 3>& corners, std::size_t axis,
                    const std::vector<double>& first, const std::vector<double>& second, Lines& lines) {
  std::array<Flat, 3> flat{};
  for (std::size_t i = 0; i < 3; ++i)
    flat[i] = {corners[i][(axis + 1) % 3], corners[i][(axis + 2) % 3]};
  const double area = turn_of(flat[0], flat[1], flat[2]);
  if (area == 0)
    return;
  const auto [low_u, high_u] = std::minmax({flat[0].u, flat[1].u, flat[2].u});
  const auto [low_v, high_v] = std::minmax({flat[0].v, flat[1].v, flat[2].v});
  const auto [begin_u, end_u] = between(first, low_u, high_u);
  const auto [begin_v, end_v] = between(second, low_v, high_v);
  for (std::size_t v = begin_v; v < end_v; ++v)
    for (std::size_t u = begin_u; u < end_u; ++u) {
      const Flat p{first[u], second[v]};
      const double w0 = turn_of(flat[1], flat[2], p) / area;
      const double w1 = turn_of(flat[2], flat[0], p) / area;
      const double w2 = turn_of(flat[0], flat[1], p) / area;
      if (!(w0 > 0 && w1 > 0 && w2 > 0))
        continue;
      // The normal's part along the axis has the sign of the area; against the line's way it is an entry.
      lines[v * first.size() + u].push_back(
          {w0 * corners[0][axis] + w1 * corners[1][axis] + w2 * corners[2][axis], area < 0 ? 1 : -1});
    }
}

bool balanced(const Lines& lines) {
  return std::all_of(lines.begin(), lines.end(), [](const std::vector<LineCrossing>& line) {
    int sum = 0;
    for (const LineCrossing& crossing : line)
      sum += crossing.turn;
    return sum == 0;
  });
}

std::vector<double> moved(std::vector<double> values, double by) {
  for (double& value : values)
    value += by;
  return values;
}

} // namespace

std::vector<std::vector<LineCrossing>> line_crossings(const TriangleMesh& mesh, std::size_t axis,
                                                      const std::vector<double>& first,
                                                      const std::vector<double>& second) {
  for (int attempt = 1; attempt <= 8; ++attempt) {
    const std::vector<double> places_u = moved(first, 3.7e-8 * attempt);
    const std::vector<double> places_v = moved(second, 5.3e-8 * attempt);
    Lines lines(first.size() * second.size());
    for (const auto& triangle : mesh.triangles)
      cross_triangle({mesh.points[std::size_t(triangle[0])], mesh.points[std::size_t(triangle[1])],
                      mesh.points[std::size_t(triangle[2])]},
                     axis, places_u, places_v, lines);
    if (!balanced(lines))
      continue;
    for (auto& line : lines)
      std::sort(line.begin(), line.end(), [](const LineCrossing& a, const LineCrossing& b) { return a.at < b.at; });
    return lines;
  }
  throw OutOfDomain("lines through the mesh enter it without leaving it: it is not closed");
}

bool inside_at(const std::vector<LineCrossing>& crossings, double place) {
  int inside = 0;
  for (const LineCrossing& crossing : crossings) {
    if (crossing.at > place)
      break;
    inside += crossing.turn;
  }
  return inside > 0;
}

} // namespace crushwright
