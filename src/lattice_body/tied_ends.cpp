#include "lattice_body/tied_ends.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

std::size_t at(std::int32_t place) {
  return static_cast<std::size_t>(place);
}

/// Nodes by the cube of edge `reach` that they lie in.
class NearNodes {
public:
  NearNodes(const StrutBody& body, double reach) : body_(body), reach_(reach) {
    for (std::size_t node = 0; node < body.nodes.size(); ++node)
      cubes_[cube_of(point(static_cast<std::int32_t>(node)))].push_back(static_cast<std::int32_t>(node));
  }

  Vector point(std::int32_t node) const { return Vector(body_.nodes[at(node)].data()); }

  /// Nodes between two distances, the nearest first.
  std::vector<std::pair<double, std::int32_t>> around(std::int32_t node, double least) const {
    std::vector<std::pair<double, std::int32_t>> found;
    const Cube middle = cube_of(point(node));
    for (int copy = 0; copy < 27; ++copy) {
      const auto cube =
          cubes_.find({middle[0] + copy % 3 - 1, middle[1] + copy / 3 % 3 - 1, middle[2] + copy / 9 - 1});
      if (cube == cubes_.end())
        continue;
      for (const std::int32_t other : cube->second) {
        const double distance = (point(other) - point(node)).norm();
        if (other != node && distance > least && distance <= reach_)
          found.emplace_back(distance, other);
      }
    }
    std::sort(found.begin(), found.end());
    return found;
  }

private:
  using Cube = std::array<int, 3>;

  Cube cube_of(const Vector& p) const {
    const Vector cube = (p / reach_).array().floor();
    return {int(cube.x()), int(cube.y()), int(cube.z())};
  }

  const StrutBody& body_;
  double reach_;
  std::map<Cube, std::vector<std::int32_t>> cubes_;
};

bool in_sight(const InnerRegion& region, const Vector& from, const Vector& to, double radius) {
  const auto parts = region.kept_parts(from, to, region.level(from), region.level(to), 0.1 * radius);
  const double slack = 4 * region.grain() / (to - from).norm(); // the ends lie in the boundary
  return parts.size() == 1 && parts[0].from <= slack && parts[0].to >= 1 - slack;
}

} // namespace

StrutTally tie_loose_ends(StrutNetwork& network, const Holders& holders, const InnerRegion& region, double reach) {
  StrutTally ties;
  StrutBody& body = network.body;
  const std::vector<std::int32_t> ends = loose_ends(network, holders);
  if (ends.empty())
    return ties;
  const NearNodes near_nodes(body, reach);
  std::map<std::int32_t, BodyStrut> strut_of;
  for (const std::int32_t end : ends)
    strut_of.emplace(end, BodyStrut{});
  for (const BodyStrut& strut : body.struts) {
    if (const auto found = strut_of.find(strut.from); found != strut_of.end())
      found->second = {strut.from, strut.to, strut.from_radius, strut.to_radius};
    if (const auto found = strut_of.find(strut.to); found != strut_of.end())
      found->second = {strut.to, strut.from, strut.to_radius, strut.from_radius};
  }
  for (const std::int32_t end : ends) {
    const auto own = strut_of.find(end);
    if (own == strut_of.end())
      continue; // an earlier end was tied to it
    const double radius = own->second.from_radius;
    for (const auto& [distance, other] : near_nodes.around(end, 2 * radius)) {
      if (other == own->second.to || !in_sight(region, near_nodes.point(end), near_nodes.point(other), radius))
        continue;
      body.struts.push_back({end, other, radius, radius});
      network.origins.push_back(StrutNetwork::added);
      network.cut.push_back(0);
      ++ties.struts;
      ties.length += distance;
      ties.volume += volume_of(body, body.struts.back());
      strut_of.erase(own);
      strut_of.erase(other);
      break;
    }
  }
  return ties;
}

} // namespace crushwright
