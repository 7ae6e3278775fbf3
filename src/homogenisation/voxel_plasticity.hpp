#pragma once
#include "homogenisation/radial_return.hpp"
#include "homogenisation/voxel_mesh.hpp"

#include <array>
#include <cstdint>
#include <vector>

namespace crushwright {

/// The metal of a voxel solid with its plastic state: forces at the nodes from displacements and a macroscopic
/// strain, and the tangent of that. Young's modulus 1; bricks as in brick_element.hpp.
/// docs/method/voxel_plasticity.md.
///
/// Displacements are the periodic part that comes on top of the macroscopic strain, node by node, ux uy uz; shape =
/// (3 × nodes) [cell edges]. Forces are conjugate to them [Young's modulus × cell edges²]. The same bytes for any
/// number of threads.
class VoxelPlasticity {
public:
  /// @param box_volume  volume of the box that repeats [cell edges³]
  VoxelPlasticity(const VoxelMesh& mesh, double box_volume, PlasticMetal metal);

  std::size_t size() const { return 3 * static_cast<std::size_t>(nodes_); }

  /// Forces after a step from the accepted state to this strain, and the tangent there for `tangent_forces`.
  /// @return  macroscopic stress, the mean over the box
  Voigt forces(const std::vector<double>& displacements, const Voigt& strain, std::vector<double>& forces);

  /// The linear map about the last call of `forces`.
  Voigt tangent_forces(const std::vector<double>& displacements, const Voigt& strain, std::vector<double>& forces);

  /// Takes the step for good: its plastic strains become the state that the next step starts from.
  /// @return  the plastic work of this step, stress at its end times plastic strain, over the box volume
  double accept(const std::vector<double>& displacements, const Voigt& strain);

  /// Elastic energy of the accepted state over the box volume.
  double elastic_energy() const { return elastic_energy_; }

  /// Share of the metal's points that have yielded, in the accepted state [-].
  double yielded_share() const;

  /// Greatest Mises stress at a point of the metal; before any plastic strain.
  double greatest_mises(const std::vector<double>& displacements, const Voigt& strain);

private:
  // Four elements side by side fill a vector register; their values of one kind lie together.
  static constexpr std::size_t lanes = 4;
  static constexpr std::size_t points = 8;
  static constexpr std::size_t kept = 6; ///< values per point: five of a deviator and one scalar

  enum class Purpose { trial, accept, mises };

  std::int32_t nodes_ = 0;
  std::size_t blocks_ = 0;
  std::size_t elements_ = 0;
  double box_volume_ = 1;
  double point_volume_ = 0;
  std::array<double, 3> per_spacing_{};
  PlasticMetal metal_;
  std::vector<std::int32_t> corners_;  ///< node of each corner; shape = (blocks, 8, lanes)
  std::vector<double> live_;           ///< 1 for an element, 0 for the filling of the last block; (blocks, lanes)
  std::vector<std::int32_t> places_;   ///< where a node's forces lie in element_forces_; shape = (nodes, 8)
  std::vector<double> state_;          ///< plastic strain and its equivalent; shape = (blocks, 8 points, 6, lanes)
  std::vector<double> tangent_;        ///< flow direction and shear stiffness; shape as state_
  std::vector<double> element_forces_; ///< shape = (blocks, 24, lanes), then zeros
  std::vector<double> sums_;           ///< of a block: six stresses and two more; shape = (blocks, 8)
  double elastic_energy_ = 0;

  void place_elements(const VoxelMesh& mesh);
  void place_forces();
  void gather(const std::vector<double>& displacements, std::size_t block, double* local) const;
  void forces_of_block(const std::vector<double>& displacements, const Voigt& strain, std::size_t block,
                       Purpose purpose);
  void tangent_of_block(const std::vector<double>& displacements, const Voigt& strain, std::size_t block);
  void flow_of_point(std::size_t block, std::size_t point, const double* trial, double* factors, Purpose purpose,
                     double* sums);
  std::array<double, 8> summed() const;
  Voigt macroscopic(std::vector<double>& forces) const;
};

} // namespace crushwright
