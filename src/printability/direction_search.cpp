#include "printability/direction_search.hpp"

#include "printability/vector.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>
#include <tuple>

namespace crushwright {
namespace {

using Whole = std::array<int, 3>;

std::vector<Whole> primitive_triples(int largest) {
  std::vector<Whole> triples;
  for (int x = -largest; x <= largest; ++x)
    for (int y = -largest; y <= largest; ++y)
      for (int z = -largest; z <= largest; ++z)
        if (std::gcd(std::gcd(x, y), z) == 1)
          triples.push_back({x, y, z});
  // Along the crush axis first, then by the sign: of equals the attachment on the platform comes first.
  const auto rank = [](const Whole& t) {
    const int squares = t[0] * t[0] + t[1] * t[1] + t[2] * t[2];
    return std::tuple(squares, -std::abs(t[0]), -std::abs(t[1]), t[0], t[1], t[2]);
  };
  std::sort(triples.begin(), triples.end(), [&](const Whole& a, const Whole& b) { return rank(a) < rank(b); });
  return triples;
}

BuildDirection unit(const Whole& t) {
  const double length = std::sqrt(static_cast<double>(t[0] * t[0] + t[1] * t[1] + t[2] * t[2]));
  return {t[0] / length, t[1] / length, t[2] / length};
}

/// Steps in which troubles are compared: less than a step is no reason to leave a simpler direction.
constexpr double share_step = 0.005, effort_step = 0.005;

std::tuple<double, double, bool, double> rank_of(const DirectionTrouble& trouble) {
  return {trouble.pieces, std::round(trouble.unsupported / share_step), !trouble.stands,
          trouble.effort > 0 ? std::round(std::log(trouble.effort) / effort_step)
                             : -std::numeric_limits<double>::infinity()};
}

struct Search {
  const TroubleOf& trouble_of;
  BestDirection best;

  bool try_one(const BuildDirection& direction) {
    const DirectionTrouble trouble = trouble_of(direction);
    const bool better = best.tried == 0 || rank_of(trouble) < rank_of(best.trouble);
    ++best.tried;
    if (better) {
      best.direction = direction;
      best.trouble = trouble;
    }
    return better;
  }
};

BuildDirection tilted(const BuildDirection& direction, double angle, double around) {
  const std::array<Vector, 2> horizontal = across(direction);
  Vector turned{};
  for (std::size_t i = 0; i < 3; ++i)
    turned[i] = std::cos(angle) * direction[i] +
                std::sin(angle) * (std::cos(around) * horizontal[0][i] + std::sin(around) * horizontal[1][i]);
  return scaled(turned, 1 / norm(turned));
}

} // namespace

std::vector<BuildDirection> simple_directions() {
  std::vector<BuildDirection> directions;
  for (const Whole& triple : primitive_triples(3))
    directions.push_back(unit(triple));
  return directions;
}

BestDirection least_trouble(const TroubleOf& trouble_of) {
  Search search{trouble_of, {}};
  for (const BuildDirection& direction : simple_directions())
    search.try_one(direction);
  constexpr double degree = std::numbers::pi / 180;
  for (double step = 8 * degree; step > 0.9 * degree; step *= 0.5) {
    constexpr int ways = 8;
    bool better = true;
    for (int round = 0; better && round < 4; ++round) {
      better = false;
      const BuildDirection centre = search.best.direction;
      for (int way = 0; way < ways; ++way)
        better = search.try_one(tilted(centre, step, 2 * std::numbers::pi * way / ways)) || better;
    }
  }
  return search.best;
}

std::vector<std::array<double, 3>> outermost(const std::vector<std::array<double, 3>>& points) {
  constexpr std::size_t few = 3000;
  if (points.size() <= few)
    return points;
  std::vector<char> kept(points.size(), 0);
  for (const Whole& triple : primitive_triples(6)) {
    const BuildDirection direction = unit(triple);
    std::size_t farthest = 0;
    double reach = -std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double along = dot(points[i], direction);
      if (along > reach) {
        reach = along;
        farthest = i;
      }
    }
    kept[farthest] = 1;
  }
  std::vector<std::array<double, 3>> outer;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (kept[i] != 0)
      outer.push_back(points[i]);
  return outer;
}

} // namespace crushwright
