#include "unit_cell/surface_samples.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace crushwright {
namespace {

/// Flat indices of the samples that symmetry makes equal to one; a sample is worked on where its own is the least.
class Orbit {
public:
  Orbit(int n, bool both_ends) : n_(static_cast<std::size_t>(n)), both_ends_(both_ends) {}

  /// @return number of distinct indices in `members`; 0 when the sample belongs to another one's orbit.
  std::size_t find(int x, int y, int z, std::array<std::size_t, 6>& members) const {
    const std::array<std::size_t, 3> p{std::size_t(x), std::size_t(y), std::size_t(z)};
    const std::size_t own = flat(p[0], p[1], p[2]);
    std::size_t count = 0;
    for (std::size_t turn = 0; turn < 3; ++turn) {
      const std::size_t a = p[turn], b = p[(turn + 1) % 3], c = p[(turn + 2) % 3];
      if (!add(flat(a, b, c), own, members, count) ||
          (both_ends_ && !add(flat(n_ - 1 - a, n_ - 1 - b, n_ - 1 - c), own, members, count)))
        return 0;
    }
    return count;
  }

private:
  std::size_t n_;
  bool both_ends_;

  std::size_t flat(std::size_t x, std::size_t y, std::size_t z) const { return (z * n_ + y) * n_ + x; }
  static bool add(std::size_t index, std::size_t own, std::array<std::size_t, 6>& members, std::size_t& count) {
    if (index < own)
      return false;
    const auto end = members.begin() + static_cast<std::ptrdiff_t>(count);
    if (std::find(members.begin(), end, index) == end)
      members[count++] = index;
    return true;
  }
};

} // namespace

void visit_near_surface(SheetSurface surface, double level, bool signed_side, int n, double reach, int layer,
                        const SampleVisitor& visitor) {
  const double h = 1.0 / n;
  const double steepest = steepest_slope(surface) * reach;
  const double wave = 2 * std::numbers::pi;
  std::vector<double> sines(static_cast<std::size_t>(n)), cosines(static_cast<std::size_t>(n));
  for (int i = 0; i < n; ++i) {
    sines[std::size_t(i)] = std::sin(wave * h * (i + 0.5));
    cosines[std::size_t(i)] = std::cos(wave * h * (i + 0.5));
  }
  // f(-x) is ± f(x), so the two ends tell apart which side a sample is on, but not how far the middle surface is.
  const Orbit orbit(n, level == 0 && !signed_side);
  std::array<std::size_t, 6> members{};
  const int z = layer;
  for (int y = 0; y < n; ++y)
    for (int x = 0; x < n; ++x) {
      const std::size_t count = orbit.find(x, y, z, members);
      if (count == 0)
        continue;
      const std::array<std::size_t, 3> p{std::size_t(x), std::size_t(y), std::size_t(z)};
      const double height = surface_value(surface, {sines[p[0]], sines[p[1]], sines[p[2]]},
                                          {cosines[p[0]], cosines[p[1]], cosines[p[2]]}) -
                            level;
      const bool inside = signed_side && height > 0;
      double distance = reach;
      bool near = std::abs(height) <= steepest;
      if (near) {
        distance = distance_to_level(surface, level, {h * (x + 0.5), h * (y + 0.5), h * (z + 0.5)});
        near = distance <= reach;
      }
      if (!near && !inside)
        continue;
      const double value = inside ? -std::min(distance, reach) : distance;
      for (std::size_t i = 0; i < count; ++i)
        visitor(members[i], value);
    }
}

} // namespace crushwright
