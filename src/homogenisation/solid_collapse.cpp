#include "homogenisation/solid_collapse.hpp"

#include "crushwright/errors.hpp"
#include "homogenisation/hardening_curve.hpp"
#include "homogenisation/voxel_multigrid.hpp"
#include "homogenisation/voxel_plasticity.hpp"
#include "homogenisation/voxel_solver.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>

namespace crushwright {

namespace {

using Vector = std::vector<double>;

constexpr std::size_t free_strains = 5;
constexpr double proof_offset = 0.002;
constexpr double largest_strain = 0.1;
constexpr double shortest_extension = 1e-4; ///< of a path that ended at first yield
// Correctors only shape the preconditioner: that they are rough costs an iteration or two.
constexpr double corrector_tolerance = 1e-2;
constexpr int most_elastic_iterations = 2000;
constexpr int most_corrections = 60;
constexpr int most_iterations_per_correction = 250;

void check(const Crushing& crushing) {
  check_hardening(crushing.hardening);
  const auto refuse = [](const char* what, double value, const char* range) {
    throw OutOfDomain(fmt::format("crushing of a solid: {} {} is not in {}", what, value, range));
  };
  if (!(crushing.poissons_ratio > -1 && crushing.poissons_ratio < 0.5)) {
    refuse("Poisson's ratio", crushing.poissons_ratio, "(-1, 0.5)");
  }
  if (!(crushing.yield_strain > 0 && crushing.yield_strain < 0.1)) {
    refuse("yield strain", crushing.yield_strain, "(0, 0.1)");
  }
  if (!(crushing.last_strain > 0 && crushing.last_strain <= largest_strain)) {
    refuse("last strain", crushing.last_strain, "(0, 0.1]");
  }
  if (!(crushing.direction.norm() > 0) || !crushing.direction.allFinite()) {
    refuse("length of the direction", crushing.direction.norm(), "(0, infinity)");
  }
}

Voigt flattened_strain(const Eigen::Matrix3d& tensor) {
  Voigt strain;
  strain << tensor(0, 0), tensor(1, 1), tensor(2, 2), 2 * tensor(1, 2), 2 * tensor(0, 2), 2 * tensor(0, 1);
  return strain;
}

// The macroscopic strain along the direction, then the five that are free.
std::array<Voigt, 1 + free_strains> strain_basis(const Eigen::Vector3d& direction) {
  const Eigen::Vector3d n = direction.normalized();
  const Eigen::Vector3d a = n.unitOrthogonal();
  const Eigen::Vector3d b = n.cross(a);
  const auto both = [](const Eigen::Vector3d& left, const Eigen::Vector3d& right) {
    return flattened_strain((left * right.transpose() + right * left.transpose()) / 2);
  };
  return {both(n, n), both(a, a), both(b, b), both(a, b), both(n, a), both(n, b)};
}

template <typename Function>
void for_each_entry(std::size_t size, const Function& function) {
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, size, 8192), [&](const auto& range) {
    for (std::size_t entry = range.begin(); entry < range.end(); ++entry) {
      function(entry);
    }
  });
}

void add_scaled(Vector& sum, double factor, const Vector& added) {
  for_each_entry(sum.size(), [&](std::size_t entry) { sum[entry] += factor * added[entry]; });
}

// Displacements of the nodes followed by the five free strains. Their conjugates: forces, and the stresses that
// should vanish times the volume of the box.
class UniaxialProblem {
public:
  UniaxialProblem(const VoxelSolid& solid, const Crushing& crushing)
      : mesh_(voxel_mesh(solid)), volume_(solid.edges[0] * solid.edges[1] * solid.edges[2]),
        metal_(mesh_, volume_, plastic_metal(crushing.poissons_ratio, crushing.yield_strain, crushing.hardening)),
        multigrid_(mesh_, solid.cells, crushing.poissons_ratio), basis_(strain_basis(crushing.direction)) {
    prepare_preconditioner();
  }

