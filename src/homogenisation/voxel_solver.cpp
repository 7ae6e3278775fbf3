#include "homogenisation/voxel_solver.hpp"

#include "homogenisation/voxel_slabs.hpp"

#include <cmath>
#include <numeric>

namespace crushwright {
namespace {

constexpr std::size_t piece_length = 8192;

/// Sum over fixed pieces of what work(begin, end) returns, in order.
template <class Work>
double ordered_sum(std::size_t size, const Work& work) {
  std::vector<double> sums((size + piece_length - 1) / piece_length);
  tbb::parallel_for(std::size_t{0}, sums.size(), [&](std::size_t piece) {
    sums[piece] = work(piece * piece_length, std::min(size, (piece + 1) * piece_length));
  });
  return std::accumulate(sums.begin(), sums.end(), 0.0);
}

} // namespace

double ordered_dot(const std::vector<double>& a, const std::vector<double>& b) {
  return ordered_sum(a.size(), [&](std::size_t begin, std::size_t end) {
    double sum = 0;
    for (std::size_t i = begin; i < end; ++i)
      sum += a[i] * b[i];
    return sum;
  });
}

PcgResult pcg(const VectorMap& matrix, const VectorMap& preconditioner, const std::vector<double>& right_side,
              std::vector<double>& solution, double tolerance, int most_iterations) {
  const std::size_t size = right_side.size();
  const double scale = std::sqrt(ordered_dot(right_side, right_side));
  PcgResult result;
  if (scale == 0) {
    std::fill(solution.begin(), solution.end(), 0.0);
    result.reached = true;
    return result;
  }
  std::vector<double> residual(size);
  std::vector<double> corrected(size);
  std::vector<double> direction(size);
  std::vector<double> image(size);
  matrix(solution, image);
  const double start = ordered_sum(size, [&](std::size_t begin, std::size_t end) {
    double sum = 0;
    for (std::size_t i = begin; i < end; ++i) {
      residual[i] = right_side[i] - image[i];
      sum += residual[i] * residual[i];
    }
    return sum;
  });
  result.residual = std::sqrt(start) / scale;
  double last = 0;      // residual · corrected of the last round
  double last_step = 0; // of the last round; residual - last_step * image is the new residual
  while (!(result.residual <= tolerance) && result.iterations < most_iterations && std::isfinite(result.residual)) {
    preconditioner(residual, corrected);
    const double now = ordered_dot(residual, corrected);
    // z·(r - r_old) instead of z·r, with r_old = r + step × image.
    const double turn = last == 0 ? 0 : -last_step * ordered_dot(corrected, image) / last;
    in_pieces(size, [&](std::size_t begin, std::size_t end) {
      for (std::size_t i = begin; i < end; ++i)
        direction[i] = corrected[i] + turn * direction[i];
    });
    matrix(direction, image);
    const double curvature = ordered_dot(direction, image);
    if (!(curvature > 0) || !(now > 0))
      break;
    const double step = now / curvature;
    const double squares = ordered_sum(size, [&](std::size_t begin, std::size_t end) {
      double sum = 0;
      for (std::size_t i = begin; i < end; ++i) {
        solution[i] += step * direction[i];
        residual[i] -= step * image[i];
        sum += residual[i] * residual[i];
      }
      return sum;
    });
    last = now;
    last_step = step;
    result.residual = std::sqrt(squares) / scale;
    ++result.iterations;
  }
  result.reached = result.residual <= tolerance;
  return result;
}

} // namespace crushwright
