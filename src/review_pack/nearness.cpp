#include "review_pack/nearness.hpp"

#include <algorithm>
#include <cmath>

#include <tbb/parallel_for.h>

namespace crushwright {

namespace {

struct Sum {
  double value = 0, count = 0;
};

/// Running sums over a window along a line of places that lie a stride apart.
void sum_along(std::vector<Sum>& sums, std::size_t start, std::size_t stride, std::size_t length, std::size_t reach) {
  std::vector<Sum> before(length + 1);
  for (std::size_t i = 0; i < length; ++i) {
    const Sum& each = sums[start + i * stride];
    before[i + 1] = {before[i].value + each.value, before[i].count + each.count};
  }
  for (std::size_t i = 0; i < length; ++i) {
    const Sum& from = before[i > reach ? i - reach : 0];
    const Sum& to = before[std::min(length, i + reach + 1)];
    sums[start + i * stride] = {to.value - from.value, to.count - from.count};
  }
}

} // namespace

std::vector<float> mean_about(const std::vector<float>& values, std::size_t width, int reach) {
  const std::size_t height = width > 0 ? values.size() / width : 0, far = static_cast<std::size_t>(reach);
  std::vector<Sum> sums(values.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (std::isfinite(values[i])) {
      sums[i] = {static_cast<double>(values[i]), 1};
    }
  }
  tbb::parallel_for(std::size_t{0}, height, [&](std::size_t y) { sum_along(sums, y * width, 1, width, far); });
  tbb::parallel_for(std::size_t{0}, height > 0 ? width : 0,
                    [&](std::size_t x) { sum_along(sums, x, width, height, far); });
  std::vector<float> means(values);
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (sums[i].count > 0.5) {
      means[i] = static_cast<float>(sums[i].value / sums[i].count);
    }
  }
  return means;
}

} // namespace crushwright
