#include "homogenisation/voxel_multigrid.hpp"

#include "homogenisation/voxel_levels.hpp"
#include "homogenisation/voxel_operator.hpp"
#include "homogenisation/voxel_slabs.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

constexpr int coarsest_degrees = 2200; ///< solved directly below this
constexpr int smoothing_steps = 3;
constexpr int power_steps = 15;

using Blocks = std::vector<Eigen::Matrix3d>;

Blocks diagonal_blocks(const ElementGrid& grid) {
  Blocks blocks(static_cast<std::size_t>(grid.mesh.nodes), Eigen::Matrix3d::Zero());
  for (std::size_t element = 0; element < grid.kinds.size(); ++element) {
    const BrickMatrix& matrix = grid.matrices[static_cast<std::size_t>(grid.kinds[element])];
    for (std::size_t corner = 0; corner < 8; ++corner) {
      const auto row = static_cast<Eigen::Index>(3 * corner);
      blocks[static_cast<std::size_t>(grid.mesh.elements[element][corner])] += matrix.block<3, 3>(row, row);
    }
  }
  return blocks;
}

/// One grid below the finest or the finest itself: its operator, its smoother and what passes between it and the
/// next.
class Level {
public:
  Level(const ElementGrid& grid, bool finest)
      : elements_(grid.mesh.elements), slabs_(grid.mesh, grid.cells[2]),
        nodes_(static_cast<std::size_t>(grid.mesh.nodes)), finest_(finest) {
    if (finest) {
      const BrickBlocks<double> blocks = brick_blocks(grid.matrices.front());
      for (std::size_t parity = 0; parity < 8; ++parity)
        for (std::size_t c = 0; c < 3; ++c)
          for (std::size_t d = 0; d < 3; ++d)
            blocks_.block[parity][c][d] = static_cast<float>(blocks.block[parity][c][d]);
    } else {
      kinds_ = grid.kinds;
      matrices_.resize(576 * grid.matrices.size());
      for (std::size_t kind = 0; kind < grid.matrices.size(); ++kind)
        Eigen::Map<Eigen::Matrix<float, 24, 24>>(matrices_.data() + 576 * kind) = grid.matrices[kind].cast<float>();
    }
    const Blocks blocks = diagonal_blocks(grid);
    inverse_.resize(6 * nodes_);
    for (std::size_t node = 0; node < nodes_; ++node) {
      const Eigen::Matrix3d inverse = blocks[node].inverse();
      float* at = inverse_.data() + 6 * node;
      at[0] = static_cast<float>(inverse(0, 0));
      at[1] = static_cast<float>(inverse(1, 1));
      at[2] = static_cast<float>(inverse(2, 2));
      at[3] = static_cast<float>(inverse(1, 2));
      at[4] = static_cast<float>(inverse(0, 2));
      at[5] = static_cast<float>(inverse(0, 1));
    }
    for (std::vector<float>* vector : {&right_side, &solution, &direction_, &image_})
      vector->assign(3 * nodes_, 0.0F);
    greatest_ = greatest_eigenvalue();
  }

  std::vector<float> right_side; ///< consumed by smoothing: the residual stands here
  std::vector<float> solution;
  GridTransfer transfer; ///< to the next grid

  std::size_t nodes() const { return nodes_; }

  /// From zero; leaves the residual in right_side.
  void smooth_first() {
    std::fill(solution.begin(), solution.end(), 0.0F);
    for (int step = 1; step <= smoothing_steps; ++step) {
      advance(step);
      multiply(direction_);
    }
    subtract_image();
  }

  /// After a correction was added to the solution and stands in direction().
  void smooth_last() {
    multiply(direction_);
    for (int step = 1; step <= smoothing_steps; ++step) {
      advance(step);
      if (step < smoothing_steps)
        multiply(direction_);
    }
  }

  /// right side of the next grid = weighted residual.
  void restrict_to(std::vector<float>& coarse) const {
    in_pieces(transfer.first_fine.size() - 1, [&](std::size_t begin, std::size_t end) {
      for (std::size_t node = begin; node < end; ++node) {
        float sum[3] = {0, 0, 0};
        for (auto entry = static_cast<std::size_t>(transfer.first_fine[node]);
             entry < static_cast<std::size_t>(transfer.first_fine[node + 1]); ++entry) {
          const float* at = right_side.data() + 3 * static_cast<std::size_t>(transfer.fine_nodes[entry]);
          const float weight = transfer.fine_weights[entry];
          for (std::size_t axis = 0; axis < 3; ++axis)
            sum[axis] += weight * at[axis];
        }
        std::copy_n(sum, 3, coarse.data() + 3 * node);
      }
    });
  }

