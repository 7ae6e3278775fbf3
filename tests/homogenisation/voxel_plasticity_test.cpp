#include "homogenisation/voxel_plasticity.hpp"

#include "homogenisation/brick_element.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace crushwright;

namespace {

const double poisson = 0.3;
const double yield_strain = 0.004;

// Voxels of uneven edges, two thirds of them metal, no order in them.
VoxelMesh rough_mesh() {
  VoxelSolid solid;
  solid.cells = {4, 3, 5};
  solid.edges = {1.0, 0.9, 1.3};
  solid.metal.resize(60);
  for (std::size_t voxel = 0; voxel < 60; ++voxel) {
    solid.metal[voxel] = (voxel * 7) % 3 != 0;
  }
  return voxel_mesh(solid);
}

const double rough_volume = 1.0 * 0.9 * 1.3;

std::vector<double> random_vector(std::size_t size, double scale, unsigned seed) {
  std::mt19937 generator(seed);
  std::uniform_real_distribution<double> uniform(-scale, scale);
  std::vector<double> result(size);
  for (double& value : result) {
    value = uniform(generator);
  }
  return result;
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0;
  for (std::size_t entry = 0; entry < a.size(); ++entry) {
    sum += a[entry] * b[entry];
  }
  return sum;
}

// The same forces point by point from the brick's own strain matrices and the scalar radial return.
struct Slow {
  std::vector<double> forces;
  Voigt stress = Voigt::Zero();
};
Slow slow_forces(const VoxelMesh& mesh, const PlasticMetal& metal, const std::vector<double>& displacements,
                 const Voigt& strain) {
  Slow slow;
  slow.forces.assign(3 * static_cast<std::size_t>(mesh.nodes), 0.0);
  const double weight = mesh.spacing[0] * mesh.spacing[1] * mesh.spacing[2] / 8;
  for (const auto& element : mesh.elements) {
    Eigen::Matrix<double, 24, 1> local;
    for (std::size_t corner = 0; corner < 8; ++corner) {
      for (std::size_t axis = 0; axis < 3; ++axis) {
        local[static_cast<Eigen::Index>(3 * corner + axis)] =
            displacements[3 * static_cast<std::size_t>(element[corner]) + axis];
      }
    }
    for (const BrickStrain& at_point : brick_strains(mesh.spacing)) {
      const Voigt stress = radial_return(metal, strain + at_point * local, {}).stress;
      const Eigen::Matrix<double, 24, 1> force = weight * at_point.transpose() * stress;
      slow.stress += weight / rough_volume * stress;
      for (std::size_t corner = 0; corner < 8; ++corner) {
        for (std::size_t axis = 0; axis < 3; ++axis) {
          slow.forces[3 * static_cast<std::size_t>(element[corner]) + axis] +=
              force[static_cast<Eigen::Index>(3 * corner + axis)];
        }
      }
    }
  }
  return slow;
}

Voigt some_strain() {
  Voigt strain;
  strain << 0.006, -0.002, 0.001, 0.003, -0.002, 0.004;
  return strain;
}

} // namespace

TEST_CASE("forces of yielding voxels agree with the bricks' strain matrices and the return at one point") {
  const VoxelMesh mesh = rough_mesh();
  const PlasticMetal metal = plastic_metal(poisson, yield_strain, {{0, 0.01}, {1, 1.3}});
  VoxelPlasticity voxels(mesh, rough_volume, metal);
  const std::vector<double> displacements = random_vector(voxels.size(), 0.002, 3);
  std::vector<double> forces;
  const Voigt stress = voxels.forces(displacements, some_strain(), forces);
  const Slow slow = slow_forces(mesh, metal, displacements, some_strain());
  CHECK((stress - slow.stress).norm() < 1e-12 * slow.stress.norm());
  for (std::size_t entry = 0; entry < forces.size(); ++entry) {
    CHECK(std::abs(forces[entry] - slow.forces[entry]) < 1e-12 * std::sqrt(dot(slow.forces, slow.forces)));
  }
  voxels.accept(displacements, some_strain());
  CHECK(voxels.yielded_share() > 0.3); // otherwise the above would have tested elasticity
}

TEST_CASE("the tangent of voxels that have flowed before is the derivative of their forces and symmetric") {
  const VoxelMesh mesh = rough_mesh();
  VoxelPlasticity voxels(mesh, rough_volume, plastic_metal(poisson, yield_strain, {{0, 0.01}, {1, 1.3}}));
  voxels.accept(random_vector(voxels.size(), 0.002, 3), some_strain());
  const std::vector<double> state = random_vector(voxels.size(), 0.002, 4);
  const std::vector<double> change = random_vector(voxels.size(), 1, 5);
  const std::vector<double> other = random_vector(voxels.size(), 1, 6);
  const Voigt strain_change = 100 * some_strain();
  const double step = 1e-8;
  const auto moved = [&](double way, std::vector<double>& forces) {
    std::vector<double> there = state;
    for (std::size_t entry = 0; entry < there.size(); ++entry) {
      there[entry] += way * change[entry];
    }
    return voxels.forces(there, some_strain() + way * strain_change, forces);
  };
  std::vector<double> ahead;
  std::vector<double> behind;
  const Voigt stress_ahead = moved(step, ahead);
  const Voigt stress_behind = moved(-step, behind);
  std::vector<double> forces;
  voxels.forces(state, some_strain(), forces);
  std::vector<double> image;
  const Voigt stress_image = voxels.tangent_forces(change, strain_change, image);
  const double size = std::sqrt(dot(image, image));
  for (std::size_t entry = 0; entry < image.size(); ++entry) {
    CHECK(std::abs((ahead[entry] - behind[entry]) / (2 * step) - image[entry]) < 1e-5 * size);
  }
  CHECK(((stress_ahead - stress_behind) / (2 * step) - stress_image).norm() < 1e-5 * stress_image.norm());
  std::vector<double> other_image;
  const Voigt other_stress = voxels.tangent_forces(other, Voigt::Zero(), other_image);
  CHECK(dot(other, image) ==
        Approx(dot(change, other_image) + rough_volume * strain_change.dot(other_stress)).epsilon(1e-10));
}

TEST_CASE("elastic energy of the voxels is half of stress times strain") {
  const VoxelMesh mesh = rough_mesh();
  VoxelPlasticity voxels(mesh, rough_volume, plastic_metal(poisson, yield_strain, {{0}, {1}}));
  const std::vector<double> displacements = random_vector(voxels.size(), 1e-5, 3);
  const Voigt strain = 0.01 * some_strain();
  std::vector<double> forces;
  const Voigt stress = voxels.forces(displacements, strain, forces);
  CHECK(voxels.accept(displacements, strain) == 0);
  CHECK(voxels.elastic_energy() ==
        Approx(0.5 * (stress.dot(strain) + dot(forces, displacements) / rough_volume)).epsilon(1e-12));
}
