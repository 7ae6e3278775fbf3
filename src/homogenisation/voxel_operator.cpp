#include "homogenisation/voxel_operator.hpp"

#include <bit>
#include <cstring>

// One source, three instruction sets; the loader takes the widest that the machine has. Only g++ on x86-64 has this.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#define CRUSHWRIGHT_WIDEST __attribute__((target_clones("default", "arch=x86-64-v3", "arch=x86-64-v4")))
#else
#define CRUSHWRIGHT_WIDEST
#endif
#define CRUSHWRIGHT_INLINE __attribute__((always_inline)) inline

namespace crushwright {
namespace {

constexpr std::size_t width = 8;

/// Eight numbers that the compiler keeps in one register, or in several.
template <class Real>
struct Eight {
  typedef Real Type __attribute__((vector_size(width * sizeof(Real))));
};

/// Sums and differences over the eight corners, in place; applied twice it multiplies by eight.
template <class Lanes>
CRUSHWRIGHT_INLINE void sums_and_differences(Lanes* corner) {
#pragma GCC unroll 3
  for (std::size_t stride = 1; stride < 8; stride *= 2)
#pragma GCC unroll 8
    for (std::size_t i = 0; i < 8; ++i)
      if ((i & stride) == 0) {
        const Lanes sum = corner[i] + corner[i + stride];
        corner[i + stride] = corner[i] - corner[i + stride];
        corner[i] = sum;
      }
}

template <class Real>
CRUSHWRIGHT_INLINE void brick_forces(const BrickBlocks<Real>& blocks, Real* values) {
  using Lanes = typename Eight<Real>::Type;
  Lanes mode[3][8]; // by component, then by corner or class of modes
  std::memcpy(mode, values, sizeof(mode));
#pragma GCC unroll 3
  for (std::size_t axis = 0; axis < 3; ++axis)
    sums_and_differences(mode[axis]);
#pragma GCC unroll 8
  for (std::size_t parity = 0; parity < 8; ++parity) {
    const auto& block = blocks.block[parity];
    const Lanes x = mode[0][parity ^ 1];
    const Lanes y = mode[1][parity ^ 2];
    const Lanes z = mode[2][parity ^ 4];
    mode[0][parity ^ 1] = block[0][0] * x + block[0][1] * y + block[0][2] * z;
    mode[1][parity ^ 2] = block[1][0] * x + block[1][1] * y + block[1][2] * z;
    mode[2][parity ^ 4] = block[2][0] * x + block[2][1] * y + block[2][2] * z;
  }
#pragma GCC unroll 3
  for (std::size_t axis = 0; axis < 3; ++axis)
    sums_and_differences(mode[axis]);
  std::memcpy(values, mode, sizeof(mode));
}

template <class Real>
CRUSHWRIGHT_INLINE void add_forces(const BrickBlocks<Real>& blocks, const std::array<std::int32_t, 8>* elements,
                                   std::size_t count, const Real* displacements, Real* forces) {
  alignas(64) Real values[3 * 8 * width] = {};
  for (std::size_t begin = 0; begin < count; begin += width) {
    const std::size_t lanes = count - begin < width ? count - begin : width;
    for (std::size_t lane = 0; lane < lanes; ++lane)
      for (std::size_t corner = 0; corner < 8; ++corner) {
        const Real* at = displacements + 3 * static_cast<std::size_t>(elements[begin + lane][corner]);
        values[corner * width + lane] = at[0];
        values[(8 + corner) * width + lane] = at[1];
        values[(16 + corner) * width + lane] = at[2];
      }
    brick_forces(blocks, values);
    for (std::size_t lane = 0; lane < lanes; ++lane)
      for (std::size_t corner = 0; corner < 8; ++corner) {
        Real* at = forces + 3 * static_cast<std::size_t>(elements[begin + lane][corner]);
        at[0] += values[corner * width + lane];
        at[1] += values[(8 + corner) * width + lane];
        at[2] += values[(16 + corner) * width + lane];
      }
  }
}

} // namespace

BrickBlocks<double> brick_blocks(const BrickMatrix& stiffness) {
  const auto sign = [](std::size_t mode, std::size_t corner) {
    return std::popcount(mode & corner) % 2 ? -1.0 : 1.0;
  };
  BrickBlocks<double> blocks;
  for (std::size_t parity = 0; parity < 8; ++parity)
    for (std::size_t c = 0; c < 3; ++c)
      for (std::size_t d = 0; d < 3; ++d) {
        double sum = 0;
        for (std::size_t k = 0; k < 8; ++k)
          for (std::size_t l = 0; l < 8; ++l)
            sum += sign(parity ^ (std::size_t{1} << c), k) * sign(parity ^ (std::size_t{1} << d), l) *
                   stiffness(static_cast<Eigen::Index>(3 * k + c), static_cast<Eigen::Index>(3 * l + d));
        blocks.block[parity][c][d] = sum / 64;
      }
  return blocks;
}

CRUSHWRIGHT_WIDEST
void add_brick_forces(const BrickBlocks<double>& blocks, const std::array<std::int32_t, 8>* elements,
                      std::size_t count, const double* displacements, double* forces) {
  add_forces(blocks, elements, count, displacements, forces);
}

CRUSHWRIGHT_WIDEST
void add_brick_forces(const BrickBlocks<float>& blocks, const std::array<std::int32_t, 8>* elements,
                      std::size_t count, const float* displacements, float* forces) {
  add_forces(blocks, elements, count, displacements, forces);
}

CRUSHWRIGHT_WIDEST
void add_matrix_forces(const float* matrices, const std::int32_t* kinds, const std::array<std::int32_t, 8>* elements,
                       std::size_t count, const float* displacements, float* forces) {
  using Lanes = Eight<float>::Type;
  for (std::size_t element = 0; element < count; ++element) {
    float values[24];
    for (std::size_t corner = 0; corner < 8; ++corner) {
      const float* at = displacements + 3 * static_cast<std::size_t>(elements[element][corner]);
      values[3 * corner] = at[0];
      values[3 * corner + 1] = at[1];
      values[3 * corner + 2] = at[2];
    }
    const float* matrix = matrices + std::size_t{576} * static_cast<std::size_t>(kinds[element]);
    Lanes sum[2][3] = {}; // columns in two chains, so that one addition need not wait for the last
    for (std::size_t column = 0; column < 24; column += 2)
#pragma GCC unroll 2
      for (std::size_t chain = 0; chain < 2; ++chain)
#pragma GCC unroll 3
        for (std::size_t part = 0; part < 3; ++part) {
          Lanes entries;
          std::memcpy(&entries, matrix + 24 * (column + chain) + width * part, sizeof(entries));
          sum[chain][part] += entries * values[column + chain];
        }
    for (std::size_t part = 0; part < 3; ++part) {
      const Lanes total = sum[0][part] + sum[1][part];
      std::memcpy(values + width * part, &total, sizeof(total));
    }
    for (std::size_t corner = 0; corner < 8; ++corner) {
      float* at = forces + 3 * static_cast<std::size_t>(elements[element][corner]);
      at[0] += values[3 * corner];
      at[1] += values[3 * corner + 1];
      at[2] += values[3 * corner + 2];
    }
  }
}

} // namespace crushwright
