#include "packaging/triangle_pieces.hpp"

#include <algorithm>
#include <cstddef>

namespace crushwright {

namespace {

using Figure = std::vector<Place>;

/// The part of a convex plane figure on one side of a station.
Figure part_of(const Figure& figure, double station, bool below) {
  Figure part;
  for (std::size_t i = 0; i < figure.size(); ++i) {
    const Place& here = figure[i];
    const Place& next = figure[(i + 1) % figure.size()];
    const auto stays = [&](const Place& place) { return below ? place[0] <= station : place[0] >= station; };
    if (stays(here))
      part.push_back(here);
    if ((here[0] < station && next[0] > station) || (here[0] > station && next[0] < station)) {
      const double along = (station - here[0]) / (next[0] - here[0]);
      part.push_back({station, here[1] + along * (next[1] - here[1]), here[2] + along * (next[2] - here[2])});
    }
  }
  return part;
}

void add_fan(const Figure& figure, std::vector<Corners3>& pieces) {
  for (std::size_t i = 1; i + 1 < figure.size(); ++i)
    pieces.push_back({figure[0], figure[i], figure[i + 1]});
}

} // namespace

std::vector<Corners3> triangle_pieces(const TriangleMesh& mesh, const std::vector<double>& borders) {
  std::vector<Corners3> pieces;
  pieces.reserve(mesh.triangles.size());
  for (const auto& triangle : mesh.triangles) {
    Figure rest;
    for (const std::int32_t place : triangle)
      rest.push_back(mesh.points[static_cast<std::size_t>(place)]);
    const auto [low, high] =
        std::minmax_element(rest.begin(), rest.end(), [](const Place& a, const Place& b) { return a[0] < b[0]; });
    const double last = (*high)[0];
    for (auto border = std::upper_bound(borders.begin(), borders.end(), (*low)[0]);
         border != borders.end() && *border < last; ++border) {
      add_fan(part_of(rest, *border, true), pieces);
      rest = part_of(rest, *border, false);
    }
    add_fan(rest, pieces);
  }
  return pieces;
}

} // namespace crushwright
