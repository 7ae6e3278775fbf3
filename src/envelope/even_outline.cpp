#include "envelope/even_outline.hpp"

#include <cmath>

namespace crushwright {
namespace {

using Corner = std::array<double, 2>;

struct Start {
  std::size_t edge = 0; ///< from this corner to the next
  Corner place{};
};

/// Where the outline crosses the line to the left of its centroid, farthest out.
Start start_of(const std::vector<Corner>& loop, const Corner& centroid) {
  Start start{0, loop.front()};
  double farthest = centroid[0];
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Corner &a = loop[i], &b = loop[(i + 1) % loop.size()];
    if ((a[1] <= centroid[1]) == (b[1] <= centroid[1]))
      continue;
    const double y = a[0] + (b[0] - a[0]) * (centroid[1] - a[1]) / (b[1] - a[1]);
    if (y > farthest) {
      farthest = y;
      start = {i, {y, centroid[1]}};
    }
  }
  return start;
}

/// The loop as a closed walk that begins and ends at the start.
std::vector<Corner> walk_from(const Start& start, const std::vector<Corner>& loop) {
  std::vector<Corner> walk{start.place};
  for (std::size_t i = 1; i <= loop.size(); ++i)
    walk.push_back(loop[(start.edge + i) % loop.size()]);
  walk.push_back(start.place);
  return walk;
}

double distance(const Corner& a, const Corner& b) {
  return std::hypot(b[0] - a[0], b[1] - a[1]);
}

} // namespace

std::vector<std::array<double, 2>> even_outline(const Section& section, std::size_t points) {
  const std::vector<Corner> loop = outline(section);
  const std::vector<Corner> walk = walk_from(start_of(loop, centroid_of(section)), loop);
  double length = 0;
  for (std::size_t i = 0; i + 1 < walk.size(); ++i)
    length += distance(walk[i], walk[i + 1]);
  std::vector<Corner> even;
  std::size_t piece = 0;
  double walked = 0; // to the start of the piece
  for (std::size_t k = 0; k < points; ++k) {
    const double wanted = length * static_cast<double>(k) / static_cast<double>(points);
    while (piece + 2 < walk.size() && walked + distance(walk[piece], walk[piece + 1]) < wanted) {
      walked += distance(walk[piece], walk[piece + 1]);
      ++piece;
    }
    const double whole = distance(walk[piece], walk[piece + 1]);
    const double part = whole > 0 ? (wanted - walked) / whole : 0;
    even.push_back({walk[piece][0] + part * (walk[piece + 1][0] - walk[piece][0]),
                    walk[piece][1] + part * (walk[piece + 1][1] - walk[piece][1])});
  }
  return even;
}

} // namespace crushwright
