#include "homogenisation/voxel_solver.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

constexpr int size = 12;

/// A chain of springs held at both ends, stiffer towards one end.
Eigen::MatrixXd chain() {
  Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(size, size);
  for (int i = 0; i < size; ++i) {
    matrix(i, i) = 2 * i + 3;
    if (i + 1 < size)
      matrix(i, i + 1) = matrix(i + 1, i) = -(i + 2);
  }
  return matrix;
}

VectorMap product_with(const Eigen::MatrixXd& matrix) {
  return [matrix](const std::vector<double>& x, std::vector<double>& y) {
    Eigen::Map<Eigen::VectorXd>(y.data(), size) = matrix * Eigen::Map<const Eigen::VectorXd>(x.data(), size);
  };
}

const VectorMap unchanged = [](const std::vector<double>& x, std::vector<double>& y) { y = x; };

} // namespace

TEST_CASE("conjugate gradients end, but for rounding, within as many steps as there are unknowns") {
  const std::vector<double> load(size, 1.0);
  std::vector<double> solution(size, 0.0);
  const PcgResult result = pcg(product_with(chain()), unchanged, load, solution, 1e-9, size);
  CHECK(result.reached);
  const Eigen::VectorXd exact = chain().lu().solve(Eigen::VectorXd::Ones(size));
  CHECK((Eigen::Map<Eigen::VectorXd>(solution.data(), size) - exact).norm() < 1e-7 * exact.norm());
}

TEST_CASE("with the inverse as preconditioner one step is enough") {
  const std::vector<double> load(size, 1.0);
  std::vector<double> solution(size, 0.0);
  CHECK(pcg(product_with(chain()), product_with(chain().inverse()), load, solution, 1e-12, 10).iterations == 1);
}

TEST_CASE("a start that is the solution needs no step") {
  const std::vector<double> load(size, 1.0);
  std::vector<double> solution(size, 0.0);
  pcg(product_with(chain()), unchanged, load, solution, 1e-13, 100);
  CHECK(pcg(product_with(chain()), unchanged, load, solution, 1e-9, 100).iterations == 0);
}

TEST_CASE("a solve that runs out of steps says so") {
  const std::vector<double> load(size, 1.0);
  std::vector<double> solution(size, 0.0);
  const PcgResult result = pcg(product_with(chain()), unchanged, load, solution, 1e-12, 3);
  CHECK_FALSE(result.reached);
  CHECK(result.iterations == 3);
  CHECK(result.residual > 1e-12);
}

TEST_CASE("without a load nothing moves, whatever the start") {
  std::vector<double> solution(size, 5.0);
  CHECK(pcg(product_with(chain()), unchanged, std::vector<double>(size, 0.0), solution, 1e-9, 10).reached);
  CHECK(solution == std::vector<double>(size, 0.0));
}
