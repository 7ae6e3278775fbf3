#include "printability/periodic_clusters.hpp"

#include <numeric>
#include <utility>

namespace crushwright {
namespace {

using Shift = PeriodicClusters::Shift;

Shift plus(const Shift& a, const Shift& b, int sign = 1) {
  return {a[0] + sign * b[0], a[1] + sign * b[1], a[2] + sign * b[2]};
}

Shift crossed(const Shift& a, const Shift& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

bool is_nothing(const Shift& shift) {
  return shift == Shift{0, 0, 0};
}

bool is_independent(const std::vector<Shift>& ways, const Shift& shift) {
  if (is_nothing(shift) || ways.size() == 3)
    return false;
  if (ways.empty())
    return true;
  const Shift normal = crossed(ways.front(), ways.size() == 1 ? shift : ways[1]);
  if (ways.size() == 1)
    return !is_nothing(normal);
  return normal[0] * shift[0] + normal[1] * shift[1] + normal[2] * shift[2] != 0;
}

} // namespace

PeriodicClusters::PeriodicClusters(std::size_t places)
    : parent_(places), shift_(places, Shift{0, 0, 0}), ways_(places) {
  std::iota(parent_.begin(), parent_.end(), std::size_t{0});
}

PeriodicClusters::Root PeriodicClusters::root_of(std::size_t place) {
  std::size_t root = place;
  Shift shift{0, 0, 0};
  while (parent_[root] != root) {
    shift = plus(shift, shift_[root]);
    root = parent_[root];
  }
  // Every place on the way is hung under the root, each with what is left of the way from it.
  Shift left = shift;
  while (parent_[place] != root && place != root) {
    const std::size_t next = parent_[place];
    const Shift step = shift_[place];
    parent_[place] = root;
    shift_[place] = left;
    left = plus(left, step, -1);
    place = next;
  }
  return {root, shift};
}

void PeriodicClusters::join(std::size_t place, std::size_t other, const Shift& shift) {
  const Root a = root_of(place), b = root_of(other);
  const Shift from_b_to_a = plus(plus(a.shift, b.shift, -1), shift, -1);
  if (a.place == b.place) {
    add_way(a.place, from_b_to_a);
    return;
  }
  parent_[b.place] = a.place;
  shift_[b.place] = from_b_to_a;
  for (const Shift& way : std::exchange(ways_[b.place], {}))
    add_way(a.place, way);
}

void PeriodicClusters::add_way(std::size_t root, const Shift& shift) {
  if (is_independent(ways_[root], shift))
    ways_[root].push_back(shift);
}

} // namespace crushwright
