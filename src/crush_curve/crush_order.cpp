#include "crush_curve/crush_order.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>

namespace crushwright {

std::vector<int> crush_order(const std::vector<Layer>& layers) {
  std::vector<std::size_t> sequence(layers.size());
  std::iota(sequence.begin(), sequence.end(), std::size_t{0});
  std::stable_sort(sequence.begin(), sequence.end(), [&](std::size_t a, std::size_t b) {
    return layers[a].collapse_force() < layers[b].collapse_force();
  });
  std::vector<int> order(layers.size());
  for (std::size_t place = 0; place < sequence.size(); ++place)
    order[sequence[place]] = static_cast<int>(place) + 1;
  return order;
}

} // namespace crushwright