  std::size_t size() const { return metal_.size() + free_strains; }
  double volume() const { return volume_; }
  VoxelPlasticity& metal() { return metal_; }

  Vector displacements(const Vector& state) const {
    return {state.begin(), state.end() - static_cast<std::ptrdiff_t>(free_strains)};
  }
  Voigt strain(const Vector& state, double along) const {
    Voigt result = along * basis_[0];
    for (std::size_t k = 0; k < free_strains; ++k) {
      result += state[metal_.size() + k] * basis_[1 + k];
    }
    return result;
  }

  /// What is out of balance; returns the stress along the direction and keeps the greatest of the others.
  double out_of_balance(const Vector& state, double along, Vector& residual) {
    const Voigt stress = metal_.forces(displacements(state), strain(state, along), forces_);
    side_stress_ = 0;
    for (std::size_t k = 0; k < free_strains; ++k) {
      side_stress_ = std::max(side_stress_, std::abs(stress.dot(basis_[1 + k])));
    }
    conjugate(stress, -1, residual);
    return stress.dot(basis_[0]);
  }
  double side_stress() const { return side_stress_; }

  void tangent(const Vector& change, Vector& result) {
    conjugate(metal_.tangent_forces(displacements(change), strain(change, 0), forces_), 1, result);
  }

  /// Exact for an elastic solid but for the multigrid: the correctors take the free strains out of the forces.
  void precondition(const Vector& residual, Vector& direction) {
    const Vector forces = displacements(residual);
    Eigen::Matrix<double, free_strains, 1> free;
    for (std::size_t k = 0; k < free_strains; ++k) {
      free[static_cast<Eigen::Index>(k)] = residual[metal_.size() + k] + ordered_dot(correctors_[k], forces);
    }
    free = free_inverse_ * free;
    forces_.resize(metal_.size());
    multigrid_.precondition(forces, forces_);
    direction.resize(size());
    for_each_entry(metal_.size(), [&](std::size_t entry) {
      double sum = forces_[entry];
      for (std::size_t k = 0; k < free_strains; ++k) {
        sum += free[static_cast<Eigen::Index>(k)] * correctors_[k][entry];
      }
      direction[entry] = sum;
    });
    std::copy(free.begin(), free.end(), direction.begin() + static_cast<std::ptrdiff_t>(metal_.size()));
  }

  int preparing_iterations() const { return preparing_iterations_; }

private:
  VoxelMesh mesh_;
  double volume_;
  VoxelPlasticity metal_;
  VoxelMultigrid multigrid_;
  std::array<Voigt, 1 + free_strains> basis_;
  std::array<Vector, free_strains> correctors_;
  Eigen::Matrix<double, free_strains, free_strains> free_inverse_;
  Vector forces_;
  double side_stress_ = 0;
  int preparing_iterations_ = 0;

  void conjugate(const Voigt& stress, double sign, Vector& result) const {
    result.resize(size());
    for_each_entry(metal_.size(), [&](std::size_t entry) { result[entry] = sign * forces_[entry]; });
    for (std::size_t k = 0; k < free_strains; ++k) {
      result[metal_.size() + k] = sign * volume_ * stress.dot(basis_[1 + k]);
    }
  }

