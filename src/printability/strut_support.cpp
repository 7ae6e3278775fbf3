#include "printability/strut_support.hpp"

#include "crushwright/errors.hpp"
#include "unit_cell/cell_solid.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <limits>
#include <map>
#include <queue>

namespace crushwright {
namespace {

/// Angles that differ by rounding alone are equal: a strut at 45 degrees stands where 45 degrees stand.
constexpr double same_sine = 1e-9;
constexpr double far_away = std::numeric_limits<double>::infinity();

struct Hanging {
  std::size_t from, to;
  double run; ///< horizontal length
};

/// Horizontal way from every node to the nearest carried one along struts that hang over.
std::vector<double> ways_to_support(std::size_t nodes, const std::vector<Hanging>& hanging,
                                    const std::vector<char>& based) {
  std::vector<std::vector<std::pair<std::size_t, double>>> neighbours(nodes);
  for (const Hanging& each : hanging) {
    neighbours[each.from].emplace_back(each.to, each.run);
    neighbours[each.to].emplace_back(each.from, each.run);
  }
  std::vector<double> way(nodes, far_away);
  using Step = std::pair<double, std::size_t>;
  std::priority_queue<Step, std::vector<Step>, std::greater<>> front;
  for (std::size_t node = 0; node < nodes; ++node)
    if (based[node] != 0) {
      way[node] = 0;
      front.emplace(0, node);
    }
  while (!front.empty()) {
    const auto [gone, node] = front.top();
    front.pop();
    if (gone > way[node])
      continue;
    for (const auto& [other, run] : neighbours[node])
      if (gone + run < way[other]) {
        way[other] = gone + run;
        front.emplace(way[other], other);
      }
  }
  return way;
}

} // namespace

LatticeSupport strut_support(const std::vector<Bar>& bars, const std::vector<char>& carried, const Vector& direction,
                             double self_supporting_angle) {
  LatticeSupport support;
  support.nodes = carried.size();
  std::vector<char> based = carried;
  std::vector<Hanging> hanging;
  const double least_sine = std::sin(self_supporting_angle) - same_sine;
  for (const Bar& bar : bars) {
    const double length = norm(bar.along), rise = dot(bar.along, direction);
    support.whole += length;
    if (std::abs(rise) >= length * least_sine) {
      based[rise > 0 ? bar.to : bar.from] = 1;
      continue;
    }
    support.unsupported += length;
    hanging.push_back({bar.from, bar.to, std::sqrt(std::max(0.0, length * length - rise * rise))});
  }
  support.nodes_without_base = static_cast<std::size_t>(std::count(based.begin(), based.end(), char{0}));
  const std::vector<double> way = ways_to_support(carried.size(), hanging, based);
  for (const Hanging& each : hanging) {
    const double to_both = way[each.from] + way[each.to];
    support.longest_span = std::max(support.longest_span, each.run + (to_both < far_away ? to_both : 0));
  }
  return support;
}

CellBars cell_bars(const std::vector<Strut>& struts) {
  constexpr double grain = 1e-6; // of a cell edge: nodes closer than that are one
  constexpr long long edge = 1000000;
  std::map<std::array<long long, 3>, std::size_t> places;
  const auto place_of = [&](const std::array<double, 3>& point) {
    std::array<long long, 3> key{};
    for (std::size_t i = 0; i < 3; ++i)
      key[i] = ((std::llround(point[i] / grain) % edge) + edge) % edge;
    return places.emplace(key, places.size()).first->second;
  };
  CellBars cell;
  const CellSkeleton skeleton = CellSkeleton::of_struts(struts); // copies of one strut count once
  for (const Strut& strut : skeleton.struts()) {
    const std::size_t from = place_of(strut.from), to = place_of(strut.to);
    cell.bars.push_back({from, to, minus(strut.to, strut.from)});
  }
  cell.nodes = places.size();
  return cell;
}

LatticeSupport support_of(const StrutBody& body, const BuildDirection& direction, double self_supporting_angle,
                          const std::vector<char>& held, std::optional<double> platform) {
  if (!held.empty() && held.size() != body.nodes.size())
    throw OutOfDomain(fmt::format("{} flags of held nodes were given for {} nodes", held.size(), body.nodes.size()));
  std::vector<double> bottom(body.nodes.size(), far_away);
  std::vector<Bar> bars;
  bars.reserve(body.struts.size());
  for (const BodyStrut& strut : body.struts) {
    const std::size_t from = static_cast<std::size_t>(strut.from), to = static_cast<std::size_t>(strut.to);
    bars.push_back({from, to, minus(body.nodes.at(to), body.nodes.at(from))});
    bottom[from] = std::min(bottom[from], dot(body.nodes[from], direction) - strut.from_radius);
    bottom[to] = std::min(bottom[to], dot(body.nodes[to], direction) - strut.to_radius);
  }
  double lowest = far_away;
  for (const double each : bottom)
    lowest = std::min(lowest, each);
  constexpr double touching = 1e-6; // a thousandth of a millimetre: rounding of coordinates
  std::vector<char> carried = held.empty() ? std::vector<char>(body.nodes.size(), 0) : held;
  for (std::size_t node = 0; node < carried.size(); ++node)
    if (bottom[node] <= platform.value_or(lowest) + touching)
      carried[node] = 1;
  return strut_support(bars, carried, direction, self_supporting_angle);
}

} // namespace crushwright