  void correct_from(const std::vector<float>& coarse) {
    in_pieces(nodes_, [&](std::size_t begin, std::size_t end) {
      for (std::size_t node = begin; node < end; ++node) {
        float sum[3] = {0, 0, 0};
        const auto first = static_cast<std::size_t>(transfer.first_coarse[node]);
        const auto last = static_cast<std::size_t>(transfer.first_coarse[node + 1]);
        for (std::size_t entry = first; entry < last; ++entry) {
          const float* at = coarse.data() + 3 * static_cast<std::size_t>(transfer.coarse_nodes[entry]);
          for (std::size_t axis = 0; axis < 3; ++axis)
            sum[axis] += at[axis];
        }
        const float weight = 1.0F / static_cast<float>(last - first);
        for (std::size_t axis = 0; axis < 3; ++axis) {
          direction_[3 * node + axis] = weight * sum[axis];
          solution[3 * node + axis] += direction_[3 * node + axis];
        }
      }
    });
  }

private:
  std::vector<std::array<std::int32_t, 8>> elements_;
  VoxelSlabs slabs_;
  std::size_t nodes_;
  bool finest_;
  BrickBlocks<float> blocks_;       ///< finest grid
  std::vector<std::int32_t> kinds_; ///< other grids
  std::vector<float> matrices_;
  std::vector<float> inverse_; ///< of the diagonal blocks: xx yy zz yz xz xy; shape = (nodes, 6)
  std::vector<float> direction_;
  std::vector<float> image_; ///< zero between two products; `advance` takes it up and clears it
  float greatest_ = 1;       ///< eigenvalue of D⁻¹ K, a little too large

  /// image += K vector
  void multiply(const std::vector<float>& vector) {
    slabs_.for_each([&](std::size_t begin, std::size_t end) {
      if (finest_)
        add_brick_forces(blocks_, elements_.data() + begin, end - begin, vector.data(), image_.data());
      else
        add_matrix_forces(matrices_.data(), kinds_.data() + begin, elements_.data() + begin, end - begin,
                          vector.data(), image_.data());
    });
  }

  /// residual -= image, image = 0
  void subtract_image() {
    in_pieces(3 * nodes_, [&](std::size_t begin, std::size_t end) {
      for (std::size_t i = begin; i < end; ++i) {
        right_side[i] -= image_[i];
        image_[i] = 0;
      }
    });
  }

  /// Step of Chebyshev's iteration of the fourth kind, which needs the greatest eigenvalue alone:
  /// d_k = (2k - 3)/(2k + 1) d_(k-1) + (8k - 4)/(2k + 1) D⁻¹ r / λ.
  void advance(int step) {
    const float old = step == 1 ? 0.0F : static_cast<float>(2 * step - 3) / static_cast<float>(2 * step + 1);
    const float fresh = static_cast<float>(8 * step - 4) / static_cast<float>(2 * step + 1) / greatest_;
    in_pieces(nodes_, [&](std::size_t begin, std::size_t end) {
      for (std::size_t node = begin; node < end; ++node) {
        float* r = right_side.data() + 3 * node;
        float* t = image_.data() + 3 * node;
        float* d = direction_.data() + 3 * node;
        float* x = solution.data() + 3 * node;
        const float* m = inverse_.data() + 6 * node;
        for (std::size_t axis = 0; axis < 3; ++axis) {
          r[axis] -= t[axis];
          t[axis] = 0;
        }
        const float z[3] = {m[0] * r[0] + m[5] * r[1] + m[4] * r[2], m[5] * r[0] + m[1] * r[1] + m[3] * r[2],
                            m[4] * r[0] + m[3] * r[1] + m[2] * r[2]};
        for (std::size_t axis = 0; axis < 3; ++axis) {
          d[axis] = (step == 1 ? 0.0F : old * d[axis]) + fresh * z[axis];
          x[axis] += d[axis];
        }
      }
    });
  }

  /// Power iteration on D⁻¹ K from a fixed, irregular start, and a margin for what it still misses.
  float greatest_eigenvalue() {
    std::uint32_t state = 1;
    for (float& value : direction_) {
      state = state * 1664525U + 1013904223U;
      value = static_cast<float>(state >> 8) / 8388608.0F - 1;
    }
    double growth = 1;
    for (int step = 0; step < power_steps; ++step) {
      multiply(direction_);
      double squares = 0;
      for (std::size_t node = 0; node < nodes_; ++node) {
        float* t = image_.data() + 3 * node;
        const float* m = inverse_.data() + 6 * node;
        const float z[3] = {m[0] * t[0] + m[5] * t[1] + m[4] * t[2], m[5] * t[0] + m[1] * t[1] + m[3] * t[2],
                            m[4] * t[0] + m[3] * t[1] + m[2] * t[2]};
        for (std::size_t axis = 0; axis < 3; ++axis) {
          direction_[3 * node + axis] = z[axis];
          squares += static_cast<double>(z[axis]) * static_cast<double>(z[axis]);
          t[axis] = 0;
        }
      }
      growth = std::sqrt(squares);
      if (growth == 0)
        return 1;
      for (float& value : direction_)
        value = static_cast<float>(value / growth);
    }
    return static_cast<float>(1.1 * growth);
  }
};