  void prepare_preconditioner() {
    const Vector still(metal_.size(), 0.0);
    // In a full block the forces of the bricks cancel at every node; what is left is no right side to solve for.
    const double rounding =
        1e-10 * mesh_.spacing[0] * mesh_.spacing[1] * std::sqrt(static_cast<double>(metal_.size()));
    const auto stiffness = [&](const Vector& x, Vector& y) { metal_.tangent_forces(x, Voigt::Zero(), y); };
    const auto inverse = [&](const Vector& x, Vector& y) { multigrid_.precondition(x, y); };
    Eigen::Matrix<double, free_strains, free_strains> free_stiffness;
    for (std::size_t k = 0; k < free_strains; ++k) {
      Vector right;
      metal_.tangent_forces(still, basis_[1 + k], right);
      for (double& force : right) {
        force = -force;
      }
      correctors_[k].assign(metal_.size(), 0.0);
      if (ordered_dot(right, right) > rounding * rounding) {
        preparing_iterations_ +=
            pcg(stiffness, inverse, right, correctors_[k], corrector_tolerance, most_elastic_iterations).iterations;
      }
      Vector left;
      const Voigt stress = metal_.tangent_forces(correctors_[k], basis_[1 + k], left);
      for (std::size_t other = 0; other <= k; ++other) {
        const double value = volume_ * stress.dot(basis_[1 + other]) + ordered_dot(correctors_[other], left);
        free_stiffness(static_cast<Eigen::Index>(k), static_cast<Eigen::Index>(other)) = value;
        free_stiffness(static_cast<Eigen::Index>(other), static_cast<Eigen::Index>(k)) = value;
      }
    }
    // A solid that does not hang together sideways has no stiffness there; such a strain is left at zero.
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix<double, free_strains, free_strains>> parts(free_stiffness);
    Eigen::Matrix<double, free_strains, 1> inverse_values = parts.eigenvalues();
    const double least = 1e-9 * std::max(parts.eigenvalues().maxCoeff(), volume_ * 1e-9);
    for (double& value : inverse_values) {
      value = value > least ? 1 / value : 0;
    }
    free_inverse_ = parts.eigenvectors() * inverse_values.asDiagonal() * parts.eigenvectors().transpose();
  }
};

struct LinearSolve {
  Vector change;
  int iterations = 0;
};

// Conjugate gradients on the tangent. `start` is the preconditioned residual. The tangent of perfect plasticity may
// be singular: where a direction meets no stiffness the way so far is taken.
LinearSolve solve_tangent(UniaxialProblem& problem, Vector residual, Vector direction, double reduction) {
  LinearSolve solve;
  solve.change.assign(residual.size(), 0.0);
  Vector preconditioned = direction;
  Vector image;
  double product = ordered_dot(residual, preconditioned);
  const double first = product;
  while (solve.iterations < most_iterations_per_correction) {
    problem.tangent(direction, image);
    ++solve.iterations;
    const double curvature = ordered_dot(direction, image);
    if (!(curvature > 1e-12 * product)) {
      if (solve.iterations == 1) {
        solve.change = direction;
      }
      break;
    }
    const double length = product / curvature;
    add_scaled(solve.change, length, direction);
    add_scaled(residual, -length, image);
    const Vector& before = preconditioned;
    Vector after;
    problem.precondition(residual, after);
    const double next = ordered_dot(residual, after);
    // Polak and Ribière's form: the preconditioner is symmetric only to single precision.
    const double turn = (next - ordered_dot(residual, before)) / product;
    preconditioned.swap(after);
    product = next;
    if (product <= reduction * reduction * first) {
      break;
    }
    for_each_entry(direction.size(),
                   [&](std::size_t entry) { direction[entry] = preconditioned[entry] + turn * direction[entry]; });
  }
  return solve;
}

// Newton's method on a convex energy: the tangent is its second derivative, the balance its first. A full step that
// goes too far, because points unload behind it, is cut where the energy has its least along the way.
class Crusher {
public:
  Crusher(const VoxelSolid& solid, const Crushing& crushing)
      : crushing_(crushing), problem_(solid, crushing), state_(problem_.size(), 0.0) {}

  CrushingPath run() {
    elastic_limit();
    for (const double target : targets()) {
      step_to(target);
    }
    while (crushing_.offset_to_reach > 0 && !offset_reached() && path_.strain.back() < largest_strain) {
      step_to(std::min(path_.strain.back() + crushing_.step_growth * std::max(last_step_, shortest_extension),
                       largest_strain));
    }
    path_.yielded_share = problem_.metal().yielded_share();
    path_.iterations += problem_.preparing_iterations();
    return path_;
  }

private:
  const Crushing& crushing_;
  UniaxialProblem problem_;
  Vector state_;
  Vector before_; ///< the state a step ago
  double last_step_ = 0;
  CrushingPath path_;

