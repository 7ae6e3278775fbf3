#include "surface/field_samples.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace crushwright {
namespace {

constexpr int block_edge = 8; // corners along a block that is asked for as a whole

/// Keeps the sign, which rounding to the shorter type could lose.
float shortened(double value) {
  const float smallest = std::numeric_limits<float>::min();
  const float kept = static_cast<float>(value);
  return value < 0 ? std::min(kept, -smallest) : std::max(kept, 0.0F);
}

double checked(double value, const std::array<double, 3>& at) {
  if (std::isnan(value))
    throw OutOfDomain(
        fmt::format("the body's field is not a number at ({:.6g}, {:.6g}, {:.6g})", at[0], at[1], at[2]));
  return value;
}

struct Block {
  std::array<int, 3> from{}, to{}; // corners [from, to)
};

std::array<int, 3> block_counts(const FieldGrid& grid) {
  std::array<int, 3> counts{};
  for (std::size_t axis = 0; axis < 3; ++axis)
    counts[axis] = (grid.corners(axis) + block_edge - 1) / block_edge;
  return counts;
}

Block block_at(const FieldGrid& grid, const std::array<int, 3>& counts, int place) {
  const std::array<int, 3> at{place % counts[0], place / counts[0] % counts[1], place / (counts[0] * counts[1])};
  Block block;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    block.from[axis] = at[axis] * block_edge;
    block.to[axis] = std::min(grid.corners(axis), block.from[axis] + block_edge);
  }
  return block;
}

template <class Value>
void fill(const FieldGrid& grid, const Block& block, std::vector<float>& samples, const Value& value) {
  for (int z = block.from[2]; z < block.to[2]; ++z)
    for (int y = block.from[1]; y < block.to[1]; ++y)
      for (int x = block.from[0]; x < block.to[0]; ++x)
        samples[grid.index(x, y, z)] = value(x, y, z);
}

void sample(const FieldAt& field, const FieldGrid& grid, const Block& block, std::vector<float>& samples) {
  const auto low = grid.corner(block.from[0], block.from[1], block.from[2]);
  const auto high = grid.corner(block.to[0] - 1, block.to[1] - 1, block.to[2] - 1);
  const std::array<double, 3> middle{0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1]), 0.5 * (low[2] + high[2])};
  const double reach = 0.5 * std::hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]) * grid.slope;
  const double there = checked(field(middle), middle);
  if (std::abs(there) > reach) {
    // The least that is left at a corner of the block, so that the value stays a lower bound.
    const float least = shortened(there < 0 ? there + reach : there - reach);
    fill(grid, block, samples, [&](int, int, int) { return least; });
    return;
  }
  fill(grid, block, samples, [&](int x, int y, int z) {
    const auto at = grid.corner(x, y, z);
    return shortened(checked(field(at), at));
  });
}

} // namespace

std::vector<float> field_samples(const FieldAt& field, const FieldGrid& grid) {
  std::vector<float> samples(grid.corner_count());
  const std::array<int, 3> counts = block_counts(grid);
  tbb::parallel_for(0, counts[0] * counts[1] * counts[2],
                    [&](int place) { sample(field, grid, block_at(grid, counts, place), samples); });
  return samples;
}

} // namespace crushwright