/// The last grid, solved by Cholesky's method. Its rigid motions are held by a small stiffness to the ground.
class CoarsestGrid {
public:
  explicit CoarsestGrid(const ElementGrid& grid) : size_(3 * grid.mesh.nodes) {
    Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(size_, size_);
    for (std::size_t element = 0; element < grid.kinds.size(); ++element) {
      const BrickMatrix& own = grid.matrices[static_cast<std::size_t>(grid.kinds[element])];
      const auto& nodes = grid.mesh.elements[element];
      for (std::size_t a = 0; a < 8; ++a)
        for (std::size_t b = 0; b < 8; ++b)
          matrix.block<3, 3>(3 * nodes[a], 3 * nodes[b]) +=
              own.block<3, 3>(static_cast<Eigen::Index>(3 * a), static_cast<Eigen::Index>(3 * b));
    }
    scale_ = matrix.diagonal().cwiseSqrt().cwiseInverse();
    matrix = scale_.asDiagonal() * matrix * scale_.asDiagonal();
    matrix.diagonal().array() += 1e-6;
    factor_ = matrix.llt().matrixL();
  }

  void solve(const std::vector<float>& right_side, std::vector<float>& solution) const {
    Eigen::VectorXd vector = Eigen::Map<const Eigen::VectorXf>(right_side.data(), size_).cast<double>();
    vector.array() *= scale_.array();
    factor_.triangularView<Eigen::Lower>().solveInPlace(vector);
    factor_.transpose().triangularView<Eigen::Upper>().solveInPlace(vector);
    vector.array() *= scale_.array();
    Eigen::Map<Eigen::VectorXf>(solution.data(), size_) = vector.cast<float>();
  }

private:
  Eigen::Index size_;
  Eigen::VectorXd scale_;
  Eigen::MatrixXd factor_;
};

} // namespace

struct VoxelMultigrid::Levels {
  std::vector<std::array<std::int32_t, 8>> elements;
  VoxelSlabs slabs;
  BrickBlocks<double> blocks;
  std::vector<Level> grids;
  std::unique_ptr<CoarsestGrid> coarsest;
  std::vector<float> coarsest_right_side;
  std::vector<float> coarsest_solution;

  Levels(const VoxelMesh& mesh, const std::array<int, 3>& cells) : elements(mesh.elements), slabs(mesh, cells[2]) {}

  void cycle(std::size_t level) {
    Level& grid = grids[level];
    grid.smooth_first();
    if (level + 1 < grids.size()) {
      grid.restrict_to(grids[level + 1].right_side);
      cycle(level + 1);
      grid.correct_from(grids[level + 1].solution);
    } else {
      grid.restrict_to(coarsest_right_side);
      coarsest->solve(coarsest_right_side, coarsest_solution);
      grid.correct_from(coarsest_solution);
    }
    grid.smooth_last();
  }
};

VoxelMultigrid::VoxelMultigrid(const VoxelMesh& mesh, const std::array<int, 3>& cells, double poissons_ratio)
    : levels_(std::make_unique<Levels>(mesh, cells)) {
  ElementGrid grid{cells, mesh, std::vector<std::int32_t>(mesh.elements.size(), 0), {}};
  grid.matrices.push_back(brick_stiffness(mesh.spacing, poissons_ratio));
  levels_->blocks = brick_blocks(grid.matrices.front());
  while (levels_->grids.empty() || 3 * grid.mesh.nodes > coarsest_degrees) {
    ElementGrid next = coarser(grid);
    levels_->grids.emplace_back(grid, levels_->grids.empty());
    levels_->grids.back().transfer = grid_transfer(grid, next);
    grid = std::move(next);
  }
  levels_->coarsest = std::make_unique<CoarsestGrid>(grid);
  levels_->coarsest_right_side.resize(static_cast<std::size_t>(3 * grid.mesh.nodes));
  levels_->coarsest_solution.resize(static_cast<std::size_t>(3 * grid.mesh.nodes));
}

VoxelMultigrid::~VoxelMultigrid() = default;

void VoxelMultigrid::apply(const std::vector<double>& displacements, std::vector<double>& forces) const {
  forces.resize(displacements.size());
  in_pieces(forces.size(), [&](std::size_t begin, std::size_t end) {
    std::fill(forces.begin() + static_cast<std::ptrdiff_t>(begin), forces.begin() + static_cast<std::ptrdiff_t>(end),
              0.0);
  });
  levels_->slabs.for_each([&](std::size_t begin, std::size_t end) {
    add_brick_forces(levels_->blocks, levels_->elements.data() + begin, end - begin, displacements.data(),
                     forces.data());
  });
}

void VoxelMultigrid::precondition(const std::vector<double>& forces, std::vector<double>& displacements) const {
  Level& finest = levels_->grids.front();
  in_pieces(forces.size(), [&](std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i)
      finest.right_side[i] = static_cast<float>(forces[i]);
  });
  levels_->cycle(0);
  displacements.resize(forces.size());
  in_pieces(forces.size(), [&](std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i)
      displacements[i] = static_cast<double>(finest.solution[i]);
  });
}

int VoxelMultigrid::levels() const {
  return static_cast<int>(levels_->grids.size()) + 1;
}

double VoxelMultigrid::operations() const {
  return brick_operations * static_cast<double>(levels_->elements.size());
}

} // namespace crushwright