  bool offset_reached() const {
    const double plastic = path_.strain.back() - path_.stress.back() * crushing_.yield_strain / path_.elastic_modulus;
    return plastic >= crushing_.offset_to_reach;
  }

  // Starts from the last step carried on, which near collapse, where the mechanism no longer changes, is almost it.
  void step_to(double target) {
    const double step = target - path_.strain.back();
    Vector start = state_;
    if (last_step_ > 0) {
      for_each_entry(start.size(), [&](std::size_t entry) {
        start[entry] += step / last_step_ * (state_[entry] - before_[entry]);
      });
    }
    before_.swap(state_);
    state_.swap(start);
    add_point(target, balance(target));
    last_step_ = step;
  }

  void add_point(double strain, double stress) {
    const double work = problem_.metal().accept(problem_.displacements(state_), problem_.strain(state_, strain));
    path_.strain.push_back(strain);
    path_.stress.push_back(stress / crushing_.yield_strain);
    path_.elastic_energy.push_back(problem_.metal().elastic_energy() / crushing_.yield_strain);
    path_.plastic_work.push_back((path_.plastic_work.empty() ? 0 : path_.plastic_work.back()) +
                                 work / crushing_.yield_strain);
    path_.side_stress.push_back(problem_.side_stress() / crushing_.yield_strain);
  }

  // Under unit strain, with a tangent that is still elastic; then scaled to where the most stressed point yields.
  void elastic_limit() {
    add_point(0, 0);
    Vector right(problem_.size());
    const double probe = 0.1 * crushing_.yield_strain; // uniform over the metal so far, hence elastic
    problem_.out_of_balance(state_, probe, right);
    const PcgResult solved = pcg([&](const Vector& x, Vector& y) { problem_.tangent(x, y); },
                                 [&](const Vector& x, Vector& y) { problem_.precondition(x, y); }, right, state_,
                                 crushing_.elastic_tolerance, most_elastic_iterations);
    path_.iterations += solved.iterations;
    if (!solved.reached) {
      throw OutOfDomain(
          fmt::format("crushing of a solid: the elastic solve is at a relative residual of {:.2g} after "
                      "{} iterations, {:.2g} was asked for; take another grid",
                      solved.residual, solved.iterations, crushing_.elastic_tolerance));
    }
    const double greatest =
        problem_.metal().greatest_mises(problem_.displacements(state_), problem_.strain(state_, probe));
    const double scale = std::min(crushing_.yield_strain / greatest, crushing_.last_strain / probe);
    for (double& value : state_) {
      value *= scale;
    }
    Vector residual;
    const double stress = problem_.out_of_balance(state_, scale * probe, residual);
    path_.elastic_modulus = stress / (scale * probe);
    path_.first_yield = path_.elastic_modulus * probe / greatest;
    add_point(scale * probe, stress);
  }

  // Steps in geometric progression that end at the last strain.
  Vector targets() const {
    const double start = path_.strain.back();
    const double way = crushing_.last_strain - start;
    if (!(way > 1e-12 * crushing_.last_strain)) {
      return {};
    }
    double reached = 0;
    double step = 1;
    Vector sums;
    while (reached * crushing_.first_step * start < way) {
      reached += step;
      step *= crushing_.step_growth;
      sums.push_back(reached);
    }
    for (double& sum : sums) {
      sum = start + way * sum / reached;
    }
    return sums;
  }

