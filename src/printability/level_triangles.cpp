#include "printability/level_triangles.hpp"

#include <cstdint>
#include <numbers>

namespace crushwright {
namespace {

/// The six tetrahedra about a cube's diagonal, by its corners; corner bits are x, y, z.
constexpr std::array<std::array<std::uint8_t, 4>, 6> tetrahedra{
    {{0, 1, 3, 7}, {0, 3, 2, 7}, {0, 2, 6, 7}, {0, 6, 4, 7}, {0, 4, 5, 7}, {0, 5, 1, 7}}};

struct Corner {
  Vector place;
  double height; ///< f - level
};

Vector crossing(const Corner& a, const Corner& b) {
  const double part = a.height / (a.height - b.height);
  Vector place;
  for (std::size_t i = 0; i < 3; ++i)
    place[i] = a.place[i] + part * (b.place[i] - a.place[i]);
  return place;
}

void add_triangle(const Vector& a, const Vector& b, const Vector& c, const Vector& falling,
                  std::vector<Facet>& facets) {
  Facet facet{area_vector(a, b, c), {}};
  // Where the surface goes through a corner the triangle has no size, and its normal is rounding.
  constexpr double no_area = 1e-9;
  if (norm(facet.area) < no_area)
    return;
  if (dot(facet.area, falling) < 0)
    facet.area = scaled(facet.area, -1);
  for (std::size_t i = 0; i < 3; ++i)
    facet.centre[i] = (a[i] + b[i] + c[i]) / 3;
  facets.push_back(facet);
}

void cut(const std::array<Corner, 4>& corners, std::vector<Facet>& facets) {
  std::array<const Corner*, 4> above{}, below{};
  std::size_t high = 0, low = 0;
  for (const Corner& corner : corners)
    (corner.height > 0 ? above[high++] : below[low++]) = &corner;
  if (high == 0 || low == 0)
    return;
  Vector falling{0, 0, 0};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t k = 0; k < low; ++k)
      falling[i] += below[k]->place[i] / static_cast<double>(low);
    for (std::size_t k = 0; k < high; ++k)
      falling[i] -= above[k]->place[i] / static_cast<double>(high);
  }
  if (high == 2) {
    const Vector a = crossing(*above[0], *below[0]), b = crossing(*above[0], *below[1]),
                 c = crossing(*above[1], *below[1]), d = crossing(*above[1], *below[0]);
    add_triangle(a, b, c, falling, facets);
    add_triangle(a, c, d, falling, facets);
    return;
  }
  const Corner& apex = high == 1 ? *above[0] : *below[0];
  const auto& base = high == 1 ? below : above;
  add_triangle(crossing(apex, *base[0]), crossing(apex, *base[1]), crossing(apex, *base[2]), falling, facets);
}

} // namespace

std::vector<Facet> level_triangles(SheetSurface surface, double level, int n) {
  const std::size_t nodes = static_cast<std::size_t>(n) + 1;
  std::vector<double> sines(nodes), cosines(nodes);
  for (std::size_t i = 0; i < nodes; ++i) {
    const double angle = 2 * std::numbers::pi * static_cast<double>(i) / n;
    sines[i] = std::sin(angle);
    cosines[i] = std::cos(angle);
  }
  const auto corner_at = [&](std::size_t x, std::size_t y, std::size_t z) {
    return Corner{{static_cast<double>(x) / n, static_cast<double>(y) / n, static_cast<double>(z) / n},
                  surface_value(surface, {sines[x], sines[y], sines[z]}, {cosines[x], cosines[y], cosines[z]}) -
                      level};
  };
  std::vector<Facet> facets;
  std::array<Corner, 8> cube{};
  for (std::size_t z = 0; z + 1 < nodes; ++z)
    for (std::size_t y = 0; y + 1 < nodes; ++y)
      for (std::size_t x = 0; x + 1 < nodes; ++x) {
        for (std::size_t i = 0; i < 8; ++i)
          cube[i] = corner_at(x + (i & 1U), y + (i >> 1U & 1U), z + (i >> 2U & 1U));
        for (const auto& tetrahedron : tetrahedra)
          cut({cube[tetrahedron[0]], cube[tetrahedron[1]], cube[tetrahedron[2]], cube[tetrahedron[3]]}, facets);
      }
  return facets;
}

} // namespace crushwright