  double balance(double target) {
    const double reference = std::sqrt(2 * problem_.volume() * problem_.metal().elastic_energy());
    Vector residual;
    double stress = problem_.out_of_balance(state_, target, residual);
    Vector preconditioned;
    for (int correction = 0; correction < most_corrections; ++correction) {
      problem_.precondition(residual, preconditioned);
      const double error = std::sqrt(std::max(0.0, ordered_dot(residual, preconditioned))) / reference;
      if (error <= crushing_.plastic_tolerance) {
        return stress;
      }
      const double reduction = std::clamp(0.3 * crushing_.plastic_tolerance / error, 0.1, 0.5);
      const LinearSolve solve = solve_tangent(problem_, residual, preconditioned, reduction);
      path_.iterations += solve.iterations;
      ++path_.corrections;
      stress = take(solve.change, target, residual);
    }
    throw OutOfDomain(
        fmt::format("crushing of a solid: no balance at strain {:.4g} after {} corrections; take a finer "
                    "grid, or a metal that hardens",
                    target, most_corrections));
  }

  double take(const Vector& change, double target, Vector& residual) {
    const double start_slope = ordered_dot(residual, change);
    double length = 1;
    double taken = 0;
    double stress = 0;
    for (int cut = 0; cut < 8; ++cut) {
      add_scaled(state_, length - taken, change);
      taken = length;
      stress = problem_.out_of_balance(state_, target, residual);
      const double slope = ordered_dot(residual, change);
      if (slope >= -0.7 * start_slope) {
        break;
      }
      length *= std::max(0.1, start_slope / (start_slope - slope));
    }
    return stress;
  }
};

double interpolated(const Vector& x, const Vector& y, double at) {
  for (std::size_t right = 1; right < x.size(); ++right) {
    if (at <= x[right]) {
      return y[right - 1] + (y[right] - y[right - 1]) * (at - x[right - 1]) / (x[right] - x[right - 1]);
    }
  }
  return y.back();
}

} // namespace

CrushingPath crushing_path(const VoxelSolid& solid, const Crushing& crushing) {
  check(crushing);
  return Crusher(solid, crushing).run();
}

double offset_stress(const CrushingPath& path, double yield_strain, double offset) {
  // Height of the path over the shifted elastic line, over the yield stress.
  const auto height = [&](std::size_t point) {
    return path.stress[point] - path.elastic_modulus * (path.strain[point] - offset) / yield_strain;
  };
  for (std::size_t right = 1; right < path.strain.size(); ++right) {
    const double before = height(right - 1);
    const double after = height(right);
    if (after <= 0) {
      return path.stress[right - 1] + (path.stress[right] - path.stress[right - 1]) * before / (before - after);
    }
  }
  throw OutOfDomain(fmt::format("collapse of a solid: at the last strain {:.4g} the plastic strain is still under "
                                "{:.4g}; go to a larger strain",
                                path.strain.back(), offset));
}

SolidCollapse solid_collapse(const UnitCell& cell, double size_ratio, double poissons_ratio, double yield_strain,
                             const HardeningCurve& hardening, const Eigen::Vector3d& direction, double last_strain,
                             const SolidOptions& options) {
  const VoxelSolid solid = voxel_solid(cell, size_ratio, options.grid);
  Crushing crushing;
  crushing.poissons_ratio = poissons_ratio;
  crushing.yield_strain = yield_strain;
  crushing.hardening = hardening;
  crushing.direction = direction;
  crushing.last_strain = last_strain;
  crushing.elastic_tolerance = options.tolerance;
  crushing.offset_to_reach = proof_offset;
  const CrushingPath path = crushing_path(solid, crushing);
  SolidCollapse result;
  result.direction = direction.normalized();
  result.relative_density = solid.relative_density;
  result.grid = options.grid;
  result.elastic_modulus = path.elastic_modulus;
  result.first_yield = path.first_yield;
  result.collapse = offset_stress(path, yield_strain, proof_offset);
  result.greatest = *std::max_element(path.stress.begin(), path.stress.end());
  const double window_start = 0.75 * path.strain.back();
  result.post_yield_slope = (path.stress.back() - interpolated(path.strain, path.stress, window_start)) *
                            yield_strain / (path.strain.back() - window_start);
  result.strain = path.strain;
  result.stress = path.stress;
  result.iterations = path.iterations;
  return result;
}

} // namespace crushwright
